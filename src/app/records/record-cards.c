/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts the cards of a record's page together. */
#include "app/records/record-cards.h"

#include "app/plant-words.h"
#include "app/records/card.h"

static void
add_links (GtkBox *cards,
           SwContext *context,
           const char *heading,
           GArray *links,
           SwFollow follow,
           gpointer data)
{
  if (links->len == 0)
    return;
  GtkWidget *card = sw_card_new (heading);
  gtk_box_append (GTK_BOX (card), sw_card_links_new (context, links, follow, data));
  gtk_box_append (cards, card);
}

static void
add_error (GtkBox *cards, SwContext *context, const GError *error)
{
  g_autofree char *words = sw_plant_say_error (sw_context_get_wording (context), error);

  gtk_box_append (cards, sw_card_label (words, "sw-wrong"));
}

static void
add_story (GtkBox *cards, SwContext *context, const SwBrowseRow *row)
{
  SwStore *store = sw_context_get_store (context);
  const SwWording *wording = sw_context_get_wording (context);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) lines = sw_story_columns (store, wording, row->table, row->id, &error);
  g_autoptr (GPtrArray) entries
      = lines != NULL ? sw_story_tell (store, wording, row->table, row->id, &error) : NULL;

  if (entries == NULL)
    {
      add_error (cards, context, error);
      return;
    }
  gtk_box_append (cards,
                  sw_value_card_new (sw_say_table (wording, sw_table_name (row->table)), lines));
  gtk_box_append (cards, sw_story_card_new (context, entries, NULL, NULL));
}

void
sw_record_cards_add (
    GtkBox *cards, SwContext *context, const SwBrowseRow *row, SwFollow follow, gpointer data)
{
  const SwWording *wording = sw_context_get_wording (context);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) chapters
      = sw_story_read (sw_context_get_store (context), row->table, row->id, &error);

  if (chapters == NULL)
    {
      add_error (cards, context, error);
      return;
    }
  g_autoptr (GArray) parts = sw_record_links_parts (context, row->table, row->id, chapters);
  g_autoptr (GArray) owners = sw_record_links_owners (row->table, chapters);
  GtkWidget *signatures = sw_signature_card_new (context, row->table, row->id);
  if (signatures != NULL)
    gtk_box_append (cards, signatures);
  add_links (cards, context, sw_tr (wording, "Parts"), parts, follow, data);
  add_story (cards, context, row);
  add_links (cards, context, sw_tr (wording, "Belongs to"), owners, follow, data);
}

void
sw_record_cards_add_act (
    GtkBox *cards, SwContext *context, gint64 act, SwFollow follow, gpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) entries = sw_story_tell_act (sw_context_get_store (context),
                                                     sw_context_get_wording (context), act, &error);

  if (entries != NULL)
    gtk_box_append (cards, sw_story_card_new (context, entries, follow, data));
  else
    add_error (cards, context, error);
}
