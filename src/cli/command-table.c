/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The commands, one row each. */
#include "cli/command.h"

#include <glib/gi18n.h>
#include <string.h>

static const SwCliCommand commands[] = {
  { "calculate dose", N_ ("Work out the amount of neutraliser for a machine."), "", 0,
    sw_cli_dose_options, sw_cli_dose },
  { "calculate outcome", N_ ("Work out what the readings of a titration mean."), "", 0,
    sw_cli_outcome_options, sw_cli_outcome },
  { "calculate content", N_ ("Work out what a number of drops means as acid content."), "", 0,
    sw_cli_content_options, sw_cli_content },
  { "calculate acid-number", N_ ("Work out an acid number from a burette titration."), "", 0,
    sw_cli_acid_number_options, sw_cli_acid_number },
  { "calculate acceptance", N_ ("Work out the total acid acceptance from a back-titration."), "", 0,
    sw_cli_acceptance_options, sw_cli_acceptance },
  { "calculate calibration", N_ ("Work out the volume of a drop from weighings or counts."), "", 0,
    sw_cli_calibration_options, sw_cli_calibration },
  { "verify", N_ ("Check a file for changes made by other tools."), "FILE", 1,
    sw_cli_verify_options, sw_cli_verify },
  { "backup", N_ ("Write a verified copy of a file, which may be open meanwhile."), "FILE OUT", 2,
    sw_cli_backup_options, sw_cli_backup },
  { "snapshot", N_ ("Write a verified copy for an auditor, to be read only."), "FILE OUT", 2,
    sw_cli_snapshot_options, sw_cli_snapshot },
  { "journal", N_ ("Tell the journal, or the story of single records, in words."), "FILE", 1,
    sw_cli_journal_options, sw_cli_journal },
  { "export", N_ ("Write the records of a file into a workbook."), "FILE", 1, sw_cli_export_options,
    sw_cli_export },
  { "demo", N_ ("Make a file with an invented plant to look around in."), "FILE", 1,
    sw_cli_demo_options, sw_cli_demo },
};

const SwCliCommand *
sw_cli_get_commands (gsize *n)
{
  *n = G_N_ELEMENTS (commands);
  return commands;
}

/* How many words of @name stand at the start of @argv; 0 when they are not its words. */
static int
match_words (const char *name, int argc, char **argv)
{
  g_auto (GStrv) words = g_strsplit (name, " ", -1);
  int n = (int)g_strv_length (words);

  if (n > argc)
    return 0;
  for (int i = 0; i < n; i++)
    if (strcmp (words[i], argv[i]) != 0)
      return 0;
  return n;
}

const SwCliCommand *
sw_cli_find_command (int argc, char **argv, int *used)
{
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      *used = match_words (commands[i].name, argc, argv);
      if (*used > 0)
        return &commands[i];
    }
  return NULL;
}

gboolean
sw_cli_read_direction (const SwCliRun *run, SwDirection *direction, GError **error)
{
  const char *text = sw_options_get_text (run->options, "direction");

  *direction = strcmp (text, "acid") == 0 ? SW_DIRECTION_ACID : SW_DIRECTION_BASE;
  if (*direction == SW_DIRECTION_ACID || strcmp (text, "base") == 0)
    return TRUE;
  return sw_options_refuse (run->options, "direction",
                            sw_tr (run->wording, "This is neither base nor acid."), error);
}
