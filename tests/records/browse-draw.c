/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words, times and rows for the seeded random hand. */
#include "browse-draw.h"

/* Words that differ by case, in other scripts, and with characters that SQL patterns know. */
static const char *const words[] = {
  "label", "Label",   "ÖLFILM",         "ölfilm", "Straße",  "STRASSE",
  "100%",  "100 per", "under_score",    "underX", "back\\s", "a\nnew line",
  "ΩMEGA", "ωmega",   "o\xCC\x88lfilm", /* the same o with dots, in two characters */
};

char *
browse_draw_text (BrowsePlant *plant)
{
  const char *one = words[g_rand_int_range (plant->rand, 0, G_N_ELEMENTS (words))];
  const char *two = words[g_rand_int_range (plant->rand, 0, G_N_ELEMENTS (words))];

  if (g_rand_int_range (plant->rand, 0, 3) == 0)
    return NULL;
  return g_strdup_printf ("%s %s", one, two);
}

gint64
browse_draw_id (BrowsePlant *plant, const gint64 *ids, int n)
{
  return ids[g_rand_int_range (plant->rand, 0, n)];
}

gint64
browse_draw_time (BrowsePlant *plant)
{
  if (g_rand_boolean (plant->rand))
    return 0;
  return FIXTURE_START_MS - BROWSE_DAY_MS * g_rand_int_range (plant->rand, 0, BROWSE_DAYS);
}

gint64
browse_find_last (BrowsePlant *plant, SwTable table)
{
  g_autofree char *sql = g_strdup_printf ("SELECT max(id) FROM %s", sw_table_name (table));

  return fixture_ask (&plant->base, sql);
}

gint64
browse_draw_row (BrowsePlant *plant, SwTable table)
{
  return g_rand_int_range (plant->rand, 1, (int)browse_find_last (plant, table) + 1);
}

void
browse_begin (BrowsePlant *plant, SwActKind kind)
{
  const SwActor actor = { .person = g_rand_boolean (plant->rand) ? DRAW (plant->people) : 0,
                          .identified = SW_IDENTIFIED_DEMO,
                          .workstation = "bench-2",
                          .reason = "read the Ölfilm label again" };
  GError *error = NULL;

  plant->base.now_ms += 60000;
  sw_act_begin (plant->base.store, kind, &actor, &error);
  g_assert_no_error (error);
}
