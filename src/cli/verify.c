/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stillwarden verify FILE: what another tool did to it, one finding a line, and the journal's head.
 */
#include "cli/command.h"

#include "records/verify.h"
#include "workflow/recompute.h"

const SwOption sw_cli_verify_options[] = { { NULL } };

static const char *const kinds[SW_N_FINDINGS] = {
  [SW_FINDING_INTEGRITY] = "integrity",
  [SW_FINDING_SCHEMA] = "schema",
  [SW_FINDING_CHAIN] = "chain",
  [SW_FINDING_ROW_CHANGED] = "row_changed",
  [SW_FINDING_ROW_UNKNOWN] = "row_unknown",
  [SW_FINDING_ROW_MISSING] = "row_missing",
  [SW_FINDING_RESULT] = "result",
};

static void
append_word (GString *text, const char *label, const char *word)
{
  if (word != NULL)
    g_string_append_printf (text, "%s%s=%s", text->len > 0 ? " " : "", label, word);
}

static void
append_id (GString *text, const char *label, gint64 id)
{
  g_autofree char *number = g_strdup_printf ("%" G_GINT64_FORMAT, id);

  append_word (text, label, id != 0 ? number : NULL);
}

static void
append_finding (GString *out, const SwFinding *finding)
{
  g_autoptr (GString) details = g_string_new (NULL);

  append_word (details, "table", finding->table);
  append_word (details, "column", finding->column);
  append_id (details, "row", finding->row);
  append_id (details, "seq", finding->seq);
  append_word (details, "expected", finding->expected);
  append_word (details, "found", finding->found);
  append_word (details, "text", finding->text);
  sw_output_text (out, SW_OUTPUT_FINDING, kinds[finding->kind], details->str);
}

/* A file that another tool changed may hold rows that cannot be computed at all: what was found
 * says so already. */
static gboolean
recompute (SwStore *store, SwVerifyReport *report, GError **error)
{
  g_autoptr (GError) failure = NULL;

  if (sw_recompute_all (store, report, &failure) || report->findings->len > 0)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&failure));
  return FALSE;
}

SwExit
sw_cli_verify (SwCliRun *run, GError **error)
{
  const char *path = sw_cli_read_file (run, error);
  g_autoptr (SwStore) store = NULL;
  g_autoptr (SwVerifyReport) report = NULL;

  if (path == NULL)
    return SW_EXIT_BAD_ARGUMENTS;
  store = sw_store_open (path, SW_OPEN_READ_ONLY, NULL, error);
  report = store != NULL ? sw_verify_full (store, NULL, NULL, error) : NULL;
  if (report == NULL || !recompute (store, report, error))
    return SW_EXIT_BAD_DATA;

  for (guint i = 0; i < report->findings->len; i++)
    append_finding (run->out, g_ptr_array_index (report->findings, i));
  sw_output_number (run->out, SW_OUTPUT_JOURNAL_ROWS, (double)report->journal_rows);
  sw_output_number (run->out, SW_OUTPUT_RECORD_ROWS, (double)report->record_rows);
  sw_output_text (run->out, SW_OUTPUT_HEAD, report->head != NULL ? report->head : "none", NULL);
  return report->findings->len > 0 ? SW_EXIT_DIFFERENCE : SW_EXIT_DONE;
}
