/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From rows to results. */
#include "workflow/result-private.h"

#include "calc/content.h"
#include "workflow/check-private.h"
#include "workflow/recompute.h"

/* Rounding of units and sums, not another result (docs/file-format.md). */
#define SAME_RELATIVE 1e-9

/* c of 2.1: 0 unless the addition counts; the Prepare page made sure that b is known then. */
static double
get_caustic_steps (const SwTitration *titration)
{
  double caustic = sw_or_zero (titration->caustic_mmol);

  if (!titration->caustic_counts || caustic <= 0.0)
    return 0.0;
  return sw_caustic_in_steps (caustic, titration->step_ml, titration->titrant_mmol_ml);
}

gboolean
sw_result_outcome (const SwTitration *titration,
                   const SwMethodVersion *version,
                   GPtrArray *rows,
                   SwOutcome *outcome,
                   GError **error)
{
  g_autofree SwReading *readings = g_new0 (SwReading, rows->len + 1);
  SwMethodFacts method = { .direction = version->direction,
                           .maximum = titration->maximum,
                           .blank = sw_or_zero (titration->blank) };

  if (isnan (titration->maximum))
    {
      *outcome = (SwOutcome){ .kind = SW_OUTCOME_OPEN,
                              .net = { NAN, NAN },
                              .acid_at = NAN,
                              .pass_at = NAN,
                              .total = 0.0,
                              .next = SW_NEXT_READ_FIRST };
      return TRUE;
    }
  method.caustic_steps = get_caustic_steps (titration);
  for (guint i = 0; i < rows->len; i++)
    {
      const SwReadingRow *row = rows->pdata[i];

      readings[i] = (SwReading){ .total = row->total,
                                 .field = row->meaning,
                                 .struck = row->struck,
                                 .not_added = row->not_added };
    }
  return sw_outcome_compute (&method, readings, rows->len, outcome, error);
}

void
sw_result_store_outcome (SwTitration *titration, const SwOutcome *outcome)
{
  titration->outcome = outcome->kind;
  titration->net_low = outcome->net.low;
  titration->net_high = outcome->net.high;
  titration->acid_at = outcome->acid_at;
  titration->pass_at = outcome->pass_at;
  titration->calc_version = SW_CALC_VERSION;
}

gboolean
sw_result_is_same (double expected, double found)
{
  if (isnan (expected) || isnan (found))
    return isnan (expected) && isnan (found);
  if (isinf (expected) || isinf (found))
    return expected == found;
  return fabs (found - expected) <= SAME_RELATIVE * MAX (fabs (expected), fabs (found));
}

/* An uncertainty that nobody stated is left out of the budget, not guessed. */
static SwQuantity
make_quantity (double value, double u)
{
  return (SwQuantity){ .value = value, .u = sw_or_zero (u), .freedom = INFINITY };
}

void
sw_result_dose_input (const SwTitration *titration,
                      const SwMethodVersion *version,
                      SwDoseInput *input)
{
  *input = (SwDoseInput){
    .step_ml = make_quantity (titration->step_ml, titration->step_u_ml),
    .sample_ml = make_quantity (titration->portion_volume.value, titration->portion_u_ml),
    .system_l = SW_UNKNOWN,
    .titrant = make_quantity (titration->titrant_mmol_ml, titration->titrant_u_mmol_ml),
    .product = SW_UNKNOWN,
    .strength_ratio = SW_UNKNOWN,
    .caustic_mmol = make_quantity (sw_or_zero (titration->caustic_mmol), version->caustic_u_mmol),
    .caustic_counts = titration->caustic_counts,
    .acid_at = titration->acid_at,
    .pass_at = titration->pass_at,
    .blank = sw_or_zero (titration->blank),
  };
  if (!isnan (titration->step_freedom))
    input->step_ml.freedom = titration->step_freedom;
}

/* f = v_d r 1000 V_m / V_s is the supplier's factor times V_m for r = factor V_s / (1000 v_d). */
void
sw_result_supplier_input (const SwDoseInput *ours, double factor_ml_l, SwDoseInput *supplier)
{
  *supplier = *ours;
  supplier->titrant = SW_UNKNOWN;
  supplier->product = SW_UNKNOWN;
  supplier->strength_ratio
      = SW_EXACT (factor_ml_l * ours->sample_ml.value / (1000.0 * ours->step_ml.value));
  supplier->caustic_mmol = SW_EXACT (0.0);
  supplier->caustic_counts = FALSE;
  supplier->blank = 0.0;
}

void
sw_result_stored_input (const SwDoseRow *dose,
                        const SwTitration *titration,
                        const SwMethodVersion *version,
                        SwDoseInput *input)
{
  SwDoseInput ours;

  sw_result_dose_input (titration, version, input);
  input->system_l = make_quantity (dose->system_l, dose->system_u_l);
  input->product = make_quantity (dose->product_mmol_ml, dose->product_u_mmol_ml);
  input->strength_ratio
      = isnan (dose->strength_ratio) ? SW_UNKNOWN : SW_EXACT (dose->strength_ratio);
  ours = *input;
  if (dose->supplier_governs)
    sw_result_supplier_input (&ours, version->supplier_factor_ml_l, input);
  input->extra = sw_or_zero (dose->extra_steps);
}

double
sw_result_per_step (const SwTitration *titration, gboolean itself, double product_mmol_ml)
{
  double ratio = itself ? 1.0 : titration->titrant_mmol_ml / product_mmol_ml;
  double ml_l;

  if (!isfinite (ratio)
      || !sw_content_per_step_product (titration->step_ml, ratio, titration->portion_volume.value,
                                       &ml_l, NULL))
    return NAN;
  return ml_l;
}

static int
compare_ordinal_cb (gconstpointer a, gconstpointer b)
{
  const SwReadingRow *one = *(SwReadingRow *const *)a;
  const SwReadingRow *other = *(SwReadingRow *const *)b;

  return (one->ordinal > other->ordinal) - (one->ordinal < other->ordinal);
}

GPtrArray *
sw_result_load_readings (SwStore *store, gint64 titration, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_READING, "titration", titration, error);
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_reading_row_free);

  if (ids == NULL)
    return NULL;
  for (guint i = 0; i < ids->len; i++)
    {
      SwReadingRow *row = sw_reading_row_load (store, g_array_index (ids, gint64, i), error);

      if (row == NULL)
        return NULL;
      g_ptr_array_add (rows, row);
    }
  g_ptr_array_sort (rows, compare_ordinal_cb);
  return g_steal_pointer (&rows);
}
