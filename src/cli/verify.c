/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stillwarden verify FILE: what another tool did to it, one finding a line, what is worth knowing
 * besides, and the journal's head. */
#include "cli/command.h"

#include "records/checkpoint.h"
#include "records/verify.h"
#include "workflow/recompute.h"
#include "wording/time.h"

#include <glib/gi18n.h>

const SwOption sw_cli_verify_options[] = {
  { .name = "head",
    .kind = SW_OPTION_LIST,
    .help = N_ ("head that an export printed earlier; may be given several times") },
  { .name = "trust",
    .kind = SW_OPTION_TEXT,
    .help = N_ ("folder with the checkpoints to compare with; without it that of this PC") },
  { .name = "quick",
    .kind = SW_OPTION_FLAG,
    .help = N_ ("believe the journal up to the newest checkpoint in that folder") },
  { NULL },
};

static const char *const kinds[SW_N_FINDINGS] = {
  [SW_FINDING_INTEGRITY] = "integrity",
  [SW_FINDING_SCHEMA] = "schema",
  [SW_FINDING_CHAIN] = "chain",
  [SW_FINDING_ROW_CHANGED] = "row_changed",
  [SW_FINDING_ROW_UNKNOWN] = "row_unknown",
  [SW_FINDING_ROW_MISSING] = "row_missing",
  [SW_FINDING_RESULT] = "result",
  [SW_FINDING_CHECKPOINT] = "checkpoint",
  [SW_FINDING_HEAD] = "head",
  [SW_FINDING_VERSION] = "version",
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
append_time (GString *text, const char *label, gint64 utc_ms)
{
  g_autofree char *time = utc_ms != 0 ? sw_iso_format (utc_ms, 0) : NULL;

  append_word (text, label, time);
}

static void
append_finding (GString *out, SwOutputName name, const SwFinding *finding)
{
  g_autoptr (GString) details = g_string_new (NULL);

  append_word (details, "table", finding->table);
  append_word (details, "column", finding->column);
  append_id (details, "row", finding->row);
  append_id (details, "seq", finding->seq);
  append_word (details, "expected", finding->expected);
  append_word (details, "found", finding->found);
  append_time (details, "at", finding->utc_ms);
  append_id (details, "person", finding->person);
  append_id (details, "kept_seq", finding->kept_seq);
  append_id (details, "count", finding->count);
  append_word (details, "text", finding->text);
  sw_output_text (out, name, kinds[finding->kind], details->str);
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

/* A head with a slip of the pen would be called lost. */
static gboolean
check_heads (const SwCliRun *run, const char *const *heads, GError **error)
{
  for (gsize i = 0; heads[i] != NULL; i++)
    if (!sw_head_is_valid (heads[i]))
      return sw_options_refuse (
          run->options, "head",
          sw_tr (run->wording, "A head has 64 digits: 0 to 9, and small letters a to f."), error);
  return TRUE;
}

/* A folder with a slip of the pen would compare with nothing. */
static gboolean
check_trust (const SwCliRun *run, GError **error)
{
  const char *trust = sw_options_get_text (run->options, "trust");

  return trust == NULL || g_file_test (trust, G_FILE_TEST_IS_DIR)
         || sw_options_refuse (run->options, "trust",
                               sw_tr (run->wording, "There is no such folder."), error);
}

static SwVerifyReport *
verify_file (const SwCliRun *run, SwStore *store, GError **error)
{
  g_autofree char *usual = sw_trust_folder_dup_default ();
  const char *trust = sw_options_get_text (run->options, "trust");
  const SwVerifyOptions options = { .trust_folder = trust != NULL ? trust : usual,
                                    .heads = sw_options_get_list (run->options, "head"),
                                    .quick = sw_options_has (run->options, "quick") };
  g_autoptr (SwVerifyReport) report = sw_verify_with (store, &options, NULL, NULL, error);

  if (report == NULL || !recompute (store, report, error))
    return NULL;
  return g_steal_pointer (&report);
}

static void
append_report (GString *out, const SwVerifyReport *report)
{
  for (guint i = 0; i < report->findings->len; i++)
    append_finding (out, SW_OUTPUT_FINDING, g_ptr_array_index (report->findings, i));
  for (guint i = 0; i < report->notes->len; i++)
    append_finding (out, SW_OUTPUT_NOTE, g_ptr_array_index (report->notes, i));
  sw_output_number (out, SW_OUTPUT_JOURNAL_ROWS, (double)report->journal_rows);
  sw_output_number (out, SW_OUTPUT_RECORD_ROWS, (double)report->record_rows);
  sw_output_number (out, SW_OUTPUT_CHAIN_FROM, (double)report->chain_from);
  sw_output_number (out, SW_OUTPUT_CHECKPOINTS, (double)report->checkpoints);
  sw_output_number (out, SW_OUTPUT_CHECKPOINTS_OUTSIDE, (double)report->outside);
  sw_output_text (out, SW_OUTPUT_HEAD, report->head != NULL ? report->head : "none", NULL);
}

SwExit
sw_cli_verify (SwCliRun *run, GError **error)
{
  const char *path = sw_cli_read_file (run, error);
  g_autoptr (SwStore) store = NULL;
  g_autoptr (SwVerifyReport) report = NULL;

  if (path == NULL || !check_heads (run, sw_options_get_list (run->options, "head"), error)
      || !check_trust (run, error))
    return SW_EXIT_BAD_ARGUMENTS;
  store = sw_store_open (path, SW_OPEN_READ_ONLY, NULL, error);
  report = store != NULL ? verify_file (run, store, error) : NULL;
  if (report == NULL)
    return SW_EXIT_BAD_DATA;
  append_report (run->out, report);
  return report->findings->len > 0 ? SW_EXIT_DIFFERENCE : SW_EXIT_DONE;
}
