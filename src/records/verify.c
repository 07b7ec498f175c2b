/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Full verify: pages, schema, journal, checkpoints, rows, in one read transaction.
 *
 * What it finds: any change that another tool made to what a query can return, because the journal
 * holds every value and its rows hold each other. What the file alone cannot show is a file put
 * back as a whole to an earlier state, and a journal rewritten from the first changed row to the
 * end by somebody who knows the format; a head or a checkpoint kept outside of the file shows those
 * (verify-trust.c), up to the newest that was kept.
 */
#include "records/verify-private.h"

#include <gio/gio.h>
#include <string.h>

void
sw_finding_free (SwFinding *finding)
{
  if (finding == NULL)
    return;
  g_free (finding->table);
  g_free (finding->column);
  g_free (finding->expected);
  g_free (finding->found);
  g_free (finding->text);
  g_free (finding);
}

void
sw_verify_report_free (SwVerifyReport *report)
{
  if (report == NULL)
    return;
  g_ptr_array_unref (report->findings);
  g_ptr_array_unref (report->notes);
  g_free (report->head);
  g_free (report);
}

static SwFinding *
copy_finding (const SwFinding *finding)
{
  SwFinding *copy = g_new (SwFinding, 1);

  *copy = *finding;
  copy->table = g_strdup (finding->table);
  copy->column = g_strdup (finding->column);
  copy->expected = g_strdup (finding->expected);
  copy->found = g_strdup (finding->found);
  copy->text = g_strdup (finding->text);
  return copy;
}

void
sw_verify_add (SwVerifyRun *run, const SwFinding *finding)
{
  g_ptr_array_add (run->report->findings, copy_finding (finding));
}

void
sw_verify_note (SwVerifyRun *run, const SwFinding *finding)
{
  g_ptr_array_add (run->report->notes, copy_finding (finding));
}

gboolean
sw_verify_step (SwVerifyRun *run, gint64 done, GError **error)
{
  if (run->progress == NULL || run->progress (done, run->total, run->data))
    return TRUE;
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_CANCELLED, "stopped");
  return FALSE;
}

static void
open_run (SwVerifyRun *run)
{
  for (int i = 0; i < SW_N_TABLES; i++)
    run->heads[i] = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
}

static void
close_run (SwVerifyRun *run)
{
  for (int i = 0; i < SW_N_TABLES; i++)
    g_hash_table_unref (run->heads[i]);
  sw_verify_clear_trust (&run->trust);
}

/* So that progress is of rows of any kind. */
static gboolean
count_rows (SwVerifyRun *run, GError **error)
{
  if (!sw_sql_integer (run->store, "SELECT count(*) FROM journal", NULL, 0, &run->total, error))
    return FALSE;
  for (int i = 0; i < SW_N_TABLES; i++)
    {
      g_autofree char *sql
          = g_strdup_printf ("SELECT count(*) FROM %s", sw_table_name ((SwTable)i));
      gint64 count;

      if (!sw_sql_integer (run->store, sql, NULL, 0, &count, error))
        return FALSE;
      run->total += count;
    }
  return TRUE;
}

/* The schema first: what it finds may explain why a later part cannot even read. */
static gboolean
run_parts (SwVerifyRun *run, GError **error)
{
  return sw_verify_integrity (run, error) && sw_verify_schema (run, error)
         && count_rows (run, error) && sw_verify_load_trust (run, error)
         && sw_verify_journal (run, error) && sw_verify_trust (run, error)
         && sw_verify_rows (run, error);
}

static SwVerifyReport *
new_report (void)
{
  SwVerifyReport *report = g_new0 (SwVerifyReport, 1);

  report->findings = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_finding_free);
  report->notes = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_finding_free);
  report->chain_from = 1;
  report->outside = -1;
  return report;
}

SwVerifyReport *
sw_verify_full (SwStore *store, SwProgress progress, gpointer data, GError **error)
{
  return sw_verify_with (store, NULL, progress, data, error);
}

SwVerifyReport *
sw_verify_with (SwStore *store,
                const SwVerifyOptions *options,
                SwProgress progress,
                gpointer data,
                GError **error)
{
  static const SwVerifyOptions nothing = { 0 };
  g_autoptr (SwVerifyReport) report = new_report ();
  SwVerifyRun run = { .store = store,
                      .report = report,
                      .progress = progress,
                      .data = data,
                      .options = options != NULL ? options : &nothing };
  gboolean own;
  gboolean done;

  g_return_val_if_fail (store != NULL, NULL);
  own = sqlite3_get_autocommit (store->db) != 0;
  if (own && !sw_sql_execute (store, "BEGIN", error))
    return NULL;
  open_run (&run);
  done = run_parts (&run, error);
  close_run (&run);
  if (own)
    sw_sql_execute (store, "ROLLBACK", NULL);
  return done ? g_steal_pointer (&report) : NULL;
}

char *
sw_journal_head (SwStore *store, GError **error)
{
  char hash[SW_HASH_LENGTH + 1];
  gint64 seq;
  gint64 utc_ms;

  g_return_val_if_fail (store != NULL, NULL);
  if (!sw_journal_last (store, &seq, hash, &utc_ms, error))
    return NULL;
  return g_strdup (hash);
}

gboolean
sw_head_is_valid (const char *text)
{
  return text != NULL && strlen (text) == SW_HASH_LENGTH
         && strspn (text, "0123456789abcdef") == SW_HASH_LENGTH;
}
