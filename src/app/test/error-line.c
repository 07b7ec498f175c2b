/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Visible exactly while it has a text. */
#include "app/test/error-line.h"

#include "app/widgets/verdict.h"

struct _SwErrorLine
{
  GtkWidget parent_instance;

  /* Template children */
  GtkWidget *layout;
  GtkLabel *words;
};

G_DEFINE_FINAL_TYPE (SwErrorLine, sw_error_line, GTK_TYPE_WIDGET)

static void
sw_error_line_dispose (GObject *object)
{
  g_clear_pointer (&SW_ERROR_LINE (object)->layout, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_error_line_parent_class)->dispose (object);
}

static void
sw_error_line_class_init (SwErrorLineClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_error_line_dispose;
  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/test/error-line.ui");
  gtk_widget_class_bind_template_child (widget_class, SwErrorLine, layout);
  gtk_widget_class_bind_template_child (widget_class, SwErrorLine, words);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swerrorline");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_ALERT);
}

static void
sw_error_line_init (SwErrorLine *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_error_line_set (SwErrorLine *self, const char *text)
{
  gtk_label_set_text (self->words, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self), text != NULL);
}

const char *
sw_error_line_get (SwErrorLine *self)
{
  return gtk_widget_get_visible (GTK_WIDGET (self)) ? gtk_label_get_text (self->words) : NULL;
}
