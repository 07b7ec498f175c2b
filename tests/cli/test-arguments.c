/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bad arguments: exit 2, nothing on standard output, exactly one line on standard error that names
 * the option; the rest of the command line: help, version, words that are no commands. */
#include "cli/cli.h"
#include "cli/command.h"
#include "spawn.h"
#include "support/support.h"

#include <string.h>

#define DOSE "calculate dose --acid-at 2 --pass-at 3 --drop-volume '0.05 mL' --system '420 L' "
#define RATIO DOSE "--strength-ratio 1 "
#define OUTCOME "calculate outcome --readings '0:acid,1:neutral,1:neutral' "
#define READINGS "calculate outcome --readings "
#define CALIBRATION "calculate calibration --drops 20 --density '0.998 g/mL' "

typedef struct
{
  const char *name;
  const char *arguments;
  const char *option; /* named at the start of the line */
} Row;

/* clang-format off */
static const Row rows[] = {
  { "unknown option", RATIO "--fish 3", "--fish" },
  { "abbreviation", DOSE "--strength 1", "--strength" },
  { "twice", RATIO "--acid-at 2", "--acid-at" },
  { "without value at the end", RATIO "--blank", "--blank" },
  { "without value before an option", DOSE "--strength-ratio --blank 0", "--strength-ratio" },
  { "empty value", RATIO "--blank ''", "--blank" },
  { "empty value behind an equals sign", RATIO "--blank=", "--blank" },
  { "value of a flag", RATIO "--caustic '0.1 mmol' --caustic-counts=yes", "--caustic-counts" },
  { "stray word", RATIO "fish", "fish" },
  { "two hyphens", RATIO "--", "--" },
  { "one hyphen", RATIO "-x", "-x" },
  { "line end in a value", RATIO "--blank '1\n2'", "--blank" },
  { "no text", RATIO "--blank '\xff'", "--blank" },

  { "missing acid-at", "calculate dose", "--acid-at" },
  { "missing pass-at", "calculate dose --acid-at 2", "--pass-at" },
  { "missing drop volume",
    "calculate dose --acid-at 2 --pass-at 3 --system '420 L' --strength-ratio 1", "--drop-volume" },
  { "missing system volume",
    "calculate dose --acid-at 2 --pass-at 3 --drop-volume '0.05 mL' --strength-ratio 1", "--system" },
  { "missing strengths", DOSE, "--strength-ratio" },
  { "only one strength", DOSE "--titrant '0.1 mmol/mL'", "--strength-ratio" },
  { "counting caustic without titrant", RATIO "--caustic '0.1 mmol' --caustic-counts", "--titrant" },
  { "counting without caustic", RATIO "--caustic-counts", "--caustic-counts" },
  { "contradiction", RATIO "--titrant '0.1 mmol/mL' --product '7.5 mmol/mL'", "--strength-ratio" },

  { "comma", RATIO "--blank 0,5", "--blank" },
  { "comma in a volume",
    "calculate dose --acid-at 2 --pass-at 3 --drop-volume '0,05 mL' --system '420 L'"
        " --strength-ratio 1", "--drop-volume" },
  { "no unit",
    "calculate dose --acid-at 2 --pass-at 3 --drop-volume 0.05 --system '420 L'"
        " --strength-ratio 1", "--drop-volume" },
  { "wrong unit",
    "calculate dose --acid-at 2 --pass-at 3 --drop-volume '0.05 kg' --system '420 L'"
        " --strength-ratio 1", "--drop-volume" },
  { "no number", RATIO "--blank two", "--blank" },
  { "hexadecimal", RATIO "--blank 0x1", "--blank" },
  { "not a number", RATIO "--blank nan", "--blank" },
  { "infinite", RATIO "--blank inf", "--blank" },
  { "below the range",
    "calculate dose --acid-at 2 --pass-at 3 --drop-volume '0 mL' --system '420 L'"
        " --strength-ratio 1", "--drop-volume" },
  { "negative",
    "calculate dose --acid-at 2 --pass-at 3 --drop-volume '0.05 mL' --system '-420 L'"
        " --strength-ratio 1", "--system" },
  { "above the range", RATIO "--sample '5 L'", "--sample" },
  { "order",
    "calculate dose --acid-at 3 --pass-at 3 --drop-volume '0.05 mL' --system '420 L'"
        " --strength-ratio 1", "--pass-at" },
  { "blank and caustic", RATIO "--blank 1 --caustic '0.1 mmol'", "--blank" },
  { "uncertainty without its unit", RATIO "--u-system 5", "--u-system" },
  { "uncertainty beyond half", RATIO "--u-system '300 L'", "--u-system" },
  { "uncertainty of an option without any", RATIO "--u-blank 1", "--u-blank" },
  { "uncertainty of what is not given", RATIO "--u-titrant '0.001 mmol/mL'", "--u-titrant" },
  { "freedom without uncertainty", RATIO "--freedom-system 5", "--freedom-system" },
  { "freedom zero", RATIO "--u-system '5 L' --freedom-system 0", "--freedom-system" },
  { "coarse jug", RATIO "--graduation '500 mL'", "--graduation" },
  { "above the limit in total", RATIO "--limit-total '2 mL/L'", "--limit-total" },
  { "direction", RATIO "--direction up", "--direction" },
  { "reserve titration without mark", RATIO "--direction acid", "--reserve-high" },
  { "mark without reserve titration", RATIO "--reserve-high 6", "--reserve-high" },

  { "no readings", "calculate outcome", "--readings" },
  { "empty reading", READINGS "'0:acid,'", "--readings" },
  { "reading without colour", READINGS "'0'", "--readings" },
  { "unknown colour", READINGS "'0:green'", "--readings" },
  { "capital colour", READINGS "'0:Acid'", "--readings" },
  { "unknown mark", READINGS "'0:acid:maybe'", "--readings" },
  { "four parts", READINGS "'0:acid:struck:struck'", "--readings" },
  { "negative total", READINGS "'-1:acid'", "--readings" },
  { "total that is no number", READINGS "'x:acid'", "--readings" },
  { "totals that fall", READINGS "'2:acid,1:acid'", "--readings" },
  { "maximum 0", OUTCOME "--maximum 0", "--maximum" },
  { "outcome, blank and counting caustic",
    OUTCOME "--blank 1 --caustic '0.1 mmol' --caustic-counts --drop-volume '0.05 mL' --titrant '0.1 mmol/mL'", "--blank" },
  { "counting without drop volume",
    OUTCOME "--caustic '0.1 mmol' --caustic-counts --titrant '0.1 mmol/mL'", "--drop-volume" },

  { "content without strength", "calculate content --drops 3 --drop-volume '0.05 mL'", "--titrant" },
  { "density alone",
    "calculate content --drops 3 --drop-volume '0.05 mL' --strength-ratio 1"
        " --density '0.8 g/mL'", "--density" },
  { "more blank than sample",
    "calculate acid-number --blank-titrant '2 mL' --sample-titrant '1 mL' --titrant '0.1 mmol/mL'"
        " --weight '10 g'", "--sample-titrant" },
  { "less blank than sample",
    "calculate acceptance --blank-titrant '1 mL' --sample-titrant '2 mL' --titrant '0.1 mmol/mL'"
        " --weight '10 g'", "--blank-titrant" },

  { "no weighings", CALIBRATION, "--weighings" },
  { "weighings and counts", CALIBRATION "--weighings '1,1 g' --counts '20,20'", "--weighings" },
  { "one weighing", CALIBRATION "--weighings '1.00 g'", "--weighings" },
  { "weighings without unit", CALIBRATION "--weighings '1.00,1.01'", "--weighings" },
  { "empty weighing", CALIBRATION "--weighings '1.00,,1.01 g'", "--weighings" },
  { "weighing that is none", CALIBRATION "--weighings '1.00,fish g'", "--weighings" },
  { "volume with weighings", CALIBRATION "--weighings '1.00,1.01 g' --volume '1 mL'", "--volume" },
  { "density with counts",
    "calculate calibration --counts '20,20' --volume '1 mL' --density '0.998 g/mL'", "--density" },
  { "drop beyond the range", CALIBRATION "--weighings '900,900 g'", "--weighings" },

  { "no file", "verify", "FILE" },
  { "two files", "verify a b", "b" },
  { "option of verify", "verify a --fish", "--fish" },

  { "no command", "", "help" },
  { "unknown command", "fish", "fish" },
  { "calculate alone", "calculate", "calculate" },
  { "unknown calculation", "calculate fish", "fish" },
  { "help of no command", "help fish", "fish" },
  { "help of too much", "help verify fish", "fish" },
  { "version of something", "--version fish", "fish" },
};
/* clang-format on */

static void
check (const Row *row, const char *language)
{
  g_autoptr (SwSpawned) spawned = sw_spawn (row->arguments, language);
  g_autofree char *start = g_strdup_printf ("stillwarden: %s: ", row->option);

  g_assert_cmpstr (spawned->out, ==, "");
  if (!g_str_has_prefix (spawned->err, start) || strlen (spawned->err) < strlen (start) + 5)
    g_error ("expected a line about %s, got: %s", row->option, spawned->err);
  g_assert_true (strchr (spawned->err, '\n') == spawned->err + strlen (spawned->err) - 1);
  g_assert_true (g_utf8_validate (spawned->err, -1, NULL));
  g_assert_cmpint (spawned->code, ==, SW_EXIT_BAD_ARGUMENTS);
}

static void
test_row (gconstpointer data)
{
  check (data, NULL);
}

static void
test_row_in_german (gconstpointer data)
{
  check (data, "de");
}

static void
test_sentence (void)
{
  g_autoptr (SwSpawned) english = sw_spawn (RATIO "--sample '5 L'", NULL);
  g_autoptr (SwSpawned) german = sw_spawn (RATIO "--sample '5 L'", "de");

  g_assert_cmpstr (english->err, ==,
                   "stillwarden: --sample: Sample volume: 5000\342\200\257mL is too much. Allowed: "
                   "1 to 2000\342\200\257mL.\n");
  g_assert_cmpstr (german->err, ==,
                   "stillwarden: --sample: Probenvolumen: 5000\342\200\257mL ist zu viel. Erlaubt: "
                   "1 bis 2000\342\200\257mL.\n");
}

static void
test_help (void)
{
  gsize n;
  const SwCliCommand *commands = sw_cli_get_commands (&n);
  g_autoptr (SwSpawned) all = sw_spawn ("help", NULL);
  g_autoptr (SwSpawned) same = sw_spawn ("--help", NULL);
  g_autoptr (SwSpawned) version = sw_spawn ("--version", NULL);

  g_assert_cmpint (all->code, ==, 0);
  g_assert_cmpstr (all->out, ==, same->out);
  g_assert_true (g_str_has_prefix (version->out, "stillwarden "));
  for (gsize i = 0; i < n; i++)
    {
      g_autofree char *before = g_strconcat ("help ", commands[i].name, NULL);
      g_autofree char *after = g_strconcat (commands[i].name, " --help", NULL);
      g_autoptr (SwSpawned) one = sw_spawn (before, NULL);
      g_autoptr (SwSpawned) other = sw_spawn (after, NULL);

      g_assert_nonnull (strstr (all->out, commands[i].name));
      g_assert_cmpint (one->code, ==, 0);
      g_assert_cmpstr (one->out, ==, other->out);
      for (const SwOption *option = commands[i].options; option->name != NULL; option++)
        g_assert_nonnull (strstr (one->out, option->name));
    }
}

static void
test_is_command (void)
{
  const char *const commands[] = { "calculate", "verify", "help", "--help", "--version" };
  const char *const others[] = { "./verify", "calc", "calculate dose", "", "-h", "dose" };

  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    g_assert_true (sw_cli_is_command (commands[i]));
  for (gsize i = 0; i < G_N_ELEMENTS (others); i++)
    g_assert_false (sw_cli_is_command (others[i]));
  g_assert_false (sw_cli_is_command (NULL));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  sw_spawn_init (argc, argv);
  SW_TEST_ROWS ("/arguments/refused", rows, test_row);
  SW_TEST_ROWS ("/arguments/refused-in-german", rows, test_row_in_german);
  g_test_add_func ("/arguments/sentence", test_sentence);
  g_test_add_func ("/arguments/help", test_help);
  g_test_add_func ("/arguments/is-command", test_is_command);
  return g_test_run ();
}
