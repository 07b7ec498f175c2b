/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stillwarden calculate outcome: readings typed as "0:acid,1:acid:struck,3:neutral,3:neutral". */
#include "cli/command.h"

#include "calc/content.h"
#include "calc/outcome.h"
#include "wording/number.h"

#include <glib/gi18n.h>
#include <string.h>

const SwOption sw_cli_outcome_options[] = {
  { "readings", SW_OPTION_TEXT, SW_QUANTITY_READING_TOTAL,
    .help = N_ ("total:colour, total:colour:struck or total:colour:not-added, with commas between; "
                "colours: acid, between, neutral, alkaline") },
  { "direction", SW_OPTION_TEXT, .preset = "base",
    .help = N_ ("the titrant: base, or acid for a reserve titration") },
  { "maximum", SW_OPTION_AMOUNT, SW_QUANTITY_MAXIMUM, SW_UNIT_STEP, .preset = "1000" },
  { "blank", SW_OPTION_AMOUNT, SW_QUANTITY_BLANK, SW_UNIT_STEP, .preset = "0" },
  { "caustic", SW_OPTION_AMOUNT, SW_QUANTITY_CAUSTIC, SW_UNIT_MMOL },
  { "caustic-counts", SW_OPTION_FLAG,
    .help = N_ ("the caustic addition counts as acid; without it, it is the test's threshold") },
  { "drop-volume", SW_OPTION_AMOUNT, SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML },
  { "titrant", SW_OPTION_AMOUNT, SW_QUANTITY_TITRANT_STRENGTH, SW_UNIT_MMOL_PER_ML },
  { "sample", SW_OPTION_AMOUNT, SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML },
  { NULL }
};

/* What turns steps into contents; NAN where it is not given. */
typedef struct
{
  double step_ml;
  double titrant_mmol_ml;
  double sample_ml;
  double caustic_mmol;
} Amounts;

static gboolean
refuse_reading (const SwCliRun *run, const char *reading, GError **error)
{
  g_autofree char *sentence = NULL;

  /* Translators: %s is what was typed. */
  sentence = g_strdup_printf (
      sw_tr (run->wording, "“%s” is no reading; one looks like 2:acid or 2:acid:struck."), reading);
  return sw_options_refuse (run->options, "readings", sentence, error);
}

static gboolean
parse_reading (const SwCliRun *run, const char *text, SwReading *reading, GError **error)
{
  g_auto (GStrv) parts = g_strsplit (text, ":", -1);
  guint n = g_strv_length (parts);
  g_autoptr (GError) fault = NULL;
  SwParsedAmount total;

  if (n < 2 || n > 3 || !sw_field_from_name (parts[1], &reading->field))
    return refuse_reading (run, text, error);
  reading->not_added = n == 3 && strcmp (parts[2], "not-added") == 0;
  reading->struck = reading->not_added || (n == 3 && strcmp (parts[2], "struck") == 0);
  if (n == 3 && !reading->struck)
    return refuse_reading (run, text, error);
  if (!sw_number_parse_strict (parts[0], SW_QUANTITY_READING_TOTAL, SW_UNIT_STEP, &total, &fault))
    {
      g_propagate_error (error, g_steal_pointer (&fault));
      return sw_options_name_fault (run->options, error);
    }
  reading->total = total.value;
  return TRUE;
}

static GArray *
parse_readings (const SwCliRun *run, GError **error)
{
  const char *text = sw_options_get_text (run->options, "readings");
  g_autoptr (GArray) readings = g_array_new (FALSE, FALSE, sizeof (SwReading));
  g_auto (GStrv) words = NULL;

  if (text == NULL)
    {
      sw_options_refuse (run->options, "readings",
                         sw_tr (run->wording, "This option is missing; it has no default."), error);
      return NULL;
    }
  words = g_strsplit (text, ",", -1);
  for (gsize i = 0; words[i] != NULL; i++)
    {
      SwReading reading = { 0 };

      if (!parse_reading (run, g_strstrip (words[i]), &reading, error))
        return NULL;
      g_array_append_val (readings, reading);
    }
  return g_steal_pointer (&readings);
}

static gboolean
read_amounts (const SwCliRun *run, Amounts *amounts, GError **error)
{
  const SwOptions *options = run->options;

  *amounts = (Amounts){ NAN, NAN, NAN, 0.0 };
  return sw_options_try_amount (options, "drop-volume", &amounts->step_ml, error)
         && sw_options_try_amount (options, "titrant", &amounts->titrant_mmol_ml, error)
         && sw_options_try_amount (options, "sample", &amounts->sample_ml, error)
         && sw_options_try_amount (options, "caustic", &amounts->caustic_mmol, error);
}

/* An addition that counts is worth c steps; that needs the drop and the titrant. */
static gboolean
read_caustic (const SwCliRun *run, const Amounts *amounts, double *steps, GError **error)
{
  const char *const needed[] = { "caustic", "drop-volume", "titrant" };

  *steps = 0.0;
  if (!sw_options_has (run->options, "caustic-counts"))
    return TRUE;
  for (gsize i = 0; i < G_N_ELEMENTS (needed); i++)
    if (!sw_options_has (run->options, needed[i]))
      return sw_options_refuse (run->options, needed[i],
                                sw_tr (run->wording, "--caustic-counts needs this option."), error);
  *steps = sw_caustic_in_steps (amounts->caustic_mmol, amounts->step_ml, amounts->titrant_mmol_ml);
  return TRUE;
}

static void
append_contents (GString *out, const SwOutcome *outcome, const Amounts *amounts)
{
  double per_step = NAN;

  if (!isnan (amounts->sample_ml) && !isnan (amounts->step_ml) && !isnan (amounts->titrant_mmol_ml))
    sw_content_per_step (amounts->step_ml, amounts->titrant_mmol_ml, amounts->sample_ml, &per_step,
                         NULL);
  if (!isnan (per_step))
    {
      SwInterval content = { outcome->net.low * per_step, outcome->net.high * per_step };
      sw_output_interval (out, SW_OUTPUT_CONTENT_LOW, SW_OUTPUT_CONTENT_HIGH, content);
    }
}

static void
append_caustic (const SwCliRun *run, const Amounts *amounts, double steps)
{
  if (!sw_options_has (run->options, "caustic"))
    {
      sw_output_assumed (run->out, "caustic", "0 mmol");
      return;
    }
  if (sw_options_has (run->options, "caustic-counts"))
    {
      sw_output_number (run->out, SW_OUTPUT_CAUSTIC_STEPS, steps);
      return;
    }
  if (!isnan (amounts->sample_ml))
    sw_output_number (run->out, SW_OUTPUT_THRESHOLD,
                      1000.0 * amounts->caustic_mmol / amounts->sample_ml);
  sw_output_assumed (run->out, "caustic-counts", "no");
}

static void
append_outcome (GString *out, const SwOutcome *outcome)
{
  sw_output_text (out, SW_OUTPUT_OUTCOME, sw_outcome_name (outcome->kind), NULL);
  sw_output_text (out, SW_OUTPUT_NEXT, sw_next_name (outcome->next), NULL);
  sw_output_number (out, SW_OUTPUT_ACID_AT, outcome->acid_at);
  sw_output_number (out, SW_OUTPUT_PASS_AT, outcome->pass_at);
  sw_output_number (out, SW_OUTPUT_TOTAL, outcome->total);
  sw_output_interval (out, SW_OUTPUT_NET_ACID_LOW, SW_OUTPUT_NET_ACID_HIGH, outcome->net);
}

SwExit
sw_cli_outcome (SwCliRun *run, GError **error)
{
  g_autoptr (GArray) readings = parse_readings (run, error);
  SwMethodFacts method = { 0 };
  Amounts amounts;
  SwOutcome outcome;

  if (readings == NULL || !sw_cli_read_direction (run, &method.direction, error)
      || !sw_options_get_amount (run->options, "maximum", &method.maximum, error)
      || !sw_options_get_amount (run->options, "blank", &method.blank, error)
      || !read_amounts (run, &amounts, error)
      || !read_caustic (run, &amounts, &method.caustic_steps, error)
      || !sw_outcome_compute (&method, (const SwReading *)(const void *)readings->data,
                              readings->len, &outcome, error))
    {
      sw_options_name_fault (run->options, error);
      return SW_EXIT_BAD_ARGUMENTS;
    }
  append_outcome (run->out, &outcome);
  append_contents (run->out, &outcome, &amounts);
  append_caustic (run, &amounts, method.caustic_steps);
  sw_options_append_assumed (run->options, run->out);
  return SW_EXIT_DONE;
}
