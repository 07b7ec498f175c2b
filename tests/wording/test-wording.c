/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Languages: any of them at any time in one process, the decimal mark, what the environment asks
 * for. Questions about the environment are asked in a child process of their own. */
#include "support/support.h"
#include "wording/sentence.h"

#include <locale.h>
#include <string.h>

/* One process speaks three languages in turn, twice. */
static void
test_alternately (void)
{
  SwFact fact = sw_fact_with_text (SW_FACT_LOT_EXPIRED, "N-17");
  const char *const expected[][2] = {
    { "en", "Lot N-17 has expired. Choose another one, or say why it is used." },
    { "de", "Die Charge N-17 ist abgelaufen. Eine andere wählen oder angeben, warum sie verwendet "
            "wird." },
  };

  for (int turn = 0; turn < 2; turn++)
    {
      g_autoptr (SwWording) pseudo = sw_wording_new ("xx", "UTC");
      g_autofree char *strange = sw_say_fact (pseudo, &fact);

      for (gsize i = 0; i < G_N_ELEMENTS (expected); i++)
        {
          g_autoptr (SwWording) wording = sw_wording_new (expected[i][0], "UTC");
          g_autofree char *text = sw_say_fact (wording, &fact);
          g_assert_cmpstr (text, ==, expected[i][1]);
        }
      g_assert_true (g_str_has_prefix (strange, "[Ļöţ N-17 ĥåš éẋþîŕéð."));
      g_assert_true (g_str_has_suffix (strange, "]"));
    }
}

static void
test_plurals (void)
{
  g_autoptr (SwWording) german = sw_wording_new ("de", "UTC");
  g_autofree char *one = sw_due_format (german, 86400000, 0);
  g_autofree char *three = sw_due_format (german, 3 * 86400000LL, 0);
  g_autofree char *late = sw_due_format (german, 0, 2 * 86400000LL);
  g_autofree char *date = sw_date_format (german, G_GINT64_CONSTANT (1779596400000));

  g_assert_cmpstr (one, ==, "1 Tag");
  g_assert_cmpstr (three, ==, "3 Tage");
  g_assert_cmpstr (late, ==, "2 Tage zu spät");
  g_assert_cmpstr (date, ==, "24. Mai 2026");
}

static void
test_german_fault (void)
{
  g_autoptr (SwWording) german = sw_wording_new ("de", "UTC");
  SwFault fault = { SW_FAULT_RANGE, SW_QUANTITY_DROP_VOLUME, 0.0005, 0.001, 5, SW_UNIT_ML };
  g_autofree char *text = sw_say_fault (german, &fault);

  g_assert_cmpstr (text, ==,
                   "Tropfenvolumen: 0,0005\342\200\257mL ist zu wenig. Erlaubt: 0,001 bis "
                   "5\342\200\257mL.");
}

/* A language without a catalogue: its numbers, our English. */
static void
test_unknown_language (void)
{
  g_autoptr (SwWording) dutch = sw_wording_new ("nl_NL.UTF-8", "Nowhere/Land");

  g_assert_cmpstr (sw_wording_get_language (dutch), ==, "nl_NL");
  g_assert_null (sw_wording_get_domain (dutch));
  g_assert_cmpstr (sw_wording_get_decimal_mark (dutch), ==, ",");
  g_assert_cmpstr (sw_tr (dutch, "today"), ==, "today");
  g_assert_nonnull (sw_wording_get_zone (dutch));
}

static void
test_right_to_left (void)
{
  g_autoptr (SwWording) pseudo = sw_wording_new ("xr", "UTC");
  g_autoptr (SwWording) german = sw_wording_new ("de_AT", "UTC");

  g_assert_true (sw_wording_is_right_to_left (pseudo));
  g_assert_false (sw_wording_is_right_to_left (german));
  g_assert_cmpstr (sw_wording_get_domain (german), ==, "stillwarden-de");
  g_assert_true (g_str_has_prefix (sw_tr (pseudo, "today"), "[\342\200\256"));
}

/* 30 to 50 % longer (short words grow more: the brackets), brackets around, directives kept. */
static void
test_pseudo (void)
{
  g_autoptr (SwWording) pseudo = sw_wording_new ("xx", "UTC");
  const char *const messages[] = {
    "No dose: no dosing place is on file for this machine.",
    "Titrate a second portion in small steps from %s: the last step was too wide for a dose.",
    "(%1$s + %4$s for the caustic addition + %5$s extra) × %2$s per drop = %3$s",
  };

  for (gsize i = 0; i < G_N_ELEMENTS (messages); i++)
    {
      const char *text = sw_tr (pseudo, messages[i]);
      double growth
          = (double)g_utf8_strlen (text, -1) / (double)g_utf8_strlen (messages[i], -1) - 1.0;

      g_assert_cmpfloat (growth, >=, 0.3);
      g_assert_cmpfloat (growth, <=, 0.5);
      g_assert_true (g_str_has_prefix (text, "[") && g_str_has_suffix (text, "]"));
    }
  g_assert_nonnull (strstr (sw_tr (pseudo, messages[2]), "%4$s"));
}

static void
test_empty (void)
{
  g_autoptr (SwWording) german = sw_wording_new ("de", "UTC");

  g_assert_cmpstr (sw_tr (german, ""), ==, "");
  g_assert_cmpstr (sw_trc (german, "no such context", "today"), ==, "today");
}

/* ---- the environment, one child process per row ---- */

typedef struct
{
  const char *name;
  const char *language; /* LANGUAGE */
  const char *all;      /* LC_ALL */
  const char *numeric;  /* LC_NUMERIC */
  const char *lang;     /* LANG */
  const char *asked;    /* the argument; NULL = the environment's */
  const char *expected; /* language, mark, paper, "today" */
} EnvironmentRow;

static const EnvironmentRow environment_rows[] = {
  { "nothing", NULL, NULL, NULL, NULL, NULL, "en . a4 today" },
  { "C", NULL, "C", NULL, NULL, NULL, "en . a4 today" },
  { "list", "de", "C.UTF-8", NULL, NULL, NULL, "de , a4 heute" },
  { "list with a first unknown", "tlh:de:en", NULL, NULL, "C.UTF-8", NULL, "de , a4 heute" },
  { "list with English first", "en_GB:de", NULL, NULL, "C.UTF-8", NULL, "en_GB . a4 today" },
  { "lang", NULL, NULL, NULL, "de_DE.UTF-8", NULL, "de_DE , a4 heute" },
  { "swiss german", NULL, NULL, NULL, "de_CH.UTF-8", NULL, "de_CH . a4 heute" },
  { "american", NULL, "en_US.UTF-8", NULL, NULL, NULL, "en_US . letter today" },
  { "numbers of another territory", NULL, NULL, "de_DE.UTF-8", "en_US.UTF-8", NULL,
    "en_US , letter today" },
  { "chosen German on an American computer", NULL, "en_US.UTF-8", NULL, NULL, "de",
    "de , letter heute" },
  { "chosen English on a German computer", NULL, "de_DE.UTF-8", NULL, NULL, "en", "en . a4 today" },
  { "chosen German on a Swiss computer", NULL, "de_CH.UTF-8", NULL, NULL, "de", "de . a4 heute" },
  { "chosen Swiss German", NULL, "de_DE.UTF-8", NULL, NULL, "de_CH", "de_CH . a4 heute" },
  { "no catalogue", NULL, "ja_JP.UTF-8", NULL, NULL, NULL, "en . a4 today" },
  { "xx at the end is no wish", "tlh:xx", NULL, NULL, "C.UTF-8", NULL, "en . a4 today" },
  { "xx alone is one", "xx", NULL, NULL, "C.UTF-8", NULL, "xx . a4 [ţöðåý]" },
};

static const char *program;

static char **
make_environment (const EnvironmentRow *row)
{
  char **environment = g_get_environ ();
  const char *const names[]
      = { "LANGUAGE", "LC_ALL", "LC_NUMERIC", "LANG", "LC_MESSAGES", "LC_PAPER" };
  const char *values[] = { row->language, row->all, row->numeric, row->lang, NULL, NULL };

  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    environment = values[i] != NULL ? g_environ_setenv (environment, names[i], values[i], TRUE)
                                    : g_environ_unsetenv (environment, names[i]);
  return environment;
}

static void
test_environment (gconstpointer data)
{
  const EnvironmentRow *row = data;
  g_auto (GStrv) environment = make_environment (row);
  const char *arguments[] = { program, "--say", row->asked, NULL };
  g_autoptr (GError) error = NULL;
  g_autofree char *output = NULL;
  int status = -1;

  g_spawn_sync (NULL, (char **)arguments, environment, G_SPAWN_DEFAULT, NULL, NULL, &output, NULL,
                &status, &error);
  g_assert_no_error (error);
  g_assert_cmpint (status, ==, 0);
  g_assert_cmpstr (output, ==, row->expected);
}

/* The child: says what it reads from its environment. */
static int
say (const char *asked)
{
  g_autoptr (SwWording) wording = NULL;

  setlocale (LC_ALL, "");
  sw_wording_init (NULL);
  wording = sw_wording_new (asked, "UTC");
  g_print ("%s %s %s %s", sw_wording_get_language (wording), sw_wording_get_decimal_mark (wording),
           sw_wording_get_paper (wording) == SW_PAPER_LETTER ? "letter" : "a4",
           sw_tr (wording, "today"));
  return 0;
}

int
main (int argc, char **argv)
{
  if (argc > 1 && strcmp (argv[1], "--say") == 0)
    return say (argc > 2 ? argv[2] : NULL);

  program = argv[0];
  g_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/wording/alternately", test_alternately);
  g_test_add_func ("/wording/plurals", test_plurals);
  g_test_add_func ("/wording/german-fault", test_german_fault);
  g_test_add_func ("/wording/unknown-language", test_unknown_language);
  g_test_add_func ("/wording/right-to-left", test_right_to_left);
  g_test_add_func ("/wording/pseudo", test_pseudo);
  g_test_add_func ("/wording/empty", test_empty);
  SW_TEST_ROWS ("/wording/environment", environment_rows, test_environment);
  return g_test_run ();
}
