/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a record says now, in two columns of names and values. */
#include "app/records/card.h"

static void
add_line (GtkGrid *grid, int at, const SwStoryLine *line)
{
  GtkWidget *label = sw_card_label (line->label, "sw-dim");
  GtkWidget *text = sw_card_value (line->after, "sw-bold");

  gtk_label_set_width_chars (GTK_LABEL (label), 17);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 17);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  gtk_widget_set_valign (text, GTK_ALIGN_START);
  gtk_widget_set_hexpand (text, TRUE);
  gtk_grid_attach (grid, label, 0, at, 1, 1);
  gtk_grid_attach (grid, text, 1, at, 1, 1);
}

static GtkGrid *
new_column (GtkWidget *columns)
{
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_row_spacing (GTK_GRID (grid), 3);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  gtk_widget_set_valign (grid, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (columns), grid);
  return GTK_GRID (grid);
}

GtkWidget *
sw_value_card_new (const char *heading, GPtrArray *lines)
{
  GtkWidget *card = sw_card_new (heading);
  GtkWidget *columns = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);
  GtkGrid *left = new_column (columns);
  GtkGrid *right = new_column (columns);
  const guint half = (lines->len + 1) / 2;

  gtk_box_set_homogeneous (GTK_BOX (columns), TRUE);
  for (guint i = 0; i < lines->len; i++)
    add_line (i < half ? left : right, (int)(i < half ? i : i - half), lines->pdata[i]);
  gtk_box_append (GTK_BOX (card), columns);
  return card;
}
