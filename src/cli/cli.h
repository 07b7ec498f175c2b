/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command line: everything that works without a display.
 *
 * The program's main asks sw_cli_is_command about its first word; a word that is a command wins
 * over a file of that name (./demo opens the file). Nothing below here starts GTK.
 */
#pragma once

#include "wording/wording.h"

G_BEGIN_DECLS

typedef enum
{
  SW_EXIT_DONE = 0,
  SW_EXIT_BAD_DATA = 1,      /* the data are bad, or could not be read or written */
  SW_EXIT_BAD_ARGUMENTS = 2, /* one line on standard error names the option */
  SW_EXIT_DIFFERENCE = 3     /* verify found what another tool did */
} SwExit;

/* Whether @word is the first word of a command, or --help, --version. NULL is none. */
gboolean sw_cli_is_command (const char *word);

/* Runs a command; argv[0] is the program. Returns the exit code (SwExit). Prepares gettext itself.
 */
int sw_cli_run (int argc, char **argv);

/* The same without standard output and error: what would be printed is appended to @out and @err.
 */
int sw_cli_execute (const SwWording *wording, int argc, char **argv, GString *out, GString *err);

G_END_DECLS
