/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The registry of commands. A new command is one row of the table in command-table.c, with its
 * options and its function in a file of its own. */
#pragma once

#include "calc/outcome.h"
#include "cli/cli.h"
#include "cli/option.h"
#include "cli/output.h"
#include "records/store.h"

G_BEGIN_DECLS

/* What a command works with; all borrowed. */
typedef struct
{
  const SwWording *wording;
  const SwOptions *options;
  GString *out; /* printed when the command did not fail */
} SwCliRun;

/* Returns the exit code. On an error it is SW_EXIT_BAD_ARGUMENTS for SW_CLI_ERROR and
 * SW_EXIT_BAD_DATA for any other, whatever is returned; nothing of @out is printed then. */
typedef SwExit (*SwCliFunction) (SwCliRun *run, GError **error);

typedef struct
{
  const char *name;    /* one word, or two: "calculate dose" */
  const char *summary; /* one line, marked for translation */
  const char *words;   /* "FILE", or "" */
  gsize most_words;
  const SwOption *options; /* ends with a row without a name */
  SwCliFunction run;
} SwCliCommand;

/* The whole table. (transfer none) */
const SwCliCommand *sw_cli_get_commands (gsize *n);
/* The command whose words stand first in @argv; *used says how many they are. NULL for none. */
const SwCliCommand *sw_cli_find_command (int argc, char **argv, int *used);

/* The functions and options of each command. */
#define SW_DECLARE_COMMAND(prefix)                                                                 \
  extern const SwOption prefix##_options[];                                                        \
  SwExit prefix (SwCliRun *run, GError **error)

SW_DECLARE_COMMAND (sw_cli_dose);
SW_DECLARE_COMMAND (sw_cli_outcome);
SW_DECLARE_COMMAND (sw_cli_content);
SW_DECLARE_COMMAND (sw_cli_acid_number);
SW_DECLARE_COMMAND (sw_cli_acceptance);
SW_DECLARE_COMMAND (sw_cli_calibration);
SW_DECLARE_COMMAND (sw_cli_verify);
SW_DECLARE_COMMAND (sw_cli_journal);
SW_DECLARE_COMMAND (sw_cli_backup);
SW_DECLARE_COMMAND (sw_cli_snapshot);
SW_DECLARE_COMMAND (sw_cli_demo);
SW_DECLARE_COMMAND (sw_cli_export);

/* The option "direction", which a command with it presets. */
gboolean sw_cli_read_direction (const SwCliRun *run, SwDirection *direction, GError **error);

/* The word FILE; NULL with SW_CLI_ERROR. (transfer none) */
const char *sw_cli_read_file (const SwCliRun *run, GError **error);
/* Of the plant's zone, so that days are those of the plant wherever the command runs, and of the
 * option "language". (transfer full) */
SwWording *sw_cli_make_wording (const SwCliRun *run, SwStore *store, GError **error);
/* A day or time in @zone; leaves *utc_ms alone when the option is not given. A day alone is its
 * beginning, or with @end_of_day the beginning of the next. */
gboolean sw_cli_read_time (const SwCliRun *run,
                           const char *option,
                           GTimeZone *zone,
                           gboolean end_of_day,
                           gint64 *utc_ms,
                           GError **error);

G_END_DECLS
