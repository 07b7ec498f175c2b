/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list of small forms of one kind.
 *
 * Invariants:
 *   1. cards are the children of the box, in the same order.
 *   2. loaded holds the ids that sw_form_list_load brought, in their order: whatever of them no
 *      card has any more was removed.
 */
#include "app/setup/form-card.h"

struct _SwFormList
{
  GtkWidget parent_instance;

  /* Template children */
  GtkLabel *title;
  GtkLabel *hint;
  GtkLabel *empty;
  GtkBox *box;
  GtkButton *add;

  /* Owned */
  SwContext *context;
  GPtrArray *cards; /* SwFormCard, borrowed: children of the box */
  GArray *loaded;   /* gint64 */

  const SwFormListSpec *spec; /* Borrowed, static */
};

enum
{
  SIGNAL_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwFormList, sw_form_list, GTK_TYPE_WIDGET)

static SwFormCard *
card_at (SwFormList *self, guint i)
{
  return g_ptr_array_index (self->cards, i);
}

static SwForm *
form_at (SwFormList *self, guint i)
{
  return sw_form_card_get_form (card_at (self, i));
}

static gint64
id_at (SwFormList *self, guint i)
{
  return ((const SwRecord *)sw_form_card_get_record (card_at (self, i)))->id;
}

static const char *
translate (SwFormList *self, const char *text)
{
  return sw_tr (sw_context_get_wording (self->context), text);
}

static void
emit_changed (SwFormList *self)
{
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

/* The first cannot go up, the last not down; no cards: the empty line. */
static void
show_order (SwFormList *self)
{
  for (guint i = 0; i < self->cards->len; i++)
    sw_form_card_set_movable (card_at (self, i), i > 0, i + 1 < self->cards->len);
  gtk_widget_set_visible (GTK_WIDGET (self->empty), self->cards->len == 0);
}

/* ---- buttons of a card ---- */

static void
remove_cb (SwFormList *self, SwFormCard *card)
{
  g_ptr_array_remove (self->cards, card);
  gtk_box_remove (self->box, GTK_WIDGET (card));
  show_order (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->add));
  emit_changed (self);
}

/* One place up (-1) or down (1). */
static void
move_card (SwFormList *self, SwFormCard *card, int by)
{
  guint at = 0;
  SwFormCard *other;

  g_return_if_fail (g_ptr_array_find (self->cards, card, &at));
  if (by < 0 ? at == 0 : at + 1 == self->cards->len)
    return;
  other = card_at (self, by < 0 ? at - 1 : at + 1);
  if (by < 0)
    gtk_box_reorder_child_after (self->box, GTK_WIDGET (other), GTK_WIDGET (card));
  else
    gtk_box_reorder_child_after (self->box, GTK_WIDGET (card), GTK_WIDGET (other));
  self->cards->pdata[at] = other;
  self->cards->pdata[by < 0 ? at - 1 : at + 1] = card;
  show_order (self);
  emit_changed (self);
}

static void
up_cb (SwFormList *self, SwFormCard *card)
{
  move_card (self, card, -1);
}

static void
down_cb (SwFormList *self, SwFormCard *card)
{
  move_card (self, card, 1);
}

/* Takes @record. */
static SwFormCard *
append_card (SwFormList *self, gpointer record)
{
  SwFormCard *card = sw_form_card_new (self->context, self->spec, record);

  gtk_box_append (self->box, GTK_WIDGET (card));
  g_ptr_array_add (self->cards, card);
  g_signal_connect_object (card, "changed", G_CALLBACK (emit_changed), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (card, "remove", G_CALLBACK (remove_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (card, "move-up", G_CALLBACK (up_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (card, "move-down", G_CALLBACK (down_cb), self, G_CONNECT_SWAPPED);
  return card;
}

static void
add_cb (SwFormList *self)
{
  sw_form_list_add (self);
}

/* ---- class ---- */

static void
sw_form_list_dispose (GObject *object)
{
  SwFormList *self = SW_FORM_LIST (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_pointer (&self->cards, g_ptr_array_unref);
  g_clear_pointer (&self->loaded, g_array_unref);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_form_list_parent_class)->dispose (object);
}

static void
sw_form_list_class_init (SwFormListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_form_list_dispose;
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST,
                                          0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/setup/form-list.ui");
  gtk_widget_class_bind_template_child (widget_class, SwFormList, title);
  gtk_widget_class_bind_template_child (widget_class, SwFormList, hint);
  gtk_widget_class_bind_template_child (widget_class, SwFormList, empty);
  gtk_widget_class_bind_template_child (widget_class, SwFormList, box);
  gtk_widget_class_bind_template_child (widget_class, SwFormList, add);
  gtk_widget_class_bind_template_callback (widget_class, add_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swformlist");
}

static void
sw_form_list_init (SwFormList *self)
{
  self->cards = g_ptr_array_new ();
  self->loaded = g_array_new (FALSE, FALSE, sizeof (gint64));
  gtk_widget_init_template (GTK_WIDGET (self));
}

SwFormList *
sw_form_list_new (SwContext *context, const SwFormListSpec *spec)
{
  SwFormList *self = g_object_new (SW_TYPE_FORM_LIST, "name", spec->id, NULL);

  self->context = g_object_ref (context);
  self->spec = spec;
  gtk_label_set_text (self->title, translate (self, spec->title));
  gtk_label_set_text (self->empty, translate (self, spec->empty));
  gtk_widget_set_visible (GTK_WIDGET (self->hint), spec->hint != NULL);
  if (spec->hint != NULL)
    gtk_label_set_text (self->hint, translate (self, spec->hint));
  gtk_button_set_label (self->add, translate (self, spec->add_label));
  return self;
}

/* ---- records in and out ---- */

void
sw_form_list_load (SwFormList *self, GPtrArray *records)
{
  g_return_if_fail (SW_IS_FORM_LIST (self) && records != NULL);

  for (guint i = 0; i < self->cards->len; i++)
    gtk_box_remove (self->box, GTK_WIDGET (card_at (self, i)));
  g_ptr_array_set_size (self->cards, 0);
  g_array_set_size (self->loaded, 0);
  for (guint i = 0; i < records->len; i++)
    {
      SwRecord *record = self->spec->copy (g_ptr_array_index (records, i));

      append_card (self, record);
      if (record->id != 0)
        g_array_append_val (self->loaded, record->id);
    }
  show_order (self);
  emit_changed (self);
}

GPtrArray *
sw_form_list_save (SwFormList *self)
{
  g_autoptr (GPtrArray) records = NULL;
  gboolean good = TRUE;

  g_return_val_if_fail (SW_IS_FORM_LIST (self), NULL);
  records = g_ptr_array_new_with_free_func (self->spec->free);
  /* From the last to the first, so that the first wrong field has the focus in the end. */
  for (guint i = self->cards->len; i-- > 0;)
    {
      gpointer record = self->spec->copy (sw_form_card_get_record (card_at (self, i)));

      g_ptr_array_insert (records, 0, record);
      good = sw_form_save (form_at (self, i), record) && good;
    }
  return good ? g_steal_pointer (&records) : NULL;
}

GPtrArray *
sw_form_list_peek (SwFormList *self)
{
  GPtrArray *records;

  g_return_val_if_fail (SW_IS_FORM_LIST (self), NULL);
  records = g_ptr_array_new_with_free_func (self->spec->free);
  for (guint i = 0; i < self->cards->len; i++)
    {
      gpointer record = self->spec->copy (sw_form_card_get_record (card_at (self, i)));

      if (sw_form_peek (form_at (self, i), record))
        g_ptr_array_add (records, record);
      else
        self->spec->free (record);
    }
  return records;
}

static gboolean
has_id (SwFormList *self, gint64 id)
{
  for (guint i = 0; i < self->cards->len; i++)
    if (id_at (self, i) == id)
      return TRUE;
  return FALSE;
}

GArray *
sw_form_list_removed (SwFormList *self)
{
  GArray *removed;

  g_return_val_if_fail (SW_IS_FORM_LIST (self), NULL);
  removed = g_array_new (FALSE, FALSE, sizeof (gint64));
  for (guint i = 0; i < self->loaded->len; i++)
    if (!has_id (self, g_array_index (self->loaded, gint64, i)))
      g_array_append_val (removed, g_array_index (self->loaded, gint64, i));
  return removed;
}

/* A loaded record that is gone, a new one, another order, or a field. */
gboolean
sw_form_list_is_changed (SwFormList *self)
{
  g_return_val_if_fail (SW_IS_FORM_LIST (self), FALSE);
  if (self->cards->len != self->loaded->len)
    return TRUE;
  for (guint i = 0; i < self->cards->len; i++)
    if (id_at (self, i) != g_array_index (self->loaded, gint64, i)
        || sw_form_is_changed (form_at (self, i)))
      return TRUE;
  return FALSE;
}

gboolean
sw_form_list_show_error (SwFormList *self, const GError *error)
{
  g_return_val_if_fail (SW_IS_FORM_LIST (self), FALSE);
  for (guint i = 0; i < self->cards->len; i++)
    if (sw_form_show_error (form_at (self, i), error))
      return TRUE;
  return FALSE;
}

void
sw_form_list_refresh (SwFormList *self)
{
  g_return_if_fail (SW_IS_FORM_LIST (self));
  for (guint i = 0; i < self->cards->len; i++)
    sw_form_refresh (form_at (self, i));
}

SwForm *
sw_form_list_add (SwFormList *self)
{
  SwForm *form;

  g_return_val_if_fail (SW_IS_FORM_LIST (self), NULL);
  form = sw_form_card_get_form (append_card (self, self->spec->create ()));
  show_order (self);
  sw_form_focus (form, NULL);
  emit_changed (self);
  return form;
}

guint
sw_form_list_get_n_forms (SwFormList *self)
{
  g_return_val_if_fail (SW_IS_FORM_LIST (self), 0);
  return self->cards->len;
}

SwForm *
sw_form_list_get_form (SwFormList *self, guint nth)
{
  g_return_val_if_fail (SW_IS_FORM_LIST (self) && nth < self->cards->len, NULL);
  return form_at (self, nth);
}

void
sw_form_list_focus (SwFormList *self)
{
  g_return_if_fail (SW_IS_FORM_LIST (self));
  if (self->cards->len > 0)
    sw_form_focus (form_at (self, 0), NULL);
  else
    gtk_widget_grab_focus (GTK_WIDGET (self->add));
}
