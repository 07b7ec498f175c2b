/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every stored result against its raw readings and inputs.
 *
 * Readings, volumes and strengths are the raw values; outcome, bounds and amounts are results. Both
 * are rows that another tool could edit: the journal finds the edit, this finds a result that no
 * longer follows from what it claims to rest on.
 */
#include "workflow/recompute.h"

#include "workflow/check-private.h"
#include "workflow/result-private.h"

#include <gio/gio.h>

#define STEP_ROWS 64

/* ---- findings ---- */

typedef struct
{
  SwVerifyReport *report;
  SwTable table;
  gint64 row;
  gint64 seq;
  int version; /* of the calculation that stored the result */
} Subject;

static SwFinding *
add_finding (const Subject *subject, const char *column, char *expected, char *found)
{
  SwFinding *finding = g_new0 (SwFinding, 1);
  gboolean other = subject->version != SW_CALC_VERSION;

  finding->kind = other ? SW_FINDING_VERSION : SW_FINDING_RESULT;
  finding->count = other ? subject->version : 0;
  finding->table = g_strdup (sw_table_name (subject->table));
  finding->column = g_strdup (column);
  finding->row = subject->row;
  finding->seq = subject->seq;
  finding->expected = expected;
  finding->found = found;
  g_ptr_array_add (other ? subject->report->notes : subject->report->findings, finding);
  return finding;
}

static char *
print_number (double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  return g_strdup (g_ascii_formatd (text, sizeof text, "%.17g", value));
}

static void
compare_number (const Subject *subject, const char *column, double expected, double found)
{
  if (!sw_result_is_same (expected, found))
    add_finding (subject, column, print_number (expected), print_number (found));
}

/* ---- titrations ---- */

static void
compare_outcome (const Subject *subject, const SwTitration *stored, const SwOutcome *outcome)
{
  if (stored->outcome != outcome->kind)
    add_finding (subject, "outcome", g_strdup (sw_outcome_name (outcome->kind)),
                 g_strdup (sw_outcome_name (stored->outcome)));
  compare_number (subject, "net_low", outcome->net.low, stored->net_low);
  compare_number (subject, "net_high", outcome->net.high, stored->net_high);
  compare_number (subject, "acid_at", outcome->acid_at, stored->acid_at);
  compare_number (subject, "pass_at", outcome->pass_at, stored->pass_at);
}

/* A result that cannot be worked out at all is a finding too. */
static void
add_failure (const Subject *subject, const char *column, const GError *failure)
{
  add_finding (subject, column, NULL, NULL)->text = g_strdup (failure->message);
}

static gboolean
check_titration (SwStore *store, gint64 id, SwVerifyReport *report, GError **error)
{
  g_autoptr (SwTitration) titration = sw_titration_load (store, id, error);
  g_autoptr (SwMethodVersion) version = NULL;
  g_autoptr (GPtrArray) readings = NULL;
  g_autoptr (GError) failure = NULL;
  SwOutcome outcome;

  if (titration == NULL)
    return FALSE;
  /* 0: nothing was computed yet. */
  if (titration->calc_version == 0)
    return TRUE;
  version = sw_method_version_load (store, titration->method_version, error);
  readings = version != NULL ? sw_result_load_readings (store, id, error) : NULL;
  if (readings == NULL)
    return FALSE;

  const Subject subject
      = { report, SW_TABLE_TITRATION, id, titration->record.journal_seq, titration->calc_version };
  if (sw_result_outcome (titration, version, readings, &outcome, &failure))
    compare_outcome (&subject, titration, &outcome);
  else
    add_failure (&subject, "outcome", failure);
  return TRUE;
}

/* ---- doses ---- */

/* Said as the file holds it: in the unit that the column's name tells. */
static void
compare_volume (const Subject *subject, const char *column, double expected_ml, double found_ml)
{
  compare_number (subject, column, sw_unit_to_si (expected_ml, SW_UNIT_ML),
                  sw_unit_to_si (found_ml, SW_UNIT_ML));
}

static void
compare_dose (const Subject *subject, const SwDoseRow *stored, const SwDose *dose)
{
  compare_volume (subject, "per_step_m3", dose->per_step_ml, stored->per_step_ml);
  compare_volume (subject, "low_m3", dose->bounds_ml.low, stored->low_ml);
  compare_volume (subject, "high_m3", dose->bounds_ml.high, stored->high_ml);
  compare_volume (subject, "best_m3", dose->best_ml.value, stored->best_ml);
  compare_volume (subject, "best_u_m3", dose->best_ml.u, stored->best_u_ml);
  compare_volume (subject, "computed_m3", dose->dose_ml.value, stored->computed_ml);
  compare_volume (subject, "measured_m3", dose->measure_ml, stored->measured_ml);
}

static gboolean
check_dose (SwStore *store, gint64 id, SwVerifyReport *report, GError **error)
{
  g_autoptr (SwDoseRow) row = sw_dose_row_load (store, id, error);
  g_autoptr (SwTitration) titration = NULL;
  g_autoptr (SwMethodVersion) version = NULL;
  g_autoptr (GError) failure = NULL;
  SwDoseInput input;
  SwDose dose;

  if (row == NULL)
    return FALSE;
  if (row->calc_version == 0)
    return TRUE;
  titration = sw_titration_load (store, row->titration, error);
  version
      = titration != NULL ? sw_method_version_load (store, titration->method_version, error) : NULL;
  if (version == NULL)
    return FALSE;

  const Subject subject = { report, SW_TABLE_DOSE, id, row->record.journal_seq, row->calc_version };
  const SwDoseRules rules = { row->graduation_ml, INFINITY, INFINITY };
  sw_result_stored_input (row, titration, version, &input);
  if (sw_dose_compute (&input, &rules, &dose, &failure))
    compare_dose (&subject, row, &dose);
  else
    add_failure (&subject, "computed_m3", failure);
  return TRUE;
}

/* ---- public ---- */

typedef gboolean (*Check) (SwStore *, gint64, SwVerifyReport *, GError **);

typedef struct
{
  SwProgress progress;
  gpointer data;
  gint64 done;
  gint64 total;
} Run;

static gboolean
step (Run *run, GError **error)
{
  if (run->progress == NULL || run->done++ % STEP_ROWS != 0
      || run->progress (run->done, run->total, run->data))
    return TRUE;
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_CANCELLED, "stopped");
  return FALSE;
}

static gboolean
check_all (
    SwStore *store, GArray *ids, Check check, SwVerifyReport *report, Run *run, GError **error)
{
  for (guint i = 0; i < ids->len; i++)
    if (!step (run, error) || !check (store, g_array_index (ids, gint64, i), report, error))
      return FALSE;
  return TRUE;
}

gboolean
sw_recompute_with (
    SwStore *store, SwVerifyReport *report, SwProgress progress, gpointer data, GError **error)
{
  g_autoptr (GArray) titrations = NULL;
  g_autoptr (GArray) doses = NULL;
  Run run = { .progress = progress, .data = data };

  g_return_val_if_fail (store != NULL && report != NULL && report->findings != NULL, FALSE);
  titrations = sw_record_ids (store, SW_TABLE_TITRATION, NULL, 0, error);
  doses = titrations != NULL ? sw_record_ids (store, SW_TABLE_DOSE, NULL, 0, error) : NULL;
  if (doses == NULL)
    return FALSE;
  run.total = (gint64)titrations->len + doses->len;
  return check_all (store, titrations, check_titration, report, &run, error)
         && check_all (store, doses, check_dose, report, &run, error);
}

gboolean
sw_recompute_all (SwStore *store, SwVerifyReport *report, GError **error)
{
  return sw_recompute_with (store, report, NULL, NULL, error);
}
