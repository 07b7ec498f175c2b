/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which days a list shows.
 *
 * Invariant: from_ms and to_ms are what the button says; what is typed behind it counts only once
 * it was applied, and stays there with its error when it is no date.
 */
#include "app/records/date-pick.h"

#include <glib/gi18n.h>

#include "app/widgets/form-row.h"
#include "wording/sentence-list.h"
#include "wording/sentence-setup.h"
#include "wording/sentence-todo.h"

#define DAY_MS G_GINT64_CONSTANT (86400000)

struct _SwDatePick
{
  GtkWidget parent_instance;

  /* Template children */
  GtkMenuButton *button;
  GtkLabel *words;
  GtkPopover *popover;
  SwFormRow *from;
  SwFormRow *to;

  SwContext *context; /* Owned */
  gint64 from_ms;
  gint64 to_ms;
};

static guint signal_changed;

G_DEFINE_FINAL_TYPE (SwDatePick, sw_date_pick, GTK_TYPE_WIDGET)

static void
show_words (SwDatePick *self)
{
  g_autofree char *words
      = sw_say_days (sw_context_get_wording (self->context), self->from_ms, self->to_ms);

  gtk_label_set_text (self->words, words);
}

/* The last day of a span that ends before @to_ms. */
static gint64
last_day (gint64 to_ms)
{
  return to_ms - 1;
}

static void
show_typed (SwDatePick *self)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autofree char *from = self->from_ms != 0 ? sw_date_typed_format (wording, self->from_ms) : NULL;
  g_autofree char *to
      = self->to_ms != 0 ? sw_date_typed_format (wording, last_day (self->to_ms)) : NULL;

  sw_form_row_set_text (self->from, from);
  sw_form_row_set_text (self->to, to);
  sw_form_row_set_error (self->from, NULL);
  sw_form_row_set_error (self->to, NULL);
}

static void
apply (SwDatePick *self, gint64 from_ms, gint64 to_ms)
{
  gboolean same = self->from_ms == from_ms && self->to_ms == to_ms;

  gtk_popover_popdown (self->popover);
  sw_date_pick_set (self, from_ms, to_ms);
  if (!same)
    g_signal_emit (self, signal_changed, 0);
}

/* ---- usual spans ---- */

/* Today and the @days - 1 before it. */
static void
apply_days (SwDatePick *self, int days)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  gint64 today = sw_day_start (wording, sw_context_now (self->context));

  /* From noon, so that an hour more or less in a day changes nothing. */
  apply (self, sw_day_start (wording, today + DAY_MS / 2 - (days - 1) * DAY_MS), 0);
}

static void
any_cb (GtkButton *button, SwDatePick *self)
{
  apply (self, 0, 0);
}

static void
today_cb (GtkButton *button, SwDatePick *self)
{
  apply_days (self, 1);
}

static void
week_cb (GtkButton *button, SwDatePick *self)
{
  apply_days (self, 7);
}

static void
month_cb (GtkButton *button, SwDatePick *self)
{
  apply_days (self, 30);
}

static void
year_cb (GtkButton *button, SwDatePick *self)
{
  apply_days (self, 365);
}

/* ---- typed dates ---- */

/* Reads a row; an empty one is 0. FALSE with the error at the row. */
static gboolean
read_day (SwDatePick *self, SwFormRow *row, gint64 *day_ms)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autofree char *text = g_strstrip (g_strdup (sw_form_row_get_text (row)));
  g_autoptr (GError) error = NULL;

  *day_ms = 0;
  sw_form_row_set_error (row, NULL);
  if (*text == '\0')
    return TRUE;
  if (sw_iso_parse (text, sw_wording_get_zone (wording), day_ms, &error))
    return TRUE;
  g_autofree char *words = sw_say_error (wording, error);
  sw_form_row_set_error (row, words);
  gtk_widget_grab_focus (sw_form_row_get_entry (row));
  return FALSE;
}

static void
apply_cb (GtkWidget *widget, SwDatePick *self)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  gint64 from_ms, to_ms;

  if (!read_day (self, self->from, &from_ms) || !read_day (self, self->to, &to_ms))
    return;
  if (from_ms != 0 && to_ms != 0 && to_ms < from_ms)
    {
      sw_form_row_set_error (self->to, sw_tr (wording, "The last day is before the first."));
      gtk_widget_grab_focus (sw_form_row_get_entry (self->to));
      return;
    }
  /* The last day counts whole: up to the next midnight, found from its noon. */
  apply (self, from_ms,
         to_ms != 0 ? sw_day_start (wording, sw_day_start (wording, to_ms) + DAY_MS + DAY_MS / 2)
                    : 0);
}

/* ---- class ---- */

static gboolean
sw_date_pick_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_DATE_PICK (widget)->button));
}

static void
sw_date_pick_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&SW_DATE_PICK (object)->context);
  G_OBJECT_CLASS (sw_date_pick_parent_class)->dispose (object);
}

static void
sw_date_pick_class_init (SwDatePickClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_date_pick_dispose;
  widget_class->grab_focus = sw_date_pick_grab_focus;
  signal_changed = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                 NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (SW_TYPE_FORM_ROW);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/records/date-pick.ui");
  gtk_widget_class_bind_template_child (widget_class, SwDatePick, button);
  gtk_widget_class_bind_template_child (widget_class, SwDatePick, words);
  gtk_widget_class_bind_template_child (widget_class, SwDatePick, popover);
  gtk_widget_class_bind_template_child (widget_class, SwDatePick, from);
  gtk_widget_class_bind_template_child (widget_class, SwDatePick, to);
  gtk_widget_class_bind_template_callback (widget_class, any_cb);
  gtk_widget_class_bind_template_callback (widget_class, today_cb);
  gtk_widget_class_bind_template_callback (widget_class, week_cb);
  gtk_widget_class_bind_template_callback (widget_class, month_cb);
  gtk_widget_class_bind_template_callback (widget_class, year_cb);
  gtk_widget_class_bind_template_callback (widget_class, apply_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_date_pick_init (SwDatePick *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  /* The button centres what it holds; beside drop-downs the words begin where theirs do. */
  gtk_widget_set_halign (gtk_widget_get_parent (GTK_WIDGET (self->words)), GTK_ALIGN_FILL);
}

void
sw_date_pick_set_context (SwDatePick *self, SwContext *context)
{
  g_return_if_fail (SW_IS_DATE_PICK (self) && self->context == NULL);

  self->context = g_object_ref (context);
  sw_date_pick_set (self, 0, 0);
}

void
sw_date_pick_get (SwDatePick *self, gint64 *from_ms, gint64 *to_ms)
{
  g_return_if_fail (SW_IS_DATE_PICK (self));

  *from_ms = self->from_ms;
  *to_ms = self->to_ms;
}

void
sw_date_pick_set (SwDatePick *self, gint64 from_ms, gint64 to_ms)
{
  g_return_if_fail (SW_IS_DATE_PICK (self));

  self->from_ms = from_ms;
  self->to_ms = to_ms;
  show_words (self);
  show_typed (self);
}
