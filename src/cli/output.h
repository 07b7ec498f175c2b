/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What commands print: lines of name, value and unit with tabs between, the same in every language.
 *
 * Each name stands in one table; a test compares the table with the man page. A value that is not
 * known is "none", an open end "inf" or "-inf"; numbers have 15 significant digits in the C locale.
 */
#pragma once

#include "calc/quantity.h"

G_BEGIN_DECLS

typedef enum
{
  /* calculate dose */
  SW_OUTPUT_DOSE,
  SW_OUTPUT_DOSE_U,
  SW_OUTPUT_DOSE_LOW,
  SW_OUTPUT_DOSE_HIGH,
  SW_OUTPUT_DOSE_DOUBT_LOW,
  SW_OUTPUT_DOSE_DOUBT_HIGH,
  SW_OUTPUT_DOSE_BEST,
  SW_OUTPUT_DOSE_BEST_U,
  SW_OUTPUT_DOSE_BEST_EXPANDED,
  SW_OUTPUT_COVERAGE_FACTOR,
  SW_OUTPUT_DOSE_INTERVAL_LOW,
  SW_OUTPUT_DOSE_INTERVAL_HIGH,
  SW_OUTPUT_DOSE_EXTRA,
  SW_OUTPUT_DOSE_MEASURED,
  SW_OUTPUT_ADDITION,
  SW_OUTPUT_VOLUME_PER_DROP,
  SW_OUTPUT_STEP_TOO_WIDE,
  SW_OUTPUT_DOMINANT,
  SW_OUTPUT_SHARE_END_POINT, /* in the order of SwBudgetLineName */
  SW_OUTPUT_SHARE_DROP_VOLUME,
  SW_OUTPUT_SHARE_SAMPLE_VOLUME,
  SW_OUTPUT_SHARE_SYSTEM_VOLUME,
  SW_OUTPUT_SHARE_TITRANT,
  SW_OUTPUT_SHARE_PRODUCT,
  SW_OUTPUT_SHARE_STRENGTH_RATIO,
  SW_OUTPUT_SHARE_CAUSTIC,
  SW_OUTPUT_SHARE_OTHER,
  /* calculate outcome, and dose */
  SW_OUTPUT_OUTCOME,
  SW_OUTPUT_NEXT,
  SW_OUTPUT_ACID_AT,
  SW_OUTPUT_PASS_AT,
  SW_OUTPUT_TOTAL,
  SW_OUTPUT_CAUSTIC_STEPS,
  SW_OUTPUT_NET_ACID_LOW,
  SW_OUTPUT_NET_ACID_HIGH,
  SW_OUTPUT_CONTENT_LOW,
  SW_OUTPUT_CONTENT_HIGH,
  SW_OUTPUT_CONTENT_BEST,
  SW_OUTPUT_THRESHOLD,
  /* calculate content, acid-number, acceptance */
  SW_OUTPUT_CONTENT,
  SW_OUTPUT_CONTENT_PRODUCT,
  SW_OUTPUT_CONTENT_AS_HCL,
  SW_OUTPUT_ACID_NUMBER,
  SW_OUTPUT_ACID_ACCEPTANCE,
  /* calculate calibration */
  SW_OUTPUT_DROP_VOLUME,
  SW_OUTPUT_DROP_VOLUME_U,
  SW_OUTPUT_DROP_VOLUME_FREEDOM,
  SW_OUTPUT_DROP_VOLUME_SD,
  SW_OUTPUT_OUTLIER,
  SW_OUTPUT_GRUBBS,
  SW_OUTPUT_GRUBBS_CRITICAL,
  SW_OUTPUT_MASS_OF_20_DROPS,
  SW_OUTPUT_PHARMACOPOEIAL,
  /* verify, export */
  SW_OUTPUT_FINDING,
  SW_OUTPUT_NOTE,
  SW_OUTPUT_JOURNAL_ROWS,
  SW_OUTPUT_RECORD_ROWS,
  SW_OUTPUT_CHAIN_FROM,
  SW_OUTPUT_CHECKPOINTS,
  SW_OUTPUT_CHECKPOINTS_OUTSIDE,
  SW_OUTPUT_HEAD,
  /* journal */
  SW_OUTPUT_ENTRY,
  SW_OUTPUT_CHANGE,
  SW_OUTPUT_ENTRY_HASH,
  /* backup, snapshot */
  SW_OUTPUT_WRITTEN,
  SW_OUTPUT_BYTES,
  /* demo */
  SW_OUTPUT_MACHINES,
  SW_OUTPUT_TESTS,
  SW_OUTPUT_DOSES,
  /* any */
  SW_OUTPUT_ASSUMED,
  SW_N_OUTPUTS
} SwOutputName;

/* (transfer none) */
const char *sw_output_get_name (SwOutputName name);

void sw_output_number (GString *out, SwOutputName name, double value);
/* Tabs and line ends in @text become spaces. @unit may be NULL. */
void sw_output_text (GString *out, SwOutputName name, const char *text, const char *unit);
void sw_output_flag (GString *out, SwOutputName name, gboolean yes);
void sw_output_interval (GString *out, SwOutputName low, SwOutputName high, SwInterval interval);
/* "assumed", the option's name in snake case, the value with its unit. */
void sw_output_assumed (GString *out, const char *option, const char *value);

G_END_DECLS
