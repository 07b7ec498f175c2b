/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up: the sections on the side, the chosen one beside them.
 *
 * Invariants:
 *   1. A section is built when it is first shown and then kept: what was typed in it stays while
 *      another one is looked at.
 *   2. The row selected on the side is the section shown.
 */
#include "app/setup/setup-page.h"

#include "app/setup/section.h"

static const SwSectionSpec *const specs[] = {
  &sw_section_machines, &sw_section_methods,  &sw_section_products,
  &sw_section_lots,     &sw_section_droppers, &sw_section_solvents,
  &sw_section_people,   &sw_section_site,     &sw_section_backups,
};

struct _SwSetupPage
{
  GtkWidget parent_instance;

  /* Template children */
  GtkListBox *side;
  GtkStack *stack;

  SwContext *context; /* Owned */
};

G_DEFINE_FINAL_TYPE (SwSetupPage, sw_setup_page, GTK_TYPE_WIDGET)

static void
open_other_cb (SwSetupPage *self, const char *section, gint64 id, const char *field)
{
  sw_setup_page_open (self, section, id, field);
}

/* The section of that name, built when it is not there yet. */
static GtkWidget *
get_section (SwSetupPage *self, const SwSectionSpec *spec)
{
  GtkWidget *section = gtk_stack_get_child_by_name (self->stack, spec->name);

  if (section != NULL)
    return section;
  section = spec->page != NULL ? spec->page (self->context)
                               : sw_setup_section_new (self->context, spec);
  if (spec->page == NULL)
    g_signal_connect_object (section, "open-other", G_CALLBACK (open_other_cb), self,
                             G_CONNECT_SWAPPED);
  gtk_stack_add_named (self->stack, section, spec->name);
  return section;
}

static void
row_selected_cb (GtkListBox *side, GtkListBoxRow *row, SwSetupPage *self)
{
  if (row == NULL || self->context == NULL)
    return;
  gtk_stack_set_visible_child (self->stack,
                               get_section (self, specs[gtk_list_box_row_get_index (row)]));
}

static void
sw_setup_page_dispose (GObject *object)
{
  SwSetupPage *self = SW_SETUP_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  g_clear_object (&self->context);
  g_clear_pointer (&child, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_setup_page_parent_class)->dispose (object);
}

static void
sw_setup_page_class_init (SwSetupPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_setup_page_dispose;
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/setup/setup-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwSetupPage, side);
  gtk_widget_class_bind_template_child (widget_class, SwSetupPage, stack);
  gtk_widget_class_bind_template_callback (widget_class, row_selected_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_setup_page_init (SwSetupPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
sw_setup_page_new (SwContext *context)
{
  SwSetupPage *self = g_object_new (SW_TYPE_SETUP_PAGE, NULL);

  self->context = g_object_ref (context);
  for (gsize i = 0; i < G_N_ELEMENTS (specs); i++)
    {
      GtkWidget *label = gtk_label_new (sw_tr (sw_context_get_wording (context), specs[i]->title));

      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_list_box_append (self->side, label);
    }
  sw_setup_page_show (self, specs[0]->name);
  return GTK_WIDGET (self);
}

static int
find_spec (const char *section)
{
  for (gsize i = 0; i < G_N_ELEMENTS (specs); i++)
    if (g_strcmp0 (specs[i]->name, section) == 0)
      return (int)i;
  return -1;
}

void
sw_setup_page_show (SwSetupPage *self, const char *section)
{
  int at;

  g_return_if_fail (SW_IS_SETUP_PAGE (self));
  if (section == NULL)
    return;
  at = find_spec (section);
  g_return_if_fail (at >= 0);
  gtk_list_box_select_row (self->side, gtk_list_box_get_row_at_index (self->side, at));
}

void
sw_setup_page_open (SwSetupPage *self, const char *section, gint64 id, const char *field)
{
  g_return_if_fail (SW_IS_SETUP_PAGE (self) && find_spec (section) >= 0);
  sw_setup_page_show (self, section);
  sw_setup_section_open (SW_SETUP_SECTION (get_section (self, specs[find_spec (section)])), id,
                         field);
}
