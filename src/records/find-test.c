/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Questions about tests: open and closed titrations, doses, decisions, incidents, sample codes.
 *
 * Parameters: ?1 is the machine (0 = of all machines) wherever a function takes one. Voided rows,
 * and rows of voided samples, answer no question.
 */
#include "records/store-private.h"
#include "records/test.h"

#include <string.h>

/* CROSS JOIN keeps the order of the tables: the few open or unanswered rows first, by their partial
 * index, then their sample; or one machine's samples first, newest first, by theirs. "?1 = 0 OR" in
 * one text would read the whole table every time. */
#define OPEN_TITRATIONS                                                                            \
  "SELECT titration.id FROM titration CROSS JOIN sample"                                           \
  " WHERE sample.id = titration.sample AND titration.voided = 0 AND sample.voided = 0"
#define SAMPLE_TITRATIONS                                                                          \
  "SELECT titration.id FROM sample CROSS JOIN titration"                                           \
  " WHERE sample.id = titration.sample AND titration.voided = 0 AND sample.voided = 0"
#define DOSES                                                                                      \
  "SELECT dose.id FROM dose CROSS JOIN titration CROSS JOIN sample"                                \
  " WHERE titration.id = dose.titration AND sample.id = titration.sample AND dose.voided = 0"
/* A result counts until a later portion of the same sample has one. */
#define CLOSED(row) row ".outcome <> 'open' AND " row ".closed_ms IS NOT NULL"

/* @select of one machine, or of all, then @rest. (transfer full) */
static char *
join_sql (const char *select, gint64 machine, const char *rest)
{
  return g_strconcat (select, machine != 0 ? " AND sample.machine = ?1" : " AND ?1 = 0", rest,
                      NULL);
}

/* "no limit" as SQL has it */
static gint64
make_limit (guint limit)
{
  return limit == 0 ? -1 : (gint64)limit;
}

static char *
make_code_prefix (SwStore *store, const char *tag, gint64 at_ms)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_offset (60 * sw_store_offset_at (store, at_ms));
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (at_ms / 1000);
  g_autoptr (GDateTime) local = utc != NULL ? g_date_time_to_timezone (utc, zone) : NULL;
  g_autofree char *day = local != NULL ? g_date_time_format (local, "%y%m%d") : g_strdup ("000000");

  return g_strdup_printf ("%s-%s-", tag, day);
}

char *
sw_sample_next_code (SwStore *store, const char *tag, gint64 at_ms, GError **error)
{
  g_autofree char *prefix = NULL;
  g_autofree char *after = NULL;
  gint64 last;

  g_return_val_if_fail (store != NULL && tag != NULL, NULL);
  prefix = make_code_prefix (store, tag, at_ms);
  /* what starts with "M-07-261124-" stands before "M-07-261124.": a range of the index on code */
  after = g_strdup (prefix);
  after[strlen (after) - 1] = '-' + 1;

  const SwCell keys[] = { sw_cell_text (prefix), sw_cell_text (after) };
  if (!sw_sql_integer (store,
                       "SELECT max(CAST(substr(code, length(?1) + 1) AS INTEGER)) FROM sample"
                       " WHERE code >= ?1 AND code < ?2",
                       keys, G_N_ELEMENTS (keys), &last, error))
    return NULL;
  return g_strdup_printf ("%s%" G_GINT64_FORMAT, prefix, last + 1);
}

GArray *
sw_titration_open_ids (SwStore *store, gint64 machine, GError **error)
{
  const SwCell key = sw_cell_integer (machine);
  g_autofree char *sql = join_sql (OPEN_TITRATIONS, machine,
                                   " AND titration.step NOT IN ('done', 'abandoned')"
                                   " ORDER BY titration.happened_ms, titration.id");

  return sw_sql_ids (store, sql, &key, 1, error);
}

GArray *
sw_titration_closed_ids (
    SwStore *store, gint64 machine, gint64 from_ms, gint64 to_ms, guint limit, GError **error)
{
  const SwCell keys[] = {
    sw_cell_integer (machine),
    sw_cell_integer (from_ms),
    sw_cell_integer (to_ms),
    sw_cell_integer (make_limit (limit)),
  };
  g_autofree char *sql
      = join_sql (SAMPLE_TITRATIONS, machine,
                  " AND " CLOSED ("titration") " AND (?2 = 0 OR sample.happened_ms >= ?2)"
                                               " AND (?3 = 0 OR sample.happened_ms < ?3)"
                                               " AND NOT EXISTS (SELECT 1 FROM titration AS later"
                                               " WHERE later.sample = titration.sample AND "
                                               "later.portion > titration.portion"
                                               " AND later.voided = 0 AND " CLOSED (
                                                   "later") ")"
                                                            " ORDER BY sample.happened_ms DESC, "
                                                            "titration.id DESC LIMIT ?4");

  return sw_sql_ids (store, sql, keys, G_N_ELEMENTS (keys), error);
}

GArray *
sw_dose_ids (SwStore *store, gint64 machine, guint limit, GError **error)
{
  const SwCell keys[] = { sw_cell_integer (machine), sw_cell_integer (make_limit (limit)) };
  g_autofree char *sql
      = join_sql (DOSES, machine, " ORDER BY dose.happened_ms DESC, dose.id DESC LIMIT ?2");

  return sw_sql_ids (store, sql, keys, G_N_ELEMENTS (keys), error);
}

GArray *
sw_dose_ids_in_state (SwStore *store, gint64 machine, SwDoseState state, GError **error)
{
  const SwColumn *column = sw_table_find_column (sw_table_info (SW_TABLE_DOSE), "state");
  const SwCell keys[]
      = { sw_cell_integer (machine), sw_cell_text (sw_column_word (column, state)) };
  g_autofree char *sql
      = join_sql (DOSES, machine, " AND dose.state = ?2 ORDER BY dose.happened_ms, dose.id");

  return sw_sql_ids (store, sql, keys, G_N_ELEMENTS (keys), error);
}

GArray *
sw_dose_unanswered_ids (SwStore *store, gint64 machine, GError **error)
{
  const SwCell key = sw_cell_integer (machine);
  g_autofree char *sql
      = join_sql (DOSES, machine,
                  " AND dose.state IN ('added', 'not_known') AND dose.retest_sample IS NULL"
                  " ORDER BY dose.happened_ms, dose.id");

  return sw_sql_ids (store, sql, &key, 1, error);
}

gint64
sw_decision_last (SwStore *store, gint64 plan, GError **error)
{
  const SwCell key = sw_cell_integer (plan);
  gint64 id = 0;

  sw_sql_integer (store,
                  "SELECT id FROM decision WHERE plan = ? AND voided = 0 ORDER BY id DESC LIMIT 1",
                  &key, 1, &id, error);
  return id;
}

gint64
sw_incident_open_id (SwStore *store, gint64 machine, GError **error)
{
  const SwCell key = sw_cell_integer (machine);
  gint64 id = 0;

  sw_sql_integer (store,
                  "SELECT id FROM incident WHERE machine = ? AND state <> 'closed' AND voided = 0"
                  " ORDER BY id DESC LIMIT 1",
                  &key, 1, &id, error);
  return id;
}

gboolean
sw_dose_total (SwStore *store, gint64 fill, gint64 product, double *total_ml, GError **error)
{
  const SwCell keys[] = { sw_cell_integer (fill), sw_cell_integer (product) };
  double total_m3;

  g_return_val_if_fail (store != NULL && total_ml != NULL, FALSE);
  if (!sw_sql_real (store,
                    "SELECT total(dose.added_si) FROM dose"
                    " JOIN titration ON titration.id = dose.titration"
                    " JOIN sample ON sample.id = titration.sample"
                    " WHERE sample.fill = ? AND dose.product = ? AND dose.state = 'added'"
                    " AND dose.voided = 0",
                    keys, G_N_ELEMENTS (keys), &total_m3, error))
    return FALSE;
  *total_ml = sw_unit_from_si (total_m3, SW_UNIT_ML);
  return TRUE;
}

gint64
sw_titration_machine (SwStore *store, gint64 titration, GError **error)
{
  const SwCell key = sw_cell_integer (titration);
  gint64 id = 0;

  sw_sql_integer (store,
                  "SELECT sample.machine FROM titration"
                  " JOIN sample ON sample.id = titration.sample WHERE titration.id = ?",
                  &key, 1, &id, error);
  return id;
}
