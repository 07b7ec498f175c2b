/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stillwarden export FILE --xlsx OUT: the records as a workbook, without a window. */
#include "cli/command.h"
#include "reports/workbook.h"

#include <glib/gi18n.h>

const SwOption sw_cli_export_options[] = {
  { .name = "xlsx", .kind = SW_OPTION_TEXT, .help = N_ ("workbook to write") },
  { .name = "machine", .kind = SW_OPTION_TEXT, .help = N_ ("tag of the only machine to export") },
  { .name = "from", .kind = SW_OPTION_TEXT, .help = N_ ("first day or time of drawing") },
  { .name = "to",
    .kind = SW_OPTION_TEXT,
    .help = N_ ("last day of drawing; with a time of day, drawn before that") },
  { .name = "at",
    .kind = SW_OPTION_TEXT,
    .help = N_ ("time of the export as it is written into it; without it now") },
  { .name = "language",
    .kind = SW_OPTION_TEXT,
    .help = N_ ("language of the workbook, such as de") },
  { .name = "force",
    .kind = SW_OPTION_FLAG,
    .help = N_ ("replace the workbook when it is there already") },
  { NULL },
};

static gboolean
read_machine (SwStore *store, const char *tag, gint64 *machine, GError **error)
{
  g_autoptr (GArray) ids = NULL;

  if (tag == NULL)
    return TRUE;
  ids = sw_record_ids_by_text (store, SW_TABLE_MACHINE, "tag", tag, error);
  if (ids == NULL)
    return FALSE;
  if (ids->len > 0)
    {
      *machine = g_array_index (ids, gint64, 0);
      return TRUE;
    }
  g_set_error_literal (error, SW_REPORT_ERROR, SW_REPORT_ERROR_NO_MACHINE, tag);
  return FALSE;
}

static gboolean
read_times (const SwCliRun *run,
            const SwWording *wording,
            SwWorkbookRequest *request,
            GError **error)
{
  GTimeZone *zone = sw_wording_get_zone (wording);

  return sw_cli_read_time (run, "from", zone, FALSE, &request->filter.from_ms, error)
         && sw_cli_read_time (run, "to", zone, TRUE, &request->filter.to_ms, error)
         && sw_cli_read_time (run, "at", zone, FALSE, &request->at_ms, error);
}

static SwExit
export_store (SwCliRun *run, SwStore *store, SwWorkbookRequest *request, GError **error)
{
  g_autoptr (SwWording) wording = sw_cli_make_wording (run, store, error);

  request->at_ms = sw_store_now (store);
  if (wording == NULL || !read_times (run, wording, request, error)
      || !read_machine (store, sw_options_get_text (run->options, "machine"),
                        &request->filter.machine, error)
      || !sw_workbook_write (store, wording, request, error))
    return SW_EXIT_BAD_DATA;
  sw_output_text (run->out, SW_OUTPUT_HEAD, *request->head, NULL);
  return SW_EXIT_DONE;
}

SwExit
sw_cli_export (SwCliRun *run, GError **error)
{
  const char *path = sw_cli_read_file (run, error);
  g_autofree char *head = NULL;
  SwWorkbookRequest request = { .path = sw_options_get_text (run->options, "xlsx"),
                                .force = sw_options_has (run->options, "force"),
                                .by = g_get_user_name (),
                                .head = &head };
  g_autoptr (SwStore) store = NULL;

  if (path == NULL)
    return SW_EXIT_BAD_ARGUMENTS;
  if (request.path == NULL)
    {
      sw_options_refuse (run->options, "xlsx", sw_tr (run->wording, "This option is missing."),
                         error);
      return SW_EXIT_BAD_ARGUMENTS;
    }
  store = sw_store_open (path, SW_OPEN_READ_ONLY, NULL, error);
  return store != NULL ? export_store (run, store, &request, error) : SW_EXIT_BAD_DATA;
}
