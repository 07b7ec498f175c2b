/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program: a command goes to the command line and never starts GTK; all else opens a window. */
#include "app/application.h"
#include "cli/cli.h"

int
main (int argc, char **argv)
{
  sw_wording_init (NULL);
  if (argc > 1 && sw_cli_is_command (argv[1]))
    return sw_cli_run (argc, argv);

  g_autoptr (SwApplication) application = sw_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
