/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One small form of a list. */
#include "app/setup/form-card.h"

struct _SwFormCard
{
  GtkWidget parent_instance;

  GtkWidget *box;             /* Borrowed: the child */
  SwForm *form;               /* Borrowed: in the box */
  GtkWidget *up;              /* Borrowed; NULL when the list is not ordered */
  GtkWidget *down;            /* Borrowed; the same */
  const SwFormListSpec *spec; /* Borrowed, static */
  gpointer record;            /* Owned */
};

enum
{
  SIGNAL_CHANGED,
  SIGNAL_REMOVE,
  SIGNAL_MOVE_UP,
  SIGNAL_MOVE_DOWN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwFormCard, sw_form_card, GTK_TYPE_WIDGET)

static void
changed_cb (SwFormCard *self)
{
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

static void
remove_cb (SwFormCard *self)
{
  g_signal_emit (self, signals[SIGNAL_REMOVE], 0);
}

static void
up_cb (SwFormCard *self)
{
  g_signal_emit (self, signals[SIGNAL_MOVE_UP], 0);
}

static void
down_cb (SwFormCard *self)
{
  g_signal_emit (self, signals[SIGNAL_MOVE_DOWN], 0);
}

static void
sw_form_card_dispose (GObject *object)
{
  g_clear_pointer (&SW_FORM_CARD (object)->box, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_form_card_parent_class)->dispose (object);
}

static void
sw_form_card_finalize (GObject *object)
{
  SwFormCard *self = SW_FORM_CARD (object);

  if (self->record != NULL)
    self->spec->free (self->record);
  G_OBJECT_CLASS (sw_form_card_parent_class)->finalize (object);
}

static guint
add_signal (GType type, const char *name)
{
  return g_signal_new (name, type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
sw_form_card_class_init (SwFormCardClass *klass)
{
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_form_card_dispose;
  G_OBJECT_CLASS (klass)->finalize = sw_form_card_finalize;
  signals[SIGNAL_CHANGED] = add_signal (type, "changed");
  signals[SIGNAL_REMOVE] = add_signal (type, "remove");
  signals[SIGNAL_MOVE_UP] = add_signal (type, "move-up");
  signals[SIGNAL_MOVE_DOWN] = add_signal (type, "move-down");
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
sw_form_card_init (SwFormCard *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

static GtkWidget *
add_button (SwFormCard *self, GtkWidget *box, const char *name, const char *words, GCallback cb)
{
  g_autofree char *icon = g_strconcat (name, "-symbolic", NULL);
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_set_name (button, name);
  gtk_widget_set_tooltip_text (button, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  -1);
  gtk_widget_add_css_class (button, "flat");
  g_signal_connect_object (button, "clicked", cb, self, G_CONNECT_SWAPPED);
  gtk_box_append (GTK_BOX (box), button);
  return button;
}

static void
add_buttons (SwFormCard *self, const SwWording *wording)
{
  GtkWidget *buttons = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  if (self->spec->ordered)
    {
      self->up
          = add_button (self, buttons, "go-up", sw_tr (wording, "Move Up"), G_CALLBACK (up_cb));
      self->down = add_button (self, buttons, "go-down", sw_tr (wording, "Move Down"),
                               G_CALLBACK (down_cb));
    }
  add_button (self, buttons, "list-remove", sw_tr (wording, "Remove"), G_CALLBACK (remove_cb));
  gtk_widget_set_valign (buttons, self->spec->compact ? GTK_ALIGN_END : GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (self->box), buttons);
}

SwFormCard *
sw_form_card_new (SwContext *context, const SwFormListSpec *spec, gpointer record)
{
  SwFormCard *self = g_object_new (SW_TYPE_FORM_CARD, NULL);

  self->spec = spec;
  self->record = record;
  if (!spec->compact)
    gtk_widget_add_css_class (self->box, "sw-card");
  self->form = sw_form_new (context, spec->fields, spec->n_fields, spec->columns);
  sw_form_load (self->form, record);
  gtk_widget_set_hexpand (GTK_WIDGET (self->form), TRUE);
  gtk_box_append (GTK_BOX (self->box), GTK_WIDGET (self->form));
  add_buttons (self, sw_context_get_wording (context));
  g_signal_connect_object (self->form, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  return self;
}

SwForm *
sw_form_card_get_form (SwFormCard *self)
{
  g_return_val_if_fail (SW_IS_FORM_CARD (self), NULL);
  return self->form;
}

gconstpointer
sw_form_card_get_record (SwFormCard *self)
{
  g_return_val_if_fail (SW_IS_FORM_CARD (self), NULL);
  return self->record;
}

void
sw_form_card_set_movable (SwFormCard *self, gboolean up, gboolean down)
{
  g_return_if_fail (SW_IS_FORM_CARD (self));
  if (self->up == NULL)
    return;
  gtk_widget_set_sensitive (self->up, up);
  gtk_widget_set_sensitive (self->down, down);
}
