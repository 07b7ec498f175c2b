/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The style sheets' colours have enough contrast, computed from the sheets as they are.
 *
 * Thresholds and formula: WCAG 2.2, success criteria 1.4.3 (text 4.5:1) and 1.4.11 (marks and edges
 * of controls 3:1), 1.4.6 (text 7:1) for high contrast. The formula itself is checked against
 * ratios published elsewhere, see "formula".
 */
#include <gtk/gtk.h>
#include <math.h>

#include "support/support.h"

/* A pair that style.css puts together. */
static const struct
{
  const char *front;
  const char *back;
  double least;
} pairs[] = {
  { "ink", "ground", 4.5 },        { "ink", "side", 4.5 },
  { "ink", "card", 4.5 },          { "ink", "chosen", 4.5 },
  { "ink", "hover", 4.5 },         { "ink", "caution", 4.5 },
  { "dim", "ground", 4.5 },        { "dim", "side", 4.5 },
  { "dim", "card", 4.5 },          { "dim", "chosen", 4.5 },
  { "dim", "hover", 4.5 },         { "dim", "caution", 4.5 },
  { "accent_ink", "ground", 4.5 }, { "accent_ink", "side", 4.5 },
  { "accent_ink", "card", 4.5 },   { "accent_ink", "chosen", 4.5 },
  { "on_accent", "accent", 4.5 },  { "on_accent", "accent_hover", 4.5 },
  { "wrong", "ground", 4.5 },      { "wrong", "card", 4.5 },
  { "on_note", "note", 4.5 },      { "note_action", "note", 4.5 },
  { "acid", "ground", 3.0 },       { "acid", "side", 3.0 },
  { "acid", "card", 3.0 },         { "acid", "chosen", 3.0 },
  { "acid", "hover", 3.0 },        { "acid", "caution", 3.0 },
  { "passed", "ground", 3.0 },     { "passed", "side", 3.0 },
  { "passed", "card", 3.0 },       { "passed", "chosen", 3.0 },
  { "passed", "hover", 3.0 },      { "alkaline", "ground", 3.0 },
  { "alkaline", "side", 3.0 },     { "alkaline", "card", 3.0 },
  { "alkaline", "chosen", 3.0 },   { "alkaline", "hover", 3.0 },
  { "unknown", "ground", 3.0 },    { "unknown", "side", 3.0 },
  { "unknown", "card", 3.0 },      { "unknown", "chosen", 3.0 },
  { "unknown", "hover", 3.0 },     { "edge", "card", 3.0 },
  { "edge", "ground", 3.0 },       { "accent", "ground", 3.0 },
  { "accent", "card", 3.0 },
};

/* Which sheets make a look, and how much stricter it is. */
static const struct
{
  const char *name;
  const char *sheets[2];
  double text;
} looks[] = {
  { "light", { "colours-light.css", NULL }, 4.5 },
  { "dark", { "colours-dark.css", NULL }, 4.5 },
  { "light, more contrast", { "colours-light.css", "contrast-light.css" }, 7.0 },
  { "dark, more contrast", { "colours-dark.css", "contrast-dark.css" }, 7.0 },
};

static double
linearise (double channel)
{
  return channel <= 0.04045 ? channel / 12.92 : pow ((channel + 0.055) / 1.055, 2.4);
}

static double
compute_luminance (const char *hex)
{
  guint64 rgb = g_ascii_strtoull (hex + 1, NULL, 16);

  return 0.2126 * linearise ((double)(rgb >> 16 & 0xff) / 255.0)
         + 0.7152 * linearise ((double)(rgb >> 8 & 0xff) / 255.0)
         + 0.0722 * linearise ((double)(rgb & 0xff) / 255.0);
}

static double
compute_contrast (const char *a, const char *b)
{
  double first = compute_luminance (a);
  double second = compute_luminance (b);

  return (fmax (first, second) + 0.05) / (fmin (first, second) + 0.05);
}

/* Published ratios: W3C, Understanding SC 1.4.3 and the techniques G18 and G17 (from memory):
 * #767676 on white is 4.54:1, #949494 3.03:1, #595959 7.0:1, black on white 21:1. */
static void
test_formula (void)
{
  sw_assert_close (compute_contrast ("#000000", "#ffffff"), 21.0, 1e-12);
  sw_assert_close (compute_contrast ("#ffffff", "#767676"), 4.54, 2e-3);
  sw_assert_close (compute_contrast ("#949494", "#ffffff"), 3.03, 2e-3);
  sw_assert_close (compute_contrast ("#595959", "#ffffff"), 7.0, 2e-3);
}

static void
read_sheet (const char *name, GHashTable *colours)
{
  g_autofree char *relative = g_build_filename ("ui", name, NULL);
  g_autofree char *path = sw_test_source_path (relative);
  g_autofree char *text = NULL;
  g_autoptr (GRegex) regex = g_regex_new ("@define-color sw_(\\w+) (#[0-9a-f]{6});", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL))
    g_hash_table_replace (colours, g_match_info_fetch (match, 1), g_match_info_fetch (match, 2));
}

static GHashTable *
read_look (gsize look)
{
  GHashTable *colours = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);

  for (gsize i = 0; i < G_N_ELEMENTS (looks[look].sheets); i++)
    if (looks[look].sheets[i] != NULL)
      read_sheet (looks[look].sheets[i], colours);
  return colours;
}

static void
test_look (gconstpointer data)
{
  gsize look = GPOINTER_TO_SIZE (data);
  g_autoptr (GHashTable) colours = read_look (look);

  for (gsize i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      const char *front = g_hash_table_lookup (colours, pairs[i].front);
      const char *back = g_hash_table_lookup (colours, pairs[i].back);
      g_assert_nonnull (front);
      g_assert_nonnull (back);
      double least = pairs[i].least < 4.5 ? pairs[i].least : looks[look].text;
      double contrast = compute_contrast (front, back);
      g_test_message ("%s on %s: %.2f", pairs[i].front, pairs[i].back, contrast);
      if (contrast < least)
        g_test_fail_printf ("%s on %s: %.2f, at least %.1f", pairs[i].front, pairs[i].back,
                            contrast, least);
    }
}

/* Each colour that style.css names is in both sheets, and each in the sheets is used. */
static void
test_names (void)
{
  g_autofree char *path = sw_test_source_path ("ui/style.css");
  g_autofree char *text = NULL;
  g_autoptr (GRegex) regex = g_regex_new ("@sw_(\\w+)", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  g_autoptr (GHashTable) used = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL))
    g_hash_table_add (used, g_match_info_fetch (match, 1));
  for (gsize look = 0; look < 2; look++)
    {
      g_autoptr (GHashTable) colours = read_look (look);
      g_autofree gpointer *names = g_hash_table_get_keys_as_array (used, NULL);
      g_autofree gpointer *defined = g_hash_table_get_keys_as_array (colours, NULL);

      for (gsize i = 0; names[i] != NULL; i++)
        if (!g_hash_table_contains (colours, names[i]))
          g_test_fail_printf ("style.css uses sw_%s, %s does not name it", (char *)names[i],
                              looks[look].name);
      for (gsize i = 0; defined[i] != NULL; i++)
        if (!g_hash_table_contains (used, defined[i]))
          g_test_fail_printf ("sw_%s of %s is used nowhere", (char *)defined[i], looks[look].name);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/app/colours/formula", test_formula);
  g_test_add_func ("/app/colours/names", test_names);
  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    {
      g_autofree char *path = sw_test_path ("/app/colours", looks[i].name);
      g_test_add_data_func (path, GSIZE_TO_POINTER (i), test_look);
    }
  return g_test_run ();
}
