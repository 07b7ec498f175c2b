/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who works now.
 *
 * The list is filled each time it opens: people change rarely, and no row can then be stale. A
 * person who is no longer active (or gone) is not left picked after a change of the file.
 */
#include "app/person-button.h"

#include "wording/sentence-todo.h"

struct _SwPersonButton
{
  GtkWidget parent_instance;

  /* Owned */
  SwContext *context;

  /* Template children */
  GtkMenuButton *button;
  GtkLabel *name;
  GtkPopover *popover;
  GtkListBox *list;
};

enum
{
  SIGNAL_CLOSED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwPersonButton, sw_person_button, GTK_TYPE_WIDGET)

#define PERSON_KEY "sw-person"

static void
show_person (SwPersonButton *self)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  gint64 id = sw_context_get_person (self->context);
  g_autoptr (SwPerson) person
      = id != 0 ? sw_person_load (sw_context_get_store (self->context), id, NULL) : NULL;

  if (id != 0 && (person == NULL || !person->active || person->record.voided))
    {
      sw_context_set_person (self->context, 0);
      return; /* "person-changed" comes back here */
    }
  if (person == NULL)
    gtk_label_set_text (self->name, sw_tr (wording, "Who works now?"));
  else
    gtk_label_set_text (self->name, person->name);
}

static GtkWidget *
make_row (const SwPerson *person, gboolean picked)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *initials = gtk_label_new (person->initials);
  GtkWidget *name = gtk_label_new (person->name);

  gtk_label_set_width_chars (GTK_LABEL (initials), 4);
  gtk_label_set_xalign (GTK_LABEL (initials), 0);
  gtk_widget_add_css_class (initials, "sw-dim");
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_widget_set_hexpand (name, TRUE);
  if (picked)
    gtk_widget_add_css_class (name, "sw-bold");
  gtk_box_append (GTK_BOX (box), initials);
  gtk_box_append (GTK_BOX (box), name);
  if (picked)
    gtk_box_append (GTK_BOX (box), gtk_image_new_from_icon_name ("object-select-symbolic"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, person->name,
                                  -1);
  return row;
}

static void
fill_list (SwPersonButton *self)
{
  SwStore *store = sw_context_get_store (self->context);
  gint64 picked = sw_context_get_person (self->context);
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_PERSON, NULL, 0, NULL);
  GtkWidget *row;

  while ((row = GTK_WIDGET (gtk_list_box_get_row_at_index (self->list, 0))) != NULL)
    gtk_list_box_remove (self->list, row);
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gint64 *id = &g_array_index (ids, gint64, i);
      g_autoptr (SwPerson) person = sw_person_load (store, *id, NULL);

      if (person == NULL || !person->active)
        continue;
      row = make_row (person, *id == picked);
      g_object_set_data_full (G_OBJECT (row), PERSON_KEY, g_memdup2 (id, sizeof *id), g_free);
      gtk_list_box_append (self->list, row);
    }
}

/* Before the popover shows: the focus goes to its first row, which must be there by then. */
static void
popup_cb (GtkMenuButton *button, gpointer data)
{
  fill_list (SW_PERSON_BUTTON (data));
}

static void
row_activated_cb (GtkListBox *list, GtkListBoxRow *row, SwPersonButton *self)
{
  const gint64 *id = g_object_get_data (G_OBJECT (row), PERSON_KEY);

  sw_context_set_person (self->context, *id);
  gtk_popover_popdown (self->popover);
}

static void
closed_cb (GtkPopover *popover, SwPersonButton *self)
{
  g_signal_emit (self, signals[SIGNAL_CLOSED], 0);
}

static void
sw_person_button_dispose (GObject *object)
{
  SwPersonButton *self = SW_PERSON_BUTTON (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_person_button_parent_class)->dispose (object);
}

static void
sw_person_button_class_init (SwPersonButtonClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_person_button_dispose;
  signals[SIGNAL_CLOSED] = g_signal_new ("closed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0,
                                         NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/person-button.ui");
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, button);
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, name);
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, popover);
  gtk_widget_class_bind_template_child (widget_class, SwPersonButton, list);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, closed_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_person_button_init (SwPersonButton *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_person_button_set_context (SwPersonButton *self, SwContext *context)
{
  g_return_if_fail (SW_IS_PERSON_BUTTON (self) && self->context == NULL);

  self->context = g_object_ref (context);
  g_signal_connect_object (context, "person-changed", G_CALLBACK (show_person), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (context, "changed", G_CALLBACK (show_person), self, G_CONNECT_SWAPPED);
  gtk_menu_button_set_create_popup_func (self->button, popup_cb, self, NULL);
  show_person (self);
}

void
sw_person_button_ask (SwPersonButton *self)
{
  g_return_if_fail (SW_IS_PERSON_BUTTON (self));
  gtk_menu_button_popup (self->button);
}
