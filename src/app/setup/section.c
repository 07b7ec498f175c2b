/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One section of the set-up.
 *
 *            add, a line, Go On With It
 *   list  ------------------------------->  form
 *         <-------------------------------
 *            saved, cancelled, taken out of use
 *
 * Invariant: the draft bar is shown exactly while the list is shown and the form behind it holds
 * something typed that is not saved; opening another record lets that go.
 */
#include "app/setup/section.h"

#include "app/setup/form-page.h"
#include "wording/sentence-setup.h"

struct _SwSetupSection
{
  GtkWidget parent_instance;

  /* Template children */
  GtkStack *stack;
  GtkLabel *title;
  GtkButton *add;
  GtkWidget *draft_bar;
  GtkLabel *draft_words;
  GtkButton *resume;
  GtkWidget *empty;
  GtkLabel *empty_words;
  GtkWidget *scroller;
  GtkListView *list;
  GtkCheckButton *show_voided;

  /* Owned */
  SwContext *context;
  SwSetupList *model;

  SwFormPage *form;          /* Borrowed: in the stack */
  const SwSectionSpec *spec; /* Borrowed, static */
};

enum
{
  SIGNAL_OPEN_OTHER,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwSetupSection, sw_setup_section, GTK_TYPE_WIDGET)

static const char *
translate (SwSetupSection *self, const char *text)
{
  return sw_tr (sw_context_get_wording (self->context), text);
}

/* ---- the list ---- */

static void
reload_list (SwSetupSection *self)
{
  SwStore *store = sw_context_get_store (self->context);
  GArray *ids = sw_record_ids (store, self->spec->table, NULL, 0, NULL);
  g_autoptr (GArray) voided = sw_record_voided_ids (store, self->spec->table, NULL);
  gboolean any_voided = voided != NULL && voided->len > 0;

  if (ids == NULL)
    ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  if (any_voided && gtk_check_button_get_active (self->show_voided))
    g_array_append_vals (ids, voided->data, voided->len);
  gtk_widget_set_visible (self->empty, ids->len == 0);
  gtk_widget_set_visible (self->scroller, ids->len > 0);
  gtk_widget_set_visible (GTK_WIDGET (self->show_voided), any_voided);
  sw_setup_list_take_ids (self->model, ids);
}

static void
reload_cb (SwSetupSection *self)
{
  if (self->model != NULL)
    reload_list (self);
}

static void
show_list_cb (SwSetupSection *self)
{
  gboolean draft = sw_form_page_is_changed (self->form);
  g_autofree char *words = NULL;

  if (self->spec->single)
    return;
  if (draft)
    words = sw_say_draft (sw_context_get_wording (self->context),
                          sw_form_page_get_title (self->form));
  gtk_label_set_text (self->draft_words, words != NULL ? words : "");
  gtk_widget_set_visible (self->draft_bar, draft);
  gtk_stack_set_visible_child_name (self->stack, "list");
  gtk_widget_grab_focus (draft ? GTK_WIDGET (self->resume) : GTK_WIDGET (self->add));
}

/* ---- what the person does ---- */

static void
show_form (SwSetupSection *self, const char *field)
{
  gtk_widget_set_visible (self->draft_bar, FALSE);
  gtk_stack_set_visible_child_name (self->stack, "form");
  sw_form_page_focus (self->form, field);
}

static void
add_cb (SwSetupSection *self)
{
  sw_setup_section_open (self, 0, NULL);
}

static void
resume_cb (SwSetupSection *self)
{
  show_form (self, NULL);
}

static void
row_activated_cb (SwSetupSection *self, guint position)
{
  g_autoptr (SwSetupItem) item = g_list_model_get_item (G_LIST_MODEL (self->model), position);

  if (item != NULL)
    sw_setup_section_open (self, sw_setup_item_get_id (item), NULL);
}

static void
open_other_cb (SwSetupSection *self, const char *section, gint64 id, const char *field)
{
  g_signal_emit (self, signals[SIGNAL_OPEN_OTHER], 0, section, id, field);
}

/* ---- class ---- */

static void
sw_setup_section_dispose (GObject *object)
{
  SwSetupSection *self = SW_SETUP_SECTION (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&self->model);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_setup_section_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, SwSetupSection, stack);
  gtk_widget_class_bind_template_child (widget_class, SwSetupSection, title);
  gtk_widget_class_bind_template_child (widget_class, SwSetupSection, add);
  gtk_widget_class_bind_template_child (widget_class, SwSetupSection, draft_bar);
  gtk_widget_class_bind_template_child (widget_class, SwSetupSection, draft_words);
  gtk_widget_class_bind_template_child (widget_class, SwSetupSection, resume);
  gtk_widget_class_bind_template_child (widget_class, SwSetupSection, empty);
  gtk_widget_class_bind_template_child (widget_class, SwSetupSection, empty_words);
  gtk_widget_class_bind_template_child (widget_class, SwSetupSection, scroller);
  gtk_widget_class_bind_template_child (widget_class, SwSetupSection, list);
  gtk_widget_class_bind_template_child (widget_class, SwSetupSection, show_voided);
  gtk_widget_class_bind_template_callback (widget_class, add_cb);
  gtk_widget_class_bind_template_callback (widget_class, resume_cb);
  gtk_widget_class_bind_template_callback (widget_class, reload_cb);
  gtk_widget_class_bind_template_callback (widget_class, row_activated_cb);
}

static void
sw_setup_section_class_init (SwSetupSectionClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_setup_section_dispose;
  signals[SIGNAL_OPEN_OTHER]
      = g_signal_new ("open-other", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                      NULL, G_TYPE_NONE, 3, G_TYPE_STRING, G_TYPE_INT64, G_TYPE_STRING);
  g_type_ensure (SW_TYPE_SETUP_ITEM);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/setup/section.ui");
  bind_children (widget_class);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_setup_section_init (SwSetupSection *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
fill_list_page (SwSetupSection *self)
{
  const SwSectionSpec *spec = self->spec;
  g_autoptr (GtkNoSelection) shown = NULL;

  gtk_label_set_text (self->title, translate (self, spec->title));
  gtk_button_set_label (self->add, translate (self, spec->add_label));
  gtk_label_set_text (self->empty_words, translate (self, spec->empty));
  gtk_button_set_label (self->resume, translate (self, N_ ("Go On With It")));
  gtk_check_button_set_label (self->show_voided, translate (self, N_ ("Show what is out of use")));
  gtk_widget_set_visible (GTK_WIDGET (self->add),
                          !sw_store_is_read_only (sw_context_get_store (self->context)));
  self->model = sw_setup_list_new (self->context, spec->describe);
  /* a view takes a reference of its own: one too many would keep the file open for good */
  shown = gtk_no_selection_new (g_object_ref (G_LIST_MODEL (self->model)));
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (shown));
  reload_list (self);
}

GtkWidget *
sw_setup_section_new (SwContext *context, const SwSectionSpec *spec)
{
  SwSetupSection *self = g_object_new (SW_TYPE_SETUP_SECTION, "name", spec->name, NULL);

  self->context = g_object_ref (context);
  self->spec = spec;
  self->form = SW_FORM_PAGE (sw_form_page_new (context, spec));
  gtk_stack_add_named (self->stack, GTK_WIDGET (self->form), "form");
  if (spec->single)
    gtk_stack_set_visible_child_name (self->stack, "form");
  else
    fill_list_page (self);
  g_signal_connect_object (self->form, "leave", G_CALLBACK (show_list_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->form, "open-other", G_CALLBACK (open_other_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (context, "changed", G_CALLBACK (reload_cb), self, G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}

const SwSectionSpec *
sw_setup_section_get_spec (SwSetupSection *self)
{
  g_return_val_if_fail (SW_IS_SETUP_SECTION (self), NULL);
  return self->spec;
}

void
sw_setup_section_open (SwSetupSection *self, gint64 id, const char *field)
{
  g_return_if_fail (SW_IS_SETUP_SECTION (self));
  if (!self->spec->single)
    sw_form_page_open (self->form, id);
  show_form (self, field);
}
