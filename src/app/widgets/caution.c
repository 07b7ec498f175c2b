/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A caution: the words large, a method's own text below, and always the line that defers. */
#include "app/widgets/caution.h"

#include "app/widgets/verdict.h"

struct _SwCautionBar
{
  GtkWidget parent_instance;

  /* Template children */
  GtkLabel *words;
  GtkLabel *extra;
  GtkLabel *defer;
};

G_DEFINE_FINAL_TYPE (SwCautionBar, sw_caution_bar, GTK_TYPE_WIDGET)

static void
sw_caution_bar_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_caution_bar_parent_class)->dispose (object);
}

static void
sw_caution_bar_class_init (SwCautionBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_caution_bar_dispose;
  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/widgets/caution.ui");
  gtk_widget_class_bind_template_child (widget_class, SwCautionBar, words);
  gtk_widget_class_bind_template_child (widget_class, SwCautionBar, extra);
  gtk_widget_class_bind_template_child (widget_class, SwCautionBar, defer);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swcaution");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_ALERT);
}

static void
sw_caution_bar_init (SwCautionBar *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
sw_caution_bar_new (void)
{
  return g_object_new (SW_TYPE_CAUTION_BAR, NULL);
}

void
sw_caution_bar_set (SwCautionBar *self, const SwWording *wording, SwCaution caution)
{
  g_return_if_fail (SW_IS_CAUTION_BAR (self) && caution < SW_N_CAUTIONS);

  gtk_label_set_text (self->words, sw_say_caution (wording, caution));
  gtk_label_set_text (self->defer, sw_say_caution (wording, SW_CAUTION_DEFER));
  /* Where the caution is the deferring line itself, it is said once. */
  gtk_widget_set_visible (GTK_WIDGET (self->defer), caution != SW_CAUTION_DEFER);
}

void
sw_caution_bar_set_extra (SwCautionBar *self, const char *text)
{
  g_return_if_fail (SW_IS_CAUTION_BAR (self));

  gtk_label_set_text (self->extra, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->extra), text != NULL && *text != '\0');
}
