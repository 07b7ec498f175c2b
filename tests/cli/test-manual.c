/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The man page names every command, option and output that the program knows, and no other output.
 */
#include "cli/command.h"
#include "support/support.h"

#include <string.h>

/* The page with its font requests and escaped hyphens taken out. */
static char *page;

/* Whether @word stands in the page as a whole: no letter, digit, hyphen or underscore beside it. */
static gboolean
has_word (const char *word)
{
  gsize length = strlen (word);

  for (const char *at = strstr (page, word); at != NULL; at = strstr (at + 1, word))
    {
      char before = at > page ? at[-1] : ' ';
      char after = at[length];

      if (!g_ascii_isalnum (before) && strchr ("-_", before) == NULL && !g_ascii_isalnum (after)
          && (after == '\0' || strchr ("-_", after) == NULL))
        return TRUE;
    }
  return FALSE;
}

static void
read_page (void)
{
  g_autofree char *path = sw_test_source_path ("data/stillwarden.1");
  g_autofree char *contents = NULL;
  GString *text;

  g_assert_true (g_file_get_contents (path, &contents, NULL, NULL));
  text = g_string_new (contents);
  g_string_replace (text, "\\-", "-", 0);
  g_string_replace (text, "\\fB", "", 0);
  g_string_replace (text, "\\fI", "", 0);
  g_string_replace (text, "\\fR", "", 0);
  page = g_string_free (text, FALSE);
}

static void
test_outputs (void)
{
  for (int i = 0; i < SW_N_OUTPUTS; i++)
    if (!has_word (sw_output_get_name ((SwOutputName)i)))
      g_error ("the man page lacks the output %s", sw_output_get_name ((SwOutputName)i));
}

/* The section OUTPUT lists names as ".B name"; each must be one that the program prints. */
static void
test_no_other_output (void)
{
  const char *section = strstr (page, ".SH OUTPUT");
  const char *end = section != NULL ? strstr (section + 1, "\n.SH ") : NULL;
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  int n = 0;

  g_assert_nonnull (end);
  text = g_strndup (section, (gsize)(end - section));
  lines = g_strsplit (text, "\n", -1);
  for (gsize i = 0; lines[i] != NULL; i++)
    {
      gboolean known = FALSE;

      if (!g_str_has_prefix (lines[i], ".B "))
        continue;
      for (int name = 0; name < SW_N_OUTPUTS; name++)
        known = known || strcmp (lines[i] + 3, sw_output_get_name ((SwOutputName)name)) == 0;
      if (!known)
        g_error ("the man page speaks of the output %s, which does not exist", lines[i] + 3);
      n++;
    }
  g_assert_cmpint (n, ==, SW_N_OUTPUTS);
}

static void
test_commands (void)
{
  gsize n;
  const SwCliCommand *commands = sw_cli_get_commands (&n);

  for (gsize i = 0; i < n; i++)
    {
      if (!has_word (commands[i].name))
        g_error ("the man page lacks the command %s", commands[i].name);
      for (const SwOption *option = commands[i].options; option->name != NULL; option++)
        {
          g_autofree char *name = g_strconcat ("--", option->name, NULL);
          g_autofree char *uncertainty = g_strconcat ("--u-", option->name, NULL);
          g_autofree char *freedom = g_strconcat ("--freedom-", option->name, NULL);

          if (!has_word (name)
              || (option->uncertain && (!has_word (uncertainty) || !has_word (freedom))))
            g_error ("the man page lacks an option of %s: %s", commands[i].name, name);
        }
    }
}

/* No two outputs share a name, so that a script can look one up. */
static void
test_names_differ (void)
{
  g_autoptr (GHashTable) names = g_hash_table_new (g_str_hash, g_str_equal);

  for (int i = 0; i < SW_N_OUTPUTS; i++)
    g_assert_true (g_hash_table_add (names, (char *)sw_output_get_name ((SwOutputName)i)));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  read_page ();
  g_test_add_func ("/manual/outputs", test_outputs);
  g_test_add_func ("/manual/no-other-output", test_no_other_output);
  g_test_add_func ("/manual/commands", test_commands);
  g_test_add_func ("/manual/names-differ", test_names_differ);
  return g_test_run ();
}
