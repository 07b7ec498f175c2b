/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Between the files that tell stories. */
#pragma once

#include "reports/story-words.h"

G_BEGIN_DECLS

/* Passed along while one story is told: a person who wrote forty entries is looked up once. */
typedef struct
{
  SwStore *store;
  const SwWording *wording;
  GHashTable *names; /* Owned: "table id" to name, NULL for a row that is not there */
} SwTeller;

void sw_teller_init (SwTeller *teller, SwStore *store, const SwWording *wording);
void sw_teller_clear (SwTeller *teller);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwTeller, sw_teller_clear)

/* NULL: it cannot be read, and is told by its number. (transfer none) */
const char *sw_teller_name (SwTeller *teller, const char *table, gint64 id);

/* The change of that column; NULL when there is none. (transfer none) */
const SwChange *sw_story_find (const GPtrArray *changes, const char *column);
/* Lines of an entry: all that its sentence does not say already. (transfer full) */
GPtrArray *sw_teller_lines (SwTeller *teller, SwTable table, gint64 row, const GPtrArray *changes);
/* An array of no lines. (transfer full) */
GPtrArray *sw_story_no_lines (void);

G_END_DECLS
