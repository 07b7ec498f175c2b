/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stillwarden calculate content, acid-number and acceptance. */
#include "cli/command.h"

#include "calc/content.h"

#include <glib/gi18n.h>

const SwOption sw_cli_content_options[]
    = { { "drops", SW_OPTION_AMOUNT, SW_QUANTITY_READING_TOTAL, SW_UNIT_STEP },
        { "drop-volume", SW_OPTION_AMOUNT, SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML },
        { "sample", SW_OPTION_AMOUNT, SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, .preset = "50 mL" },
        { "titrant", SW_OPTION_AMOUNT, SW_QUANTITY_TITRANT_STRENGTH, SW_UNIT_MMOL_PER_ML },
        { "strength-ratio", SW_OPTION_AMOUNT, SW_QUANTITY_STRENGTH_RATIO, SW_UNIT_NONE },
        { "density", SW_OPTION_AMOUNT, SW_QUANTITY_DENSITY, SW_UNIT_G_PER_ML },
        { NULL } };

/* The volumes are titrant used for the sample and for the blank; calc allows up to 1000 mL. */
const SwOption sw_cli_acid_number_options[]
    = { { "sample-titrant", SW_OPTION_AMOUNT, SW_QUANTITY_READING_TOTAL, SW_UNIT_ML,
          .help = N_ ("titrant used for the sample") },
        { "blank-titrant", SW_OPTION_AMOUNT, SW_QUANTITY_BLANK, SW_UNIT_ML,
          .help = N_ ("titrant used for the blank") },
        { "titrant", SW_OPTION_AMOUNT, SW_QUANTITY_TITRANT_STRENGTH, SW_UNIT_MMOL_PER_ML },
        { "weight", SW_OPTION_AMOUNT, SW_QUANTITY_WEIGHING, SW_UNIT_GRAM,
          .help = N_ ("weight of the sample") },
        { NULL } };

const SwOption sw_cli_acceptance_options[]
    = { { "sample-titrant", SW_OPTION_AMOUNT, SW_QUANTITY_READING_TOTAL, SW_UNIT_ML,
          .help = N_ ("titrant used for the sample") },
        { "blank-titrant", SW_OPTION_AMOUNT, SW_QUANTITY_BLANK, SW_UNIT_ML,
          .help = N_ ("titrant used for the blank") },
        { "titrant", SW_OPTION_AMOUNT, SW_QUANTITY_TITRANT_STRENGTH, SW_UNIT_MMOL_PER_ML },
        { "weight", SW_OPTION_AMOUNT, SW_QUANTITY_WEIGHING, SW_UNIT_GRAM,
          .help = N_ ("weight of the sample") },
        { NULL } };

/* By the titrant's strength: mmol/L and what follows from it. */
static gboolean
append_content (const SwCliRun *run, double drops, double step_ml, double sample_ml, GError **error)
{
  double titrant = NAN;
  double density = NAN;
  double per_step = NAN;
  double acid_number = NAN;

  if (!sw_options_try_amount (run->options, "titrant", &titrant, error)
      || !sw_options_try_amount (run->options, "density", &density, error))
    return FALSE;
  if (isnan (titrant))
    return TRUE;
  if (!sw_content_per_step (step_ml, titrant, sample_ml, &per_step, error))
    return FALSE;
  sw_output_number (run->out, SW_OUTPUT_CONTENT, drops * per_step);
  sw_output_number (run->out, SW_OUTPUT_CONTENT_AS_HCL, sw_content_as_hcl_mg_l (drops * per_step));
  if (isnan (density))
    return TRUE;
  if (!sw_content_as_acid_number (drops * per_step, density, &acid_number, error))
    return FALSE;
  sw_output_number (run->out, SW_OUTPUT_ACID_NUMBER, acid_number);
  return TRUE;
}

/* By the ratio of strengths: mL of product per L of solvent. */
static gboolean
append_product (const SwCliRun *run, double drops, double step_ml, double sample_ml, GError **error)
{
  double ratio = NAN;
  double per_step = NAN;

  if (!sw_options_try_amount (run->options, "strength-ratio", &ratio, error))
    return FALSE;
  if (isnan (ratio))
    return TRUE;
  if (!sw_content_per_step_product (step_ml, ratio, sample_ml, &per_step, error))
    return FALSE;
  sw_output_number (run->out, SW_OUTPUT_CONTENT_PRODUCT, drops * per_step);
  return TRUE;
}

/* A density alone, or nothing at all, answers no question. */
static gboolean
check_strengths (const SwCliRun *run, GError **error)
{
  gboolean titrant = sw_options_has (run->options, "titrant");

  if (sw_options_has (run->options, "density") && !titrant)
    return sw_options_refuse (run->options, "density",
                              sw_tr (run->wording, "This option needs --titrant beside it."),
                              error);
  if (titrant || sw_options_has (run->options, "strength-ratio"))
    return TRUE;
  return sw_options_refuse (
      run->options, "titrant",
      sw_tr (run->wording, "Give this, or --strength-ratio; there is no default."), error);
}

SwExit
sw_cli_content (SwCliRun *run, GError **error)
{
  double drops;
  double step_ml;
  double sample_ml;

  if (!sw_options_get_amount (run->options, "drops", &drops, error)
      || !sw_options_get_amount (run->options, "drop-volume", &step_ml, error)
      || !sw_options_get_amount (run->options, "sample", &sample_ml, error)
      || !check_strengths (run, error) || !append_content (run, drops, step_ml, sample_ml, error)
      || !append_product (run, drops, step_ml, sample_ml, error))
    {
      sw_options_name_fault (run->options, error);
      return SW_EXIT_BAD_ARGUMENTS;
    }
  sw_options_append_assumed (run->options, run->out);
  return SW_EXIT_DONE;
}

typedef struct
{
  double sample_ml;
  double blank_ml;
  double titrant;
  double weight_g;
} Burette;

static gboolean
read_burette (const SwCliRun *run, Burette *burette, GError **error)
{
  return sw_options_get_amount (run->options, "sample-titrant", &burette->sample_ml, error)
         && sw_options_get_amount (run->options, "blank-titrant", &burette->blank_ml, error)
         && sw_options_get_amount (run->options, "titrant", &burette->titrant, error)
         && sw_options_get_amount (run->options, "weight", &burette->weight_g, error);
}

SwExit
sw_cli_acid_number (SwCliRun *run, GError **error)
{
  Burette burette;
  double result;

  if (!read_burette (run, &burette, error)
      || !sw_acid_number (burette.sample_ml, burette.blank_ml, burette.titrant, burette.weight_g,
                          &result, error))
    {
      sw_options_name_fault (run->options, error);
      return SW_EXIT_BAD_ARGUMENTS;
    }
  sw_output_number (run->out, SW_OUTPUT_ACID_NUMBER, result);
  return SW_EXIT_DONE;
}

SwExit
sw_cli_acceptance (SwCliRun *run, GError **error)
{
  Burette burette;
  double result;

  if (!read_burette (run, &burette, error)
      || !sw_acid_acceptance (burette.blank_ml, burette.sample_ml, burette.titrant,
                              burette.weight_g, &result, error))
    {
      sw_options_name_fault (run->options, error);
      return SW_EXIT_BAD_ARGUMENTS;
    }
  sw_output_number (run->out, SW_OUTPUT_ACID_ACCEPTANCE, result);
  return SW_EXIT_DONE;
}
