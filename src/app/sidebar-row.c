/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One row of the sidebar. */
#include "app/sidebar-row.h"

struct _SwSidebarRow
{
  GtkListBoxRow parent_instance;

  /* Template children */
  SwVerdict *mark;
  GtkLabel *count;
  GtkImage *icon;
  GtkLabel *name;
  GtkLabel *word;
  GtkLabel *due;

  gint64 machine;
};

G_DEFINE_FINAL_TYPE (SwSidebarRow, sw_sidebar_row, GTK_TYPE_LIST_BOX_ROW)

static void
sw_sidebar_row_class_init (SwSidebarRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/sidebar-row.ui");
  gtk_widget_class_bind_template_child (widget_class, SwSidebarRow, mark);
  gtk_widget_class_bind_template_child (widget_class, SwSidebarRow, count);
  gtk_widget_class_bind_template_child (widget_class, SwSidebarRow, icon);
  gtk_widget_class_bind_template_child (widget_class, SwSidebarRow, name);
  gtk_widget_class_bind_template_child (widget_class, SwSidebarRow, word);
  gtk_widget_class_bind_template_child (widget_class, SwSidebarRow, due);
}

static void
sw_sidebar_row_init (SwSidebarRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
sw_sidebar_row_new (gint64 machine)
{
  SwSidebarRow *self = g_object_new (SW_TYPE_SIDEBAR_ROW, NULL);

  self->machine = machine;
  return GTK_WIDGET (self);
}

gint64
sw_sidebar_row_get_machine (SwSidebarRow *self)
{
  g_return_val_if_fail (SW_IS_SIDEBAR_ROW (self), 0);
  return self->machine;
}

const char *
sw_sidebar_row_get_name (SwSidebarRow *self)
{
  g_return_val_if_fail (SW_IS_SIDEBAR_ROW (self), "");
  return gtk_label_get_text (self->name);
}

void
sw_sidebar_row_set_words (SwSidebarRow *self, const char *name, const char *word, const char *due)
{
  g_return_if_fail (SW_IS_SIDEBAR_ROW (self));

  gtk_label_set_text (self->name, name);
  gtk_label_set_text (self->word, word);
  gtk_label_set_text (self->due, due);
  /* Cut text can be read in full. */
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), name);
}

void
sw_sidebar_row_set_mark (SwSidebarRow *self, SwVerdictKind kind)
{
  g_return_if_fail (SW_IS_SIDEBAR_ROW (self));
  sw_verdict_set_kind (self->mark, kind);
}

void
sw_sidebar_row_set_count (SwSidebarRow *self, const char *count)
{
  g_return_if_fail (SW_IS_SIDEBAR_ROW (self));

  gtk_label_set_text (self->count, count);
  gtk_widget_set_visible (GTK_WIDGET (self->count), *count != '\0');
  gtk_widget_set_visible (GTK_WIDGET (self->mark), *count == '\0');
}

void
sw_sidebar_row_set_icon (SwSidebarRow *self, const char *icon_name)
{
  g_return_if_fail (SW_IS_SIDEBAR_ROW (self));

  gtk_image_set_from_icon_name (self->icon, icon_name);
  gtk_widget_set_visible (GTK_WIDGET (self->icon), TRUE);
  gtk_widget_set_visible (GTK_WIDGET (self->mark), FALSE);
}

static gboolean
holds (GtkLabel *label, const char *folded)
{
  g_autofree char *text = g_utf8_casefold (gtk_label_get_text (label), -1);

  return strstr (text, folded) != NULL;
}

gboolean
sw_sidebar_row_matches (SwSidebarRow *self, const char *text)
{
  g_return_val_if_fail (SW_IS_SIDEBAR_ROW (self), FALSE);

  g_autofree char *folded = g_utf8_casefold (text, -1);
  return holds (self->name, folded) || holds (self->word, folded);
}
