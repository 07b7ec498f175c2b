/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A workbook of 100,000 tests against the library alone writing the same cells: what reading the
 * records, naming them and filling the cells costs on top. Another number may be given. */
#include "bench.h"
#include "reports/sheet-private.h"
#include "support/plant.h"

#include <stdlib.h>

#define ROWS 100000
#define ROWS_PER_ACT 1000

static void
insert_test (SwStore *store, const SwTestPlant *plant, int i)
{
  g_autoptr (SwSample) sample = sw_sample_new ();
  g_autoptr (SwTitration) titration = sw_titration_new ();
  GError *error = NULL;

  sample->code = g_strdup_printf ("M-07-261124-%d", i);
  sample->machine = plant->first.machine;
  sample->point = plant->first.point;
  sample->plan = plant->first.plan;
  sample->fill = plant->first.fill;
  sample->drawn_by = plant->technician;
  sample->volume.value = 150.0;
  sample->temperature.value = 22.5;
  sample->appearance = g_strdup ("clear");
  sw_sample_insert (store, sample, &error);
  g_assert_no_error (error);
  titration->sample = sample->record.id;
  titration->method_version = plant->version;
  titration->calibration = plant->calibration;
  titration->analyst = plant->technician;
  titration->portion = 1;
  titration->step = SW_STEP_DONE;
  titration->titrant_lot = plant->neutraliser_lot;
  titration->strip_lot = plant->strip_lot;
  titration->portion_volume.value = 50.0;
  titration->step_ml = 0.05;
  titration->step_u_ml = 0.001;
  titration->outcome = SW_OUTCOME_ACID_FOUND;
  titration->net_low = titration->acid_at = i % 5;
  titration->net_high = titration->pass_at = i % 5 + 1;
  titration->closed_ms = titration->signed_ms = titration->ended_ms = plant->now_ms;
  sw_titration_insert (store, titration, &error);
  g_assert_no_error (error);
}

static void
fill_file (SwTestPlant *plant, int n)
{
  for (int i = 0; i < n; i += ROWS_PER_ACT)
    {
      sw_test_plant_begin (plant, SW_ACT_TEST);
      for (int k = i; k < MIN (i + ROWS_PER_ACT, n); k++)
        insert_test (plant->store, plant, k);
      sw_test_plant_commit (plant);
    }
}

static void
export_all (SwTestPlant *plant, const SwWording *wording, const char *path, Bench *bench)
{
  const SwWorkbookRequest request
      = { .path = path, .force = TRUE, .at_ms = plant->now_ms, .by = "bench" };
  GError *error = NULL;

  bench_start (bench);
  sw_workbook_write (plant->store, wording, &request, &error);
  bench_stop (bench);
  g_assert_no_error (error);
}

/* ---- the library alone ---- */

static void
write_value (lxw_worksheet *worksheet, lxw_row_t row, lxw_col_t column, const SwSheetValue *value)
{
  switch (value->kind)
    {
    case SW_VALUE_TEXT:
      if (value->text != NULL && *value->text != '\0')
        worksheet_write_string (worksheet, row, column, value->text, NULL);
      break;
    case SW_VALUE_NUMBER:
      if (isfinite (value->number))
        worksheet_write_number (worksheet, row, column, value->number, NULL);
      break;
    case SW_VALUE_TIME:
      worksheet_write_number (worksheet, row, column, 46350.25, NULL);
      break;
    case SW_VALUE_BOOLEAN:
      worksheet_write_boolean (worksheet, row, column, (int)value->integer, NULL);
      break;
    case SW_VALUE_EMPTY:
    case SW_VALUE_FORMULA:
      break;
    }
}

/* The cells of the last test in every row. */
static void
write_alone (const SwSheetValue *values, guint n_columns, int n, const char *path, Bench *bench)
{
  lxw_workbook_options options = { .constant_memory = LXW_TRUE };
  lxw_workbook *workbook;
  lxw_worksheet *worksheet;

  bench_start (bench);
  workbook = workbook_new_opt (path, &options);
  worksheet = workbook_add_worksheet (workbook, "Tests");
  for (int row = 1; row <= n; row++)
    for (guint i = 0; i < n_columns; i++)
      write_value (worksheet, (lxw_row_t)row, (lxw_col_t)i, &values[i]);
  g_assert_cmpint (workbook_close (workbook), ==, LXW_NO_ERROR);
  bench_stop (bench);
}

int
main (int argc, char **argv)
{
  const int n = argc > 1 ? atoi (argv[1]) : ROWS;
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  g_autofree char *ours = g_strconcat (plant->path, ".xlsx", NULL);
  g_autofree char *alone = g_strconcat (plant->path, "-alone.xlsx", NULL);
  SwSheetContext context = { .store = plant->store, .wording = wording };
  SwSheetRow row = { .context = &context };
  const SwSheet *sheet = &sw_sheet_tests;
  g_autofree SwSheetValue *values = g_new0 (SwSheetValue, sheet->n_columns);
  Bench with_records, bare;

  bench_init (&with_records);
  bench_init (&bare);
  fill_file (plant, n);
  context.names = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  row.record[0] = sw_titration_load (plant->store, n, NULL);
  row.record[1] = sw_sample_load (plant->store, n, NULL);
  g_assert_true (row.record[0] != NULL && row.record[1] != NULL);
  for (guint i = 0; i < sheet->n_columns; i++)
    sw_sheet_fill (&sheet->columns[i], &row, &values[i]);
  for (int i = 0; i < 3; i++)
    {
      export_all (plant, wording, ours, &with_records);
      write_alone (values, sheet->n_columns, n, alone, &bare);
    }
  g_print ("%d tests: ", n);
  bench_print ("export / library alone", &with_records, &bare);
  bench_clear (&with_records);
  bench_clear (&bare);
  for (guint i = 0; i < sheet->n_columns; i++)
    g_free (values[i].owned);
  sw_titration_free (row.record[0]);
  sw_sample_free (row.record[1]);
  g_hash_table_unref (context.names);
  return 0;
}
