/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stillwarden calculate dose. */
#include "cli/command.h"

#include "calc/dose.h"
#include "calc/monte_carlo.h"

#include <glib/gi18n.h>
#include <string.h>

/* 2.4: below five drops no +-U on a count, but an interval from draws. Same seed, same interval. */
#define FEW_STEPS 5.0
#define TRIALS 100000
#define SEED 1
/* Both strengths and their ratio given: they must agree. */
#define SAME_RATIO 1e-9

const SwOption sw_cli_dose_options[]
    = { { "acid-at", SW_OPTION_AMOUNT, SW_QUANTITY_ACID_AT, SW_UNIT_STEP },
        { "pass-at", SW_OPTION_AMOUNT, SW_QUANTITY_PASS_AT, SW_UNIT_STEP },
        { "drop-volume", SW_OPTION_AMOUNT, SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, .uncertain = TRUE },
        { "sample", SW_OPTION_AMOUNT, SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, .uncertain = TRUE,
          .preset = "50 mL" },
        { "system", SW_OPTION_AMOUNT, SW_QUANTITY_SYSTEM_VOLUME, SW_UNIT_LITRE, .uncertain = TRUE },
        { "strength-ratio", SW_OPTION_AMOUNT, SW_QUANTITY_STRENGTH_RATIO, SW_UNIT_NONE,
          .uncertain = TRUE },
        { "titrant", SW_OPTION_AMOUNT, SW_QUANTITY_TITRANT_STRENGTH, SW_UNIT_MMOL_PER_ML,
          .uncertain = TRUE },
        { "product", SW_OPTION_AMOUNT, SW_QUANTITY_PRODUCT_STRENGTH, SW_UNIT_MMOL_PER_ML,
          .uncertain = TRUE },
        { "caustic", SW_OPTION_AMOUNT, SW_QUANTITY_CAUSTIC, SW_UNIT_MMOL, .uncertain = TRUE },
        { "caustic-counts", SW_OPTION_FLAG,
          .help
          = N_ ("the caustic addition counts as acid; without it, it is the test's threshold") },
        { "blank", SW_OPTION_AMOUNT, SW_QUANTITY_BLANK, SW_UNIT_STEP, .preset = "0" },
        { "extra-drops", SW_OPTION_AMOUNT, SW_QUANTITY_EXTRA, SW_UNIT_STEP, .preset = "0" },
        { "graduation", SW_OPTION_AMOUNT, SW_QUANTITY_GRADUATION, SW_UNIT_ML },
        { "limit-each", SW_OPTION_AMOUNT, SW_QUANTITY_LIMIT_EACH, SW_UNIT_ML_PER_L },
        { "limit-total", SW_OPTION_AMOUNT, SW_QUANTITY_LIMIT_TOTAL, SW_UNIT_ML_PER_L },
        { "direction", SW_OPTION_TEXT, .preset = "base",
          .help = N_ ("the titrant: base, or acid for a reserve titration") },
        { "reserve-high", SW_OPTION_AMOUNT, SW_QUANTITY_RESERVE_HIGH, SW_UNIT_STEP },
        { NULL } };

/* One way to know the strengths, and only one answer. */
static gboolean
check_strengths (const SwCliRun *run, const SwDoseInput *input, GError **error)
{
  gboolean both = sw_quantity_is_known (input->titrant) && sw_quantity_is_known (input->product);
  gboolean ratio = sw_quantity_is_known (input->strength_ratio);

  if (!both && !ratio)
    return sw_options_refuse (
        run->options, "strength-ratio",
        sw_tr (run->wording, "Give this, or both --titrant and --product; there is no default."),
        error);
  if (!both || !ratio
      || fabs (input->titrant.value / input->product.value / input->strength_ratio.value - 1.0)
             <= SAME_RATIO)
    return TRUE;
  return sw_options_refuse (
      run->options, "strength-ratio",
      sw_tr (run->wording, "This contradicts --titrant and --product. Leave one of them out."),
      error);
}

static gboolean
read_liquids (const SwCliRun *run, SwDoseInput *input, GError **error)
{
  const SwOptions *options = run->options;

  input->titrant = input->product = input->strength_ratio = SW_UNKNOWN;
  input->caustic_mmol = SW_EXACT (0.0);
  input->caustic_counts = sw_options_has (options, "caustic-counts");
  if (input->caustic_counts && !sw_options_has (options, "caustic"))
    return sw_options_refuse (options, "caustic-counts",
                              sw_tr (run->wording, "This option needs --caustic beside it."),
                              error);
  return sw_options_try_quantity (options, "titrant", &input->titrant, error)
         && sw_options_try_quantity (options, "product", &input->product, error)
         && sw_options_try_quantity (options, "strength-ratio", &input->strength_ratio, error)
         && sw_options_try_quantity (options, "caustic", &input->caustic_mmol, error)
         && check_strengths (run, input, error);
}

static gboolean
read_input (const SwCliRun *run, SwDoseInput *input, GError **error)
{
  const SwOptions *options = run->options;

  if (!sw_cli_read_direction (run, &input->direction, error)
      || !sw_options_get_amount (options, "acid-at", &input->acid_at, error)
      || !sw_options_get_amount (options, "pass-at", &input->pass_at, error)
      || !sw_options_get_quantity (options, "drop-volume", &input->step_ml, error)
      || !sw_options_get_quantity (options, "sample", &input->sample_ml, error)
      || !sw_options_get_quantity (options, "system", &input->system_l, error)
      || !read_liquids (run, input, error)
      || !sw_options_get_amount (options, "blank", &input->blank, error)
      || !sw_options_get_amount (options, "extra-drops", &input->extra, error)
      || !sw_options_try_amount (options, "reserve-high", &input->reserve_high, error))
    return FALSE;
  if (input->direction == SW_DIRECTION_ACID && !sw_options_has (options, "reserve-high"))
    return sw_options_refuse (options, "reserve-high",
                              sw_tr (run->wording, "A reserve titration needs this mark."), error);
  return TRUE;
}

/* The limits are per litre of solvent; the rules want them for this machine. */
static gboolean
read_rules (const SwCliRun *run, double system_l, SwDoseRules *rules, GError **error)
{
  *rules = (SwDoseRules){ NAN, INFINITY, INFINITY };
  if (!sw_options_try_amount (run->options, "graduation", &rules->graduation_ml, error)
      || !sw_options_try_amount (run->options, "limit-each", &rules->limit_each_ml, error)
      || !sw_options_try_amount (run->options, "limit-total", &rules->limit_total_ml, error))
    return FALSE;
  rules->limit_each_ml *= system_l;
  rules->limit_total_ml *= system_l;
  return TRUE;
}

static void
append_amounts (GString *out, const SwDose *dose)
{
  sw_output_number (out, SW_OUTPUT_DOSE, dose->dose_ml.value);
  sw_output_number (out, SW_OUTPUT_DOSE_U, isnan (dose->dose_ml.value) ? NAN : dose->dose_ml.u);
  sw_output_interval (out, SW_OUTPUT_DOSE_LOW, SW_OUTPUT_DOSE_HIGH, dose->bounds_ml);
  sw_output_interval (out, SW_OUTPUT_DOSE_DOUBT_LOW, SW_OUTPUT_DOSE_DOUBT_HIGH, dose->doubt_ml);
  sw_output_number (out, SW_OUTPUT_DOSE_BEST, dose->best_ml.value);
  sw_output_number (out, SW_OUTPUT_DOSE_BEST_U, dose->best_ml.u);
  sw_output_number (out, SW_OUTPUT_DOSE_BEST_EXPANDED, dose->best_expanded_ml);
  sw_output_number (out, SW_OUTPUT_COVERAGE_FACTOR, dose->coverage);
  sw_output_number (out, SW_OUTPUT_DOSE_EXTRA, dose->extra_ml);
  sw_output_number (out, SW_OUTPUT_DOSE_MEASURED, dose->measure_ml);
  sw_output_number (out, SW_OUTPUT_VOLUME_PER_DROP, dose->per_step_ml);
  sw_output_flag (out, SW_OUTPUT_STEP_TOO_WIDE, dose->step_too_wide);
}

static void
append_acid (GString *out, const SwDoseInput *input, const SwDose *dose)
{
  sw_output_interval (out, SW_OUTPUT_NET_ACID_LOW, SW_OUTPUT_NET_ACID_HIGH, dose->net);
  sw_output_interval (out, SW_OUTPUT_CONTENT_LOW, SW_OUTPUT_CONTENT_HIGH, dose->content_mmol_l);
  sw_output_number (out, SW_OUTPUT_CONTENT_BEST, dose->content_best_mmol_l);
  if (input->caustic_mmol.value > 0.0 && !input->caustic_counts)
    sw_output_number (out, SW_OUTPUT_THRESHOLD,
                      1000.0 * input->caustic_mmol.value / input->sample_ml.value);
}

static void
append_budget (GString *out, const SwBudget *budget)
{
  for (gsize i = 0; i < budget->n; i++)
    sw_output_number (out, (SwOutputName)(SW_OUTPUT_SHARE_END_POINT + (int)budget->lines[i].name),
                      budget->lines[i].share);
  if (budget->n > 0 && budget->u > 0.0)
    {
      const char *share = sw_output_get_name (
          (SwOutputName)(SW_OUTPUT_SHARE_END_POINT + (int)budget->lines[budget->dominant].name));
      sw_output_text (out, SW_OUTPUT_DOMINANT, share + strlen ("share_"), NULL);
    }
}

static gboolean
append_interval (GString *out, const SwDoseInput *input, GError **error)
{
  SwInterval interval;

  if (input->pass_at >= FEW_STEPS)
    return TRUE;
  if (!sw_dose_monte_carlo (input, TRIALS, SEED, &interval, error))
    return FALSE;
  sw_output_interval (out, SW_OUTPUT_DOSE_INTERVAL_LOW, SW_OUTPUT_DOSE_INTERVAL_HIGH, interval);
  return TRUE;
}

static gboolean
append_additions (const SwCliRun *run, const SwDose *dose, const SwDoseRules *rules, GError **error)
{
  double amount = isnan (dose->measure_ml) ? dose->dose_ml.value : dose->measure_ml;
  g_autoptr (GArray) parts = NULL;

  if (!sw_options_has (run->options, "limit-each") || dose->step_too_wide)
    return TRUE;
  parts = sw_dose_split (amount, rules, error);
  if (parts == NULL)
    return FALSE;
  for (guint i = 0; i < parts->len; i++)
    sw_output_number (run->out, SW_OUTPUT_ADDITION, g_array_index (parts, double, i));
  return TRUE;
}

static void
append_assumed (const SwCliRun *run)
{
  const char *const without[] = { "graduation", "limit-each", "limit-total" };

  sw_options_append_assumed (run->options, run->out);
  if (!sw_options_has (run->options, "caustic"))
    sw_output_assumed (run->out, "caustic", "0 mmol");
  else if (!sw_options_has (run->options, "caustic-counts"))
    sw_output_assumed (run->out, "caustic-counts", "no");
  for (gsize i = 0; i < G_N_ELEMENTS (without); i++)
    if (!sw_options_has (run->options, without[i]))
      sw_output_assumed (run->out, without[i], "none");
}

SwExit
sw_cli_dose (SwCliRun *run, GError **error)
{
  SwDoseInput input = { 0 };
  SwDoseRules rules;
  SwDose dose;

  if (!read_input (run, &input, error) || !read_rules (run, input.system_l.value, &rules, error)
      || !sw_dose_compute (&input, &rules, &dose, error))
    {
      sw_options_name_fault (run->options, error);
      return SW_EXIT_BAD_ARGUMENTS;
    }
  append_amounts (run->out, &dose);
  append_acid (run->out, &input, &dose);
  append_budget (run->out, &dose.budget);
  if (!append_interval (run->out, &input, error) || !append_additions (run, &dose, &rules, error))
    {
      sw_options_name_fault (run->options, error);
      return SW_EXIT_BAD_ARGUMENTS;
    }
  append_assumed (run);
  return SW_EXIT_DONE;
}
