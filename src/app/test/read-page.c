/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tiles to say what the strip shows, drops to add, and always the name of the next action.
 *
 *   strip    tiles, between two, + drops as the guards of workflow allow     next: read, add, close
 *   notice   a message in their place: paused too long, passed in one step,  next: fresh portion,
 *            acid in too wide a step, over range                             close
 *
 * Keys: 1 .. n tiles, n+1 between two, + or Insert one drop, S shake, Backspace take back; Return
 * continues once the end point holds, and presses nothing before. None of them while text is being
 * typed. The focus goes to what comes next, but never by itself to a tile: a reading is made only
 * on purpose.
 */
#include "app/test/read-page-private.h"

#include "app/test/ask-page.h"
#include "app/test/field-tile.h"
#include "app/test/read-keys.h"
#include "wording/sentence-test.h"

G_DEFINE_FINAL_TYPE (SwReadPage, sw_read_page, SW_TYPE_STEP_PAGE)

static SwGuidedTest *
get_test (SwReadPage *self)
{
  return sw_step_page_get_test (SW_STEP_PAGE (self));
}

static const SwWording *
get_wording (SwReadPage *self)
{
  return sw_step_page_get_wording (SW_STEP_PAGE (self));
}

/* ---- moves ---- */

static void
read_field (SwReadPage *self, gint64 field)
{
  GError *error = NULL;
  gboolean moved = sw_guided_test_read (get_test (self), field, &error);

  sw_step_page_settle (SW_STEP_PAGE (self), moved, error);
}

static gboolean
add_steps (SwReadPage *self, double steps)
{
  GError *error = NULL;
  gboolean moved = sw_guided_test_add (get_test (self), steps, &error);

  return sw_step_page_settle (SW_STEP_PAGE (self), moved, error);
}

static void
tile_cb (SwFieldTile *tile, SwReadPage *self)
{
  read_field (self, sw_field_tile_get_field (tile));
}

static void
between_cb (GtkButton *button, SwReadPage *self)
{
  read_field (self, 0);
}

static void
add_cb (GtkButton *button, SwReadPage *self)
{
  add_steps (self, 1.0);
}

static void
several_cb (GtkButton *button, SwReadPage *self)
{
  gboolean burette = sw_guided_test_get_method (get_test (self))->burette;
  SwAmount steps = { 0 };
  gboolean good
      = sw_form_row_get_amount (self->several_steps, get_wording (self),
                                burette ? SW_QUANTITY_STEPS_ADDED : SW_QUANTITY_DROP_COUNT,
                                burette ? SW_UNIT_STEP : SW_UNIT_NONE, TRUE, &steps);

  if (!good)
    gtk_widget_grab_focus (GTK_WIDGET (self->several_steps));
  else if (add_steps (self, steps.value))
    {
      sw_form_row_set_text (self->several_steps, NULL);
      gtk_popover_popdown (self->several_popover);
    }
  g_free (steps.typed);
}

static void
shake_cb (SwShakeTimer *timer, SwReadPage *self)
{
  GError *error = NULL;
  gboolean moved = sw_guided_test_shake (get_test (self), &error);

  sw_step_page_settle (SW_STEP_PAGE (self), moved, error);
}

/* A refusal is said at once, before a reason is asked for. */
static void
take_back_cb (GtkButton *button, SwReadPage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  gint64 now_ms = sw_context_now (sw_step_page_get_context (page));
  g_autofree char *words = NULL;
  SwFact refusal;

  if (sw_guided_test_can (get_test (self), SW_MOVE_STRIKE, now_ms, &refusal))
    {
      sw_step_page_ask (page, SW_ASK_TAKE_BACK);
      return;
    }
  words = sw_say_fact (get_wording (self), &refusal);
  sw_step_page_set_message (page, words);
}

static void
close_cb (GtkButton *button, SwReadPage *self)
{
  GError *error = NULL;
  gboolean moved = sw_guided_test_close (get_test (self), &error);

  sw_step_page_settle (SW_STEP_PAGE (self), moved, error);
}

static void
fresh_cb (GtkButton *button, SwReadPage *self)
{
  sw_step_page_ask (SW_STEP_PAGE (self), SW_ASK_FRESH_PORTION);
}

/* ---- keys ---- */

static void
press (GtkWidget *button)
{
  if (gtk_widget_get_visible (button) && gtk_widget_is_sensitive (button))
    g_signal_emit_by_name (button, "clicked");
}

static gboolean
press_tile (SwReadPage *self, guint digit)
{
  GtkWidget *tile = gtk_widget_get_first_child (GTK_WIDGET (self->tiles));

  for (guint i = 1; i < digit && tile != NULL; i++)
    tile = gtk_widget_get_next_sibling (tile);
  if (tile == NULL && digit == sw_guided_test_get_fields (get_test (self))->len + 1)
    tile = GTK_WIDGET (self->between);
  if (tile == NULL || !gtk_widget_get_mapped (tile))
    return FALSE;
  press (tile);
  return TRUE;
}

static gboolean
key_cb (SwReadKey key, guint number, gpointer data)
{
  SwReadPage *self = SW_READ_PAGE (data);

  if (get_test (self) == NULL)
    return FALSE;
  switch (key)
    {
    case SW_READ_KEY_TILE:
      return press_tile (self, number);
    case SW_READ_KEY_ADD:
      /* Also where the button is off: the refusal names what comes first. */
      if (gtk_widget_get_visible (GTK_WIDGET (self->add)))
        add_steps (self, 1.0);
      return TRUE;
    case SW_READ_KEY_SHAKE:
      shake_cb (self->timer, self);
      return TRUE;
    case SW_READ_KEY_TAKE_BACK:
      take_back_cb (NULL, self);
      return TRUE;
    default:
      g_return_val_if_reached (FALSE);
    }
}

/* The keys are the window's while the page is on screen, wherever the focus is. */
static void
sw_read_page_map (GtkWidget *widget)
{
  SwReadPage *self = SW_READ_PAGE (widget);

  GTK_WIDGET_CLASS (sw_read_page_parent_class)->map (widget);
  self->keys = sw_read_keys_new (key_cb, self);
  gtk_widget_add_controller (GTK_WIDGET (gtk_widget_get_root (widget)), self->keys);
}

static void
sw_read_page_unmap (GtkWidget *widget)
{
  SwReadPage *self = SW_READ_PAGE (widget);

  if (self->keys != NULL)
    gtk_widget_remove_controller (gtk_event_controller_get_widget (self->keys), self->keys);
  self->keys = NULL;
  GTK_WIDGET_CLASS (sw_read_page_parent_class)->unmap (widget);
}

/* ---- class ---- */

static void
fill (SwStepPage *page)
{
  SwReadPage *self = SW_READ_PAGE (page);
  const SwWording *wording = get_wording (self);
  GPtrArray *fields = sw_guided_test_get_fields (get_test (self));
  g_autofree char *between = sw_say_between_key (wording, fields->len + 1);
  g_autofree char *one
      = sw_say_add_one (wording, sw_guided_test_get_method (get_test (self))->burette);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->tiles))) != NULL)
    gtk_box_remove (self->tiles, child);
  for (guint i = 0; i < fields->len; i++)
    {
      GtkWidget *tile = sw_field_tile_new (wording, g_ptr_array_index (fields, i), i + 1);

      g_signal_connect (tile, "clicked", G_CALLBACK (tile_cb), self);
      gtk_box_append (self->tiles, tile);
    }
  gtk_button_set_label (self->between, between);
  gtk_button_set_label (self->add, one);
  sw_form_row_set_text (self->several_steps, NULL);
}

static void
close_page (SwStepPage *page)
{
  sw_shake_timer_stop (SW_READ_PAGE (page)->timer);
  gtk_popover_popdown (SW_READ_PAGE (page)->several_popover);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, tiles);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, notice);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, notice_mark);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, notice_words);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, between);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, take_back);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, count);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, ladder_scroller);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, ladder);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, timer);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, caution);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, add);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, several);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, several_popover);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, several_steps);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, several_go);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, close);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, fresh);
  gtk_widget_class_bind_template_child (widget_class, SwReadPage, next);
  gtk_widget_class_bind_template_callback (widget_class, between_cb);
  gtk_widget_class_bind_template_callback (widget_class, take_back_cb);
  gtk_widget_class_bind_template_callback (widget_class, add_cb);
  gtk_widget_class_bind_template_callback (widget_class, several_cb);
  gtk_widget_class_bind_template_callback (widget_class, shake_cb);
  gtk_widget_class_bind_template_callback (widget_class, close_cb);
  gtk_widget_class_bind_template_callback (widget_class, fresh_cb);
}

static void
sw_read_page_class_init (SwReadPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->map = sw_read_page_map;
  widget_class->unmap = sw_read_page_unmap;
  SW_STEP_PAGE_CLASS (klass)->fill = fill;
  SW_STEP_PAGE_CLASS (klass)->show = sw_read_page_show;
  SW_STEP_PAGE_CLASS (klass)->close = close_page;
  g_type_ensure (SW_TYPE_VERDICT);
  g_type_ensure (SW_TYPE_LADDER);
  g_type_ensure (SW_TYPE_SHAKE_TIMER);
  g_type_ensure (SW_TYPE_CAUTION_BAR);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/test/read-page.ui");
  bind_children (widget_class);
}

static void
sw_read_page_init (SwReadPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  sw_step_page_add_place (SW_STEP_PAGE (self), SW_QUANTITY_STEPS_ADDED, SW_FACT_NONE,
                          GTK_WIDGET (self->several_steps));
}
