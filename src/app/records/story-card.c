/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A story: one entry per journal row, who did it, when and why, and below each value that it
 * changed, the old one struck and the new one beside it. What a new row was written with is folded
 * away on a record's own page, where the card above has most of it. */
#include "app/records/card.h"

/* ---- a changed value ---- */

static void
add_line (GtkGrid *grid, int at, const SwStoryLine *line, const char *empty)
{
  GtkWidget *values = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = sw_card_label (line->label, "sw-dim");

  /* The same in every entry, so that the values stand below one another. */
  gtk_label_set_width_chars (GTK_LABEL (label), 22);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 22);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  if (line->before != NULL)
    gtk_box_append (GTK_BOX (values), sw_card_value (line->before, "sw-old"));
  gtk_box_append (GTK_BOX (values),
                  sw_card_value (line->after != NULL ? line->after : empty, "sw-bold"));
  gtk_widget_set_hexpand (values, TRUE);
  gtk_grid_attach (grid, label, 0, at, 1, 1);
  gtk_grid_attach (grid, values, 1, at, 1, 1);
}

static GtkWidget *
make_lines (SwContext *context, const SwStoryEntry *entry)
{
  const char *empty = sw_trc (sw_context_get_wording (context), "value", "empty");
  GtkWidget *grid = gtk_grid_new ();

  gtk_grid_set_row_spacing (GTK_GRID (grid), 3);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 18);
  gtk_widget_add_css_class (grid, "sw-changes");
  for (guint i = 0; i < entry->lines->len; i++)
    add_line (GTK_GRID (grid), (int)i, entry->lines->pdata[i], empty);
  return grid;
}

/* A new row: nothing had a value before. */
static gboolean
is_new (const SwStoryEntry *entry)
{
  for (guint i = 0; i < entry->lines->len; i++)
    if (((const SwStoryLine *)entry->lines->pdata[i])->before != NULL)
      return FALSE;
  return TRUE;
}

/* ---- an entry ---- */

/* The record that an entry of an act is about, as a link. */
static void
add_record (
    GtkBox *box, SwContext *context, const SwStoryEntry *entry, SwFollow follow, gpointer data)
{
  g_autoptr (GArray) links = g_array_new (FALSE, FALSE, sizeof (SwLink));
  const SwLink link = { NULL, (int)entry->table, entry->row };

  if (entry->table == SW_N_TABLES)
    return;
  g_array_append_val (links, link);
  gtk_box_append (box, sw_card_links_new (context, links, follow, data));
}

static void
add_entry (GtkBox *card,
           SwContext *context,
           const SwStoryEntry *entry,
           gboolean first,
           SwFollow follow,
           gpointer data)
{
  gtk_box_append (card, sw_card_label (entry->sentence, entry->voids ? "sw-wrong" : NULL));
  if (follow != NULL)
    add_record (card, context, entry, follow, data);
  if (entry->lines->len == 0)
    return;
  GtkWidget *lines = make_lines (context, entry);
  if (follow == NULL && first && is_new (entry))
    {
      GtkWidget *fold
          = gtk_expander_new (sw_tr (sw_context_get_wording (context), "As it was first written"));
      gtk_expander_set_child (GTK_EXPANDER (fold), lines);
      lines = fold;
    }
  gtk_box_append (card, lines);
}

GtkWidget *
sw_story_card_new (SwContext *context, GPtrArray *entries, SwFollow follow, gpointer data)
{
  const SwWording *wording = sw_context_get_wording (context);
  GtkWidget *card = sw_card_new (follow != NULL ? sw_tr (wording, "What was written")
                                                : sw_tr (wording, "Story"));

  for (guint i = 0; i < entries->len; i++)
    {
      if (i > 0)
        gtk_box_append (GTK_BOX (card), gtk_separator_new (GTK_ORIENTATION_HORIZONTAL));
      add_entry (GTK_BOX (card), context, entries->pdata[i], i == 0, follow, data);
    }
  return card;
}
