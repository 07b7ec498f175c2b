/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command line: one argument a line. Commands that open files are left out.
 *
 * Invariants: done prints something and no complaint; bad arguments and bad data print nothing, and
 * complain in exactly one line of valid UTF-8; every printed line has a name and a value. */
#include "fuzz.h"

#include <string.h>

#include "cli/cli.h"

static void
check_lines (const char *out)
{
  g_auto (GStrv) lines = g_strsplit (out, "\n", -1);

  for (gsize i = 0; lines[i] != NULL && lines[i + 1] != NULL; i++)
    {
      g_auto (GStrv) fields = g_strsplit (lines[i], "\t", -1);
      guint n = g_strv_length (fields);

      g_assert_true (n == 2 || n == 3);
      g_assert_true (*fields[0] != '\0' && *fields[1] != '\0');
    }
}

static void
check (int code, const GString *out, const GString *err, gboolean calculates)
{
  g_assert_true (g_utf8_validate (out->str, -1, NULL) && g_utf8_validate (err->str, -1, NULL));
  if (code == SW_EXIT_DONE)
    {
      g_assert_true (err->len == 0 && out->len > 0);
      if (calculates && strstr (out->str, "stillwarden") == NULL)
        check_lines (out->str);
      return;
    }
  g_assert_true (code == SW_EXIT_BAD_ARGUMENTS || code == SW_EXIT_BAD_DATA);
  g_assert_true (out->len == 0);
  g_assert_true (strchr (err->str, '\n') == err->str + err->len - 1);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *text = fuzz_text (data, size);
  g_autofree char *all = g_strconcat ("stillwarden\n", text, NULL);
  g_auto (GStrv) argv = g_strsplit (all, "\n", -1);
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  g_autoptr (GString) out = g_string_new (NULL);
  g_autoptr (GString) err = g_string_new (NULL);
  gboolean calculates = argv[1] != NULL && strcmp (argv[1], "calculate") == 0;

  if (!calculates && (argv[1] == NULL || strcmp (argv[1], "help") != 0))
    return 0;
  check (sw_cli_execute (wording, (int)g_strv_length (argv), argv, out, err), out, err, calculates);
  return 0;
}
