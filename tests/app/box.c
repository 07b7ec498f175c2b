/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Answers the boxes through their widgets. */
#include "tests/app/box.h"

#include <string.h>

GtkWidget *
sw_box_over (GtkWidget *window)
{
  SwModal *modal = sw_modal_over (gtk_window_get_child (GTK_WINDOW (window)));

  return modal != NULL ? GTK_WIDGET (modal) : NULL;
}

void
sw_box_type (GtkWidget *box, const char *id, const char *text)
{
  GtkWidget *row = sw_find_widget (box, GTK_TYPE_WIDGET, id);
  GtkWidget *entry = sw_find_widget (row, GTK_TYPE_PASSWORD_ENTRY, NULL);

  g_assert_true (gtk_widget_get_visible (row));
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

void
sw_box_press (GtkWidget *box, const char *id)
{
  GtkWidget *button = sw_find_widget (box, GTK_TYPE_BUTTON, id);

  g_assert_true (gtk_widget_is_sensitive (button));
  g_signal_emit_by_name (button, "clicked");
}

void
sw_box_answer (GtkWidget *box, const char *secret)
{
  sw_box_type (box, "secret", secret);
  sw_box_press (box, "sign");
}

void
sw_box_pick (GtkWidget *box, const char *name)
{
  GtkWidget *label = sw_find_text (box, name);

  g_assert_nonnull (label);
  GtkWidget *row = gtk_widget_get_ancestor (label, GTK_TYPE_LIST_BOX_ROW);
  gtk_list_box_select_row (GTK_LIST_BOX (gtk_widget_get_parent (row)), GTK_LIST_BOX_ROW (row));
}

gboolean
sw_box_says (GtkWidget *box, const char *words)
{
  g_autofree char *text = sw_visible_text (box);

  return strstr (text, words) != NULL;
}
