/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stillwarden demo FILE: makes an invented plant, to look around in. */
#include "cli/command.h"
#include "cli/demo.h"

#include <glib/gi18n.h>

const SwOption sw_cli_demo_options[] = {
  { .name = "at",
    .kind = SW_OPTION_TEXT,
    .help = N_ ("time at which the plant's story ends; without it now") },
  { NULL },
};

SwExit
sw_cli_demo (SwCliRun *run, GError **error)
{
  const char *path = sw_cli_read_file (run, error);
  gint64 at_ms = g_get_real_time () / 1000;
  SwDemoCounts counts;

  if (path == NULL
      || !sw_cli_read_time (run, "at", sw_wording_get_zone (run->wording), FALSE, &at_ms, error))
    return SW_EXIT_BAD_ARGUMENTS;
  if (!sw_demo_create (path, at_ms, &counts, error))
    return SW_EXIT_BAD_DATA;
  sw_output_number (run->out, SW_OUTPUT_MACHINES, counts.machines);
  sw_output_number (run->out, SW_OUTPUT_TESTS, counts.tests);
  sw_output_number (run->out, SW_OUTPUT_DOSES, counts.doses);
  return SW_EXIT_DONE;
}
