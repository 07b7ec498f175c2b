/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sheet of doses: each amount as a formula over the cells it comes from, so that any spreadsheet
 * can work it out again:
 *
 *   steps    = first pass - (blank - 1), where there is a blank
 *   computed = ((steps + extra) * drop volume * ratio + caustic * ratio / titrant strength)
 *              * 1000 * system volume / sample volume
 *   measured = computed, rounded up to the marks of the jug
 *
 * This is the formula of calc/dose.h with s = b / ratio. The cached result is the stored one. A
 * dose by the supplier's figure carries that figure's ratio, without blank and caustic addition.
 */
#include "reports/sheet-private.h"

#include <glib/gi18n.h>
#include <math.h>

typedef SwDoseRow ROW_0;
typedef SwTitration ROW_1;
typedef SwSample ROW_2;

enum
{
  COLUMN_SAMPLE,
  COLUMN_PORTION,
  COLUMN_MACHINE,
  COLUMN_WORKED_OUT,
  COLUMN_STATE,
  COLUMN_PASS,
  COLUMN_BLANK,
  COLUMN_STEPS,
  COLUMN_EXTRA,
  COLUMN_DROP,
  COLUMN_SAMPLE_VOLUME,
  COLUMN_SYSTEM,
  COLUMN_TITRANT,
  COLUMN_PRODUCT_STRENGTH,
  COLUMN_RATIO,
  COLUMN_CAUSTIC,
  COLUMN_COMPUTED,
  COLUMN_GRADUATION,
  COLUMN_MEASURED,
  COLUMN_ADDED,
  COLUMN_ADDED_AT,
  COLUMN_ADDED_BY,
  COLUMN_PRODUCT,
  COLUMN_LOT,
  COLUMN_PLACE,
  COLUMN_EXTRA_REASON,
  COLUMN_LOW,
  COLUMN_HIGH,
  COLUMN_BEST,
  COLUMN_BEST_U,
  COLUMN_SUPPLIER,
  COLUMN_SUPPLIER_GOVERNS,
  COLUMN_RELEASED_BY,
  COLUMN_RELEASED,
  COLUMN_RETEST_DUE,
  COLUMN_RETEST,
  COLUMN_VERSION,
  COLUMN_VOIDED,
  COLUMN_ROW,
  COLUMN_JOURNAL,
  N_COLUMNS
};

/* "F7": the cell of a column in this row. */
typedef struct
{
  char name[LXW_MAX_CELL_NAME_LENGTH];
} Cell;

static Cell
at (const SwSheetRow *row, int column)
{
  Cell cell;

  lxw_rowcol_to_cell (cell.name, row->row, (lxw_col_t)column);
  return cell;
}

static void
set_number (SwSheetValue *value, double number)
{
  value->kind = SW_VALUE_NUMBER;
  value->number = number;
}

/* Takes the formula. An unknown result stays empty: nothing is shown that the program did not show.
 */
static void
set_formula (SwSheetValue *value, char *formula, double result)
{
  value->owned = formula;
  value->text = formula;
  value->kind = isfinite (result) ? SW_VALUE_FORMULA : SW_VALUE_EMPTY;
  value->number = result;
}

/* An amount that was found by titrating with acid is dosed to a band: its steps are no count. */
static gboolean
is_counted (const SwTitration *titration)
{
  return titration->outcome == SW_OUTCOME_ACID_FOUND;
}

static double
get_used_blank (const SwSheetRow *row)
{
  const SwDoseRow *dose = row->record[0];
  const SwTitration *titration = row->record[1];

  return dose->supplier_governs || !(titration->blank > 0.0) ? 0.0 : titration->blank;
}

static void
get_blank (const SwSheetRow *row, SwSheetValue *value)
{
  set_number (value, get_used_blank (row));
}

static void
get_caustic (const SwSheetRow *row, SwSheetValue *value)
{
  const SwDoseRow *dose = row->record[0];
  const SwTitration *titration = row->record[1];
  const gboolean counts = titration->caustic_counts && !dose->supplier_governs;

  set_number (value, counts && titration->caustic_mmol > 0.0 ? titration->caustic_mmol : 0.0);
}

static void
get_steps (const SwSheetRow *row, SwSheetValue *value)
{
  const SwDoseRow *dose = row->record[0];
  const SwTitration *titration = row->record[1];
  const double blank = get_used_blank (row);

  if (is_counted (titration))
    set_formula (value,
                 g_strdup_printf ("=%1$s-IF(%2$s>0,%2$s-1,0)", at (row, COLUMN_PASS).name,
                                  at (row, COLUMN_BLANK).name),
                 titration->pass_at - MAX (blank - 1.0, 0.0));
  else
    set_number (value, dose->computed_ml / dose->per_step_ml - dose->extra_steps);
}

static void
get_ratio (const SwSheetRow *row, SwSheetValue *value)
{
  const SwDoseRow *dose = row->record[0];
  const SwTitration *titration = row->record[1];

  if (isfinite (dose->strength_ratio))
    set_number (value, dose->strength_ratio);
  else
    set_formula (value,
                 g_strdup_printf ("=%s/%s", at (row, COLUMN_TITRANT).name,
                                  at (row, COLUMN_PRODUCT_STRENGTH).name),
                 titration->titrant_mmol_ml / dose->product_mmol_ml);
}

static void
get_computed (const SwSheetRow *row, SwSheetValue *value)
{
  const SwDoseRow *dose = row->record[0];

  set_formula (
      value,
      g_strdup_printf ("=((%1$s+%2$s)*%3$s*%4$s+IF(%5$s>0,%5$s*%4$s/%6$s,0))*1000*%7$s/%8$s",
                       at (row, COLUMN_STEPS).name, at (row, COLUMN_EXTRA).name,
                       at (row, COLUMN_DROP).name, at (row, COLUMN_RATIO).name,
                       at (row, COLUMN_CAUSTIC).name, at (row, COLUMN_TITRANT).name,
                       at (row, COLUMN_SYSTEM).name, at (row, COLUMN_SAMPLE_VOLUME).name),
      dose->computed_ml);
}

/* 63.0000000000001 marks are 63, not 64. */
static void
get_measured (const SwSheetRow *row, SwSheetValue *value)
{
  const SwDoseRow *dose = row->record[0];

  set_formula (value,
               g_strdup_printf ("=ROUNDUP(ROUND(%1$s/%2$s,9),0)*%2$s",
                                at (row, COLUMN_COMPUTED).name, at (row, COLUMN_GRADUATION).name),
               dose->measured_ml);
}

static void
get_state (const SwSheetRow *row, SwSheetValue *value)
{
  const SwDoseRow *dose = row->record[0];

  value->kind = SW_VALUE_TEXT;
  value->text = sw_word_dose_state (row->context->wording, dose->state);
}

static void
get_voided (const SwSheetRow *row, SwSheetValue *value)
{
  const SwDoseRow *dose = row->record[0];
  const SwSample *sample = row->record[2];

  value->kind = SW_VALUE_BOOLEAN;
  value->integer = dose->record.voided || sample->record.voided;
}

static const SwSheetColumn columns[N_COLUMNS] = {
  [COLUMN_SAMPLE] = SW_TEXT (NC_ ("column", "Sample"), 18, 2, code),
  [COLUMN_PORTION] = SW_INTEGER (NC_ ("column", "Portion"), 1, portion),
  [COLUMN_MACHINE] = SW_NAME (NC_ ("column", "Machine"), 10, 2, machine, SW_TABLE_MACHINE),
  [COLUMN_WORKED_OUT] = SW_TIME (NC_ ("column", "Worked out"), 0, record.happened_ms),
  [COLUMN_STATE] = SW_GET (NC_ ("column", "State"), SW_UNIT_NONE, 14, get_state),
  [COLUMN_PASS] = SW_NUMBER (NC_ ("column", "First pass, steps"), SW_UNIT_NONE, 1, pass_at),
  [COLUMN_BLANK] = SW_GET (NC_ ("column", "Blank, steps"), SW_UNIT_NONE, 11, get_blank),
  [COLUMN_STEPS] = SW_GET (NC_ ("column", "Steps to neutral"), SW_UNIT_NONE, 11, get_steps),
  [COLUMN_EXTRA]
  = SW_NUMBER (NC_ ("column", "Extra neutraliser, steps"), SW_UNIT_NONE, 0, extra_steps),
  [COLUMN_DROP] = SW_NUMBER (NC_ ("column", "Drop volume"), SW_UNIT_ML, 1, step_ml),
  [COLUMN_SAMPLE_VOLUME]
  = SW_NUMBER (NC_ ("column", "Sample volume"), SW_UNIT_ML, 1, portion_volume.value),
  [COLUMN_SYSTEM] = SW_NUMBER (NC_ ("column", "System volume"), SW_UNIT_LITRE, 0, system_l),
  [COLUMN_TITRANT]
  = SW_NUMBER (NC_ ("column", "Titrant strength"), SW_UNIT_MMOL_PER_ML, 1, titrant_mmol_ml),
  [COLUMN_PRODUCT_STRENGTH]
  = SW_NUMBER (NC_ ("column", "Product strength"), SW_UNIT_MMOL_PER_ML, 0, product_mmol_ml),
  [COLUMN_RATIO] = SW_GET (NC_ ("column", "Strength ratio"), SW_UNIT_NONE, 15, get_ratio),
  [COLUMN_CAUSTIC]
  = SW_GET (NC_ ("column", "Caustic addition that counts"), SW_UNIT_MMOL, 12, get_caustic),
  [COLUMN_COMPUTED] = SW_GET (NC_ ("column", "Dose"), SW_UNIT_ML, 15, get_computed),
  [COLUMN_GRADUATION]
  = SW_NUMBER (NC_ ("column", "Marks of the jug"), SW_UNIT_ML, 0, graduation_ml),
  [COLUMN_MEASURED] = SW_GET (NC_ ("column", "Measured amount"), SW_UNIT_ML, 12, get_measured),
  [COLUMN_ADDED] = SW_NUMBER (NC_ ("column", "Added amount"), SW_UNIT_ML, 0, added.value),
  [COLUMN_ADDED_AT] = SW_TIME (NC_ ("column", "Added"), 0, added_ms),
  [COLUMN_ADDED_BY] = SW_NAME (NC_ ("column", "Added by"), 16, 0, added_by, SW_TABLE_PERSON),
  [COLUMN_PRODUCT] = SW_NAME (NC_ ("column", "Product"), 24, 0, product, SW_TABLE_PRODUCT),
  [COLUMN_LOT] = SW_NAME (NC_ ("column", "Lot"), 14, 0, lot, SW_TABLE_LOT),
  [COLUMN_PLACE] = SW_TEXT (NC_ ("column", "Dosing place"), 24, 0, place),
  [COLUMN_EXTRA_REASON] = SW_TEXT (NC_ ("column", "Reason for the extra"), 24, 0, extra_reason),
  [COLUMN_LOW] = SW_NUMBER (NC_ ("column", "Lower bound"), SW_UNIT_ML, 0, low_ml),
  [COLUMN_HIGH] = SW_NUMBER (NC_ ("column", "Upper bound"), SW_UNIT_ML, 0, high_ml),
  [COLUMN_BEST] = SW_NUMBER (NC_ ("column", "Best estimate"), SW_UNIT_ML, 0, best_ml),
  [COLUMN_BEST_U]
  = SW_NUMBER (NC_ ("column", "Its standard uncertainty"), SW_UNIT_ML, 0, best_u_ml),
  [COLUMN_SUPPLIER]
  = SW_NUMBER (NC_ ("column", "By the supplier's chart"), SW_UNIT_ML, 0, supplier_ml),
  [COLUMN_SUPPLIER_GOVERNS]
  = SW_BOOLEAN (NC_ ("column", "The supplier's chart governs"), 0, supplier_governs),
  [COLUMN_RELEASED_BY]
  = SW_NAME (NC_ ("column", "Released by"), 16, 0, released_by, SW_TABLE_PERSON),
  [COLUMN_RELEASED] = SW_TIME (NC_ ("column", "Released"), 0, released_ms),
  [COLUMN_RETEST_DUE] = SW_TIME (NC_ ("column", "Re-test due"), 0, retest_due_ms),
  [COLUMN_RETEST]
  = SW_NAME (NC_ ("column", "Answered by sample"), 18, 0, retest_sample, SW_TABLE_SAMPLE),
  [COLUMN_VERSION] = SW_INTEGER (NC_ ("column", "Version of the calculation"), 0, calc_version),
  [COLUMN_VOIDED] = SW_GET (NC_ ("column", "Voided"), SW_UNIT_NONE, 11, get_voided),
  [COLUMN_ROW] = SW_ID (NC_ ("column", "Row"), 0, record.id),
  [COLUMN_JOURNAL] = SW_ID (NC_ ("column", "Journal row"), 0, record.journal_seq),
};

const SwSheet sw_sheet_doses = {
  .name = NC_ ("sheet", "Doses"),
  .columns = columns,
  .n_columns = N_COLUMNS,
  .sources = { { .table = SW_TABLE_DOSE,
                 .load = (gpointer (*) (SwStore *, gint64, GError **))sw_dose_row_load,
                 .free = (GDestroyNotify)sw_dose_row_free },
               { .table = SW_TABLE_TITRATION,
                 .load = (gpointer (*) (SwStore *, gint64, GError **))sw_titration_load,
                 .free = (GDestroyNotify)sw_titration_free,
                 .link = G_STRUCT_OFFSET (SwDoseRow, titration) },
               { .table = SW_TABLE_SAMPLE,
                 .load = (gpointer (*) (SwStore *, gint64, GError **))sw_sample_load,
                 .free = (GDestroyNotify)sw_sample_free,
                 .link = G_STRUCT_OFFSET (SwTitration, sample) } },
  .frozen = 1,
};
