/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A solvent's form in a popover. */
#include "app/setup/solvent-button.h"

#include "app/plant-words.h"
#include "app/setup/section-liquids.h"
#include "app/setup/setup-guard.h"

#define WIDTH 510
#define LEAST_HEIGHT 300
#define MOST_HEIGHT 420

struct _SwSolventButton
{
  GtkWidget parent_instance;

  SwContext *context; /* Owned */

  /* Borrowed */
  GtkWidget *button; /* the child */
  GtkWidget *popover;
  SwEditor *editor;
  GtkLabel *fault;
};

enum
{
  SIGNAL_ADDED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwSolventButton, sw_solvent_button, GTK_TYPE_WIDGET)

/* @words NULL: nothing. */
static void
say (SwSolventButton *self, const char *words)
{
  gtk_label_set_text (self->fault, words != NULL ? words : "");
  gtk_widget_set_visible (GTK_WIDGET (self->fault), words != NULL);
}

static void
show_fault (SwSolventButton *self, const GError *error)
{
  g_autofree char *words
      = error != NULL ? sw_plant_say_error (sw_context_get_wording (self->context), error) : NULL;

  say (self, words);
}

static void
add_cb (SwSolventButton *self)
{
  g_autoptr (GError) error = NULL;
  const char *why;
  gint64 id;

  show_fault (self, NULL);
  if (!sw_setup_may_write (GTK_WIDGET (self), self->context, SW_TABLE_SOLVENT, &why))
    {
      say (self, why);
      return;
    }
  if (!sw_editor_save (self->editor, sw_context_get_actor (self->context), &error))
    {
      if (error != NULL && !sw_editor_show_error (self->editor, error))
        show_fault (self, error);
      return;
    }
  id = sw_editor_get_id (self->editor);
  gtk_popover_popdown (GTK_POPOVER (self->popover));
  sw_editor_open (self->editor, 0, NULL);
  sw_context_changed (self->context);
  g_signal_emit (self, signals[SIGNAL_ADDED], 0, id);
}

static void
sw_solvent_button_dispose (GObject *object)
{
  SwSolventButton *self = SW_SOLVENT_BUTTON (object);

  g_clear_pointer (&self->button, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_solvent_button_parent_class)->dispose (object);
}

static void
sw_solvent_button_class_init (SwSolventButtonClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = sw_solvent_button_dispose;
  signals[SIGNAL_ADDED] = g_signal_new ("added", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0,
                                        NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
sw_solvent_button_init (SwSolventButton *self)
{
  self->button = gtk_menu_button_new ();
  self->popover = gtk_popover_new ();
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->button), self->popover);
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
}

static GtkWidget *
build_content (SwSolventButton *self)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  GtkWidget *add = gtk_button_new_with_label (sw_tr (wording, "Add Solvent"));
  GtkWidget *fault = gtk_label_new (NULL);

  self->editor = SW_EDITOR (sw_record_editor_new (self->context, &sw_solvent_record_spec));
  self->fault = GTK_LABEL (fault);
  gtk_label_set_wrap (self->fault, TRUE);
  gtk_widget_add_css_class (fault, "sw-wrong");
  gtk_widget_set_visible (fault, FALSE);
  gtk_widget_set_name (add, "add-now");
  gtk_widget_set_halign (add, GTK_ALIGN_END);
  gtk_widget_set_margin_start (box, 6);
  gtk_widget_set_margin_end (box, 6);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->editor));
  gtk_box_append (GTK_BOX (box), fault);
  gtk_box_append (GTK_BOX (box), add);
  g_signal_connect_object (add, "clicked", G_CALLBACK (add_cb), self, G_CONNECT_SWAPPED);
  return box;
}

/* As wide as a form needs, however long its hints are, and no higher than a small window. */
static GtkWidget *
build_frame (GtkWidget *content)
{
  GtkWidget *frame = gtk_scrolled_window_new ();
  GtkScrolledWindow *window = GTK_SCROLLED_WINDOW (frame);

  gtk_scrolled_window_set_policy (window, GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (window, content);
  gtk_scrolled_window_set_propagate_natural_height (window, TRUE);
  gtk_scrolled_window_set_max_content_height (window, MOST_HEIGHT);
  gtk_widget_set_size_request (frame, WIDTH, LEAST_HEIGHT);
  return frame;
}

GtkWidget *
sw_solvent_button_new (SwContext *context)
{
  SwSolventButton *self = g_object_new (SW_TYPE_SOLVENT_BUTTON, "name", "add-solvent", NULL);

  self->context = g_object_ref (context);
  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->button),
                             sw_tr (sw_context_get_wording (context), "Add Solvent…"));
  gtk_popover_set_child (GTK_POPOVER (self->popover), build_frame (build_content (self)));
  sw_editor_open (self->editor, 0, NULL);
  return GTK_WIDGET (self);
}
