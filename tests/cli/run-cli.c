/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command line as a program of its own, without a window, for tests; never installed. */
#include "cli/cli.h"

int
main (int argc, char **argv)
{
  return sw_cli_run (argc, argv);
}
