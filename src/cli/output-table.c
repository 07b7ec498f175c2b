/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The names and units of all that commands print, and the printing. */
#include "cli/output.h"

#include <string.h>

typedef struct
{
  const char *name;
  const char *unit;
} Output;

static const Output outputs[SW_N_OUTPUTS] = {
  [SW_OUTPUT_DOSE] = { "dose", "mL" },
  [SW_OUTPUT_DOSE_U] = { "dose_standard_uncertainty", "mL" },
  [SW_OUTPUT_DOSE_LOW] = { "dose_low", "mL" },
  [SW_OUTPUT_DOSE_HIGH] = { "dose_high", "mL" },
  [SW_OUTPUT_DOSE_DOUBT_LOW] = { "dose_doubt_low", "mL" },
  [SW_OUTPUT_DOSE_DOUBT_HIGH] = { "dose_doubt_high", "mL" },
  [SW_OUTPUT_DOSE_BEST] = { "dose_best", "mL" },
  [SW_OUTPUT_DOSE_BEST_U] = { "dose_best_standard_uncertainty", "mL" },
  [SW_OUTPUT_DOSE_BEST_EXPANDED] = { "dose_best_expanded_uncertainty", "mL" },
  [SW_OUTPUT_COVERAGE_FACTOR] = { "coverage_factor", "" },
  [SW_OUTPUT_DOSE_INTERVAL_LOW] = { "dose_interval_low", "mL" },
  [SW_OUTPUT_DOSE_INTERVAL_HIGH] = { "dose_interval_high", "mL" },
  [SW_OUTPUT_DOSE_EXTRA] = { "dose_extra", "mL" },
  [SW_OUTPUT_DOSE_MEASURED] = { "dose_measured", "mL" },
  [SW_OUTPUT_ADDITION] = { "addition", "mL" },
  [SW_OUTPUT_VOLUME_PER_DROP] = { "volume_per_drop", "mL" },
  [SW_OUTPUT_STEP_TOO_WIDE] = { "step_too_wide", "" },
  [SW_OUTPUT_DOMINANT] = { "dominant", "" },
  [SW_OUTPUT_SHARE_END_POINT] = { "share_end_point", "" },
  [SW_OUTPUT_SHARE_DROP_VOLUME] = { "share_drop_volume", "" },
  [SW_OUTPUT_SHARE_SAMPLE_VOLUME] = { "share_sample", "" },
  [SW_OUTPUT_SHARE_SYSTEM_VOLUME] = { "share_system", "" },
  [SW_OUTPUT_SHARE_TITRANT] = { "share_titrant", "" },
  [SW_OUTPUT_SHARE_PRODUCT] = { "share_product", "" },
  [SW_OUTPUT_SHARE_STRENGTH_RATIO] = { "share_strength_ratio", "" },
  [SW_OUTPUT_SHARE_CAUSTIC] = { "share_caustic", "" },
  [SW_OUTPUT_SHARE_OTHER] = { "share_other", "" },
  [SW_OUTPUT_OUTCOME] = { "outcome", "" },
  [SW_OUTPUT_NEXT] = { "next", "" },
  [SW_OUTPUT_ACID_AT] = { "acid_at", "steps" },
  [SW_OUTPUT_PASS_AT] = { "pass_at", "steps" },
  [SW_OUTPUT_TOTAL] = { "total", "steps" },
  [SW_OUTPUT_CAUSTIC_STEPS] = { "caustic_steps", "steps" },
  [SW_OUTPUT_NET_ACID_LOW] = { "net_acid_low", "steps" },
  [SW_OUTPUT_NET_ACID_HIGH] = { "net_acid_high", "steps" },
  [SW_OUTPUT_CONTENT_LOW] = { "content_low_mmol_l", "mmol/L" },
  [SW_OUTPUT_CONTENT_HIGH] = { "content_high_mmol_l", "mmol/L" },
  [SW_OUTPUT_CONTENT_BEST] = { "content_best_mmol_l", "mmol/L" },
  [SW_OUTPUT_THRESHOLD] = { "threshold_mmol_l", "mmol/L" },
  [SW_OUTPUT_CONTENT] = { "content_mmol_l", "mmol/L" },
  [SW_OUTPUT_CONTENT_PRODUCT] = { "content_ml_l", "mL/L" },
  [SW_OUTPUT_CONTENT_AS_HCL] = { "content_as_hcl", "mg/L" },
  [SW_OUTPUT_ACID_NUMBER] = { "acid_number", "mg KOH/g" },
  [SW_OUTPUT_ACID_ACCEPTANCE] = { "acid_acceptance", "% NaOH" },
  [SW_OUTPUT_DROP_VOLUME] = { "drop_volume", "mL" },
  [SW_OUTPUT_DROP_VOLUME_U] = { "drop_volume_standard_uncertainty", "mL" },
  [SW_OUTPUT_DROP_VOLUME_FREEDOM] = { "drop_volume_degrees_of_freedom", "" },
  [SW_OUTPUT_DROP_VOLUME_SD] = { "drop_volume_spread", "mL" },
  [SW_OUTPUT_OUTLIER] = { "outlier", "" },
  [SW_OUTPUT_GRUBBS] = { "grubbs", "" },
  [SW_OUTPUT_GRUBBS_CRITICAL] = { "grubbs_critical", "" },
  [SW_OUTPUT_MASS_OF_20_DROPS] = { "mass_of_20_drops", "g" },
  [SW_OUTPUT_PHARMACOPOEIAL] = { "pharmacopoeial", "" },
  [SW_OUTPUT_FINDING] = { "finding", "" },
  [SW_OUTPUT_NOTE] = { "note", "" },
  [SW_OUTPUT_JOURNAL_ROWS] = { "journal_rows", "" },
  [SW_OUTPUT_RECORD_ROWS] = { "record_rows", "" },
  [SW_OUTPUT_CHAIN_FROM] = { "chain_from", "" },
  [SW_OUTPUT_CHECKPOINTS] = { "checkpoints", "" },
  [SW_OUTPUT_CHECKPOINTS_OUTSIDE] = { "checkpoints_outside", "" },
  [SW_OUTPUT_HEAD] = { "head", "" },
  [SW_OUTPUT_ENTRY] = { "entry", "" },
  [SW_OUTPUT_CHANGE] = { "change", "" },
  [SW_OUTPUT_ENTRY_HASH] = { "hash", "" },
  [SW_OUTPUT_WRITTEN] = { "written", "" },
  [SW_OUTPUT_BYTES] = { "bytes", "B" },
  [SW_OUTPUT_MACHINES] = { "machines", "" },
  [SW_OUTPUT_TESTS] = { "tests", "" },
  [SW_OUTPUT_DOSES] = { "doses", "" },
  [SW_OUTPUT_ASSUMED] = { "assumed", "" },
};

const char *
sw_output_get_name (SwOutputName name)
{
  g_return_val_if_fail ((int)name >= 0 && name < SW_N_OUTPUTS, "");
  return outputs[name].name;
}

/* A text out of a file may hold any bytes; none of them may pass for a field or a line of its own.
 */
static void
append_field (GString *out, const char *text)
{
  g_autofree char *plain = g_utf8_make_valid (text, -1);

  g_strdelimit (plain, "\t\n\r", ' ');
  g_string_append (out, plain);
}

static void
append_line (GString *out, const char *name, const char *value, const char *unit)
{
  g_string_append_printf (out, "%s\t", name);
  append_field (out, value);
  /* No trailing tab: a line without a unit has two fields. */
  if (*unit != '\0')
    {
      g_string_append_c (out, '\t');
      append_field (out, unit);
    }
  g_string_append_c (out, '\n');
}

void
sw_output_number (GString *out, SwOutputName name, double value)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE] = "none";

  g_return_if_fail ((int)name >= 0 && name < SW_N_OUTPUTS);
  if (isinf (value))
    g_strlcpy (digits, value > 0 ? "inf" : "-inf", sizeof digits);
  else if (!isnan (value))
    /* Adding 0 turns -0 into 0. */
    g_ascii_formatd (digits, sizeof digits, "%.15g", value + 0.0);
  append_line (out, outputs[name].name, digits, outputs[name].unit);
}

void
sw_output_text (GString *out, SwOutputName name, const char *text, const char *unit)
{
  g_return_if_fail ((int)name >= 0 && name < SW_N_OUTPUTS);
  append_line (out, outputs[name].name, text, unit != NULL ? unit : "");
}

void
sw_output_flag (GString *out, SwOutputName name, gboolean yes)
{
  sw_output_text (out, name, yes ? "yes" : "no", NULL);
}

void
sw_output_interval (GString *out, SwOutputName low, SwOutputName high, SwInterval interval)
{
  sw_output_number (out, low, interval.low);
  sw_output_number (out, high, interval.high);
}

void
sw_output_assumed (GString *out, const char *option, const char *value)
{
  g_autofree char *name = g_strdelimit (g_strdup (option), "-", '_');

  append_line (out, outputs[SW_OUTPUT_ASSUMED].name, name, value);
}
