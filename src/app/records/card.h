/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the cards of a record's page are made of. */
#pragma once

#include "app/records/record-cards.h"
#include "app/records/record-link-tables.h"
#include "reports/story-words.h"

G_BEGIN_DECLS

/* A card with a heading; widgets are appended to it. (transfer floating) */
GtkWidget *sw_card_new (const char *heading);
/* A text that wraps. @class NULL: plain. (transfer floating) */
GtkWidget *sw_card_label (const char *text, const char *class);
/* The same, not broken while there is room; not for a label whose width is set in characters, of
 * which GTK 4.8 gets a natural width below the least one. (transfer floating) */
GtkWidget *sw_card_value (const char *text, const char *class);

/* Links (element SwLink) as rows that can be pressed; what each is called is said by its line of
 * the list. (transfer floating) */
GtkWidget *sw_card_links_new (SwContext *context, GArray *links, SwFollow follow, gpointer data);

/* The record's signatures, and whether each still holds; NULL: there are none. (transfer floating)
 */
GtkWidget *sw_signature_card_new (SwContext *context, SwTable table, gint64 id);

/* What an act wrote, or a record's story, oldest first, each entry with the old values struck and
 * the new ones beside: element SwStoryEntry. With @follow not NULL each entry says which record it
 * is about, and leads there. (transfer floating) */
GtkWidget *
sw_story_card_new (SwContext *context, GPtrArray *entries, SwFollow follow, gpointer data);
/* What a record says now: element SwStoryLine. (transfer floating) */
GtkWidget *sw_value_card_new (const char *heading, GPtrArray *lines);

G_END_DECLS
