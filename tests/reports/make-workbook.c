/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes a small invented file and its workbook, for the Python tests that read it back.
 *
 *   make-workbook FOLDER OUT [--texts FILE] [--language L] [--machine] [--force] [--at MS]
 *
 * FOLDER/plant.swlog is made when it is not there. FILE holds texts, each ended by a NUL: each
 * becomes the remarks of a sample.
 */
#include "../records/fixture.h"
#include "calc/dose.h"
#include "reports/workbook.h"
#include "support/support.h"

#include <locale.h>
#include <string.h>

static char *texts_file, *language;
static gboolean one_machine, force;
static gint64 at_ms = FIXTURE_START_MS;

static const GOptionEntry options[]
    = { { "texts", 0, 0, G_OPTION_ARG_FILENAME, &texts_file, NULL, NULL },
        { "language", 0, 0, G_OPTION_ARG_STRING, &language, NULL, NULL },
        { "machine", 0, 0, G_OPTION_ARG_NONE, &one_machine, NULL, NULL },
        { "force", 0, 0, G_OPTION_ARG_NONE, &force, NULL, NULL },
        { "at", 0, 0, G_OPTION_ARG_INT64, &at_ms, NULL, NULL },
        G_OPTION_ENTRY_NULL };

/* Doses of all kinds that the formula knows. */
typedef struct
{
  const char *code;
  double acid_at, pass_at, extra, drop_ml, sample_ml, system_l;
  double titrant, product, ratio; /* mmol/mL; NAN = unknown */
  double caustic, blank, graduation;
  gboolean supplier;
} DoseRow;

static const DoseRow dose_rows[] = {
  { "itself", 2, 3, 0, 0.031, 50, 420, 8.2, 8.2, 1.0, 0, 0, 10, FALSE },
  { "extra", 0, 1, 4, 0.0275, 50, 1180, NAN, NAN, 1.0, 0, 0, 20, FALSE },
  { "strengths", 4, 5, 0, 0.05, 50, 760, 0.1, 8.2, NAN, 0, 0, 1, FALSE },
  { "caustic counts", 1, 2, 2, 0.05, 50, 420, 1.0, 8.2, NAN, 0.75, 0, 5, FALSE },
  { "blank", 5, 6, 1, 0.033, 25, 300, NAN, NAN, 1.0, 0, 2, 5, FALSE },
  { "supplier", 2, 3, 0, 0.03, 50, 500, NAN, NAN, 1.375, 0, 0, 10, TRUE },
  { "whole marks", 2, 3, 0, 0.035, 50, 300, NAN, NAN, 1.0, 0, 0, 7, FALSE },
};

static void
fill_input (const DoseRow *row, SwDoseInput *input)
{
  memset (input, 0, sizeof *input);
  input->step_ml = SW_EXACT (row->drop_ml);
  input->sample_ml = SW_EXACT (row->sample_ml);
  input->system_l = SW_EXACT (row->system_l);
  input->titrant = isnan (row->titrant) ? SW_UNKNOWN : SW_EXACT (row->titrant);
  input->product = isnan (row->product) ? SW_UNKNOWN : SW_EXACT (row->product);
  input->strength_ratio = isnan (row->ratio) ? SW_UNKNOWN : SW_EXACT (row->ratio);
  input->caustic_mmol = SW_EXACT (row->caustic);
  input->caustic_counts = row->caustic > 0.0;
  input->acid_at = row->acid_at;
  input->pass_at = row->pass_at;
  input->blank = row->blank;
  input->extra = row->extra;
}

static gint64
insert_sample (Fixture *fixture, const FixturePlant *plant, const char *code, const char *remarks)
{
  g_autoptr (SwSample) sample = sw_sample_new ();
  GError *error = NULL;

  sample->code = g_strdup (code);
  sample->machine = plant->machine;
  sample->point = plant->point;
  sample->plan = plant->plan;
  sample->fill = plant->fill;
  sample->drawn_by = plant->person;
  sample->remarks = g_strdup (remarks);
  sw_sample_insert (fixture->store, sample, &error);
  g_assert_no_error (error);
  return sample->record.id;
}

static gint64
insert_titration (Fixture *fixture, const FixturePlant *plant, gint64 sample, const DoseRow *row)
{
  g_autoptr (SwTitration) titration = sw_titration_new ();
  GError *error = NULL;

  titration->sample = sample;
  titration->method_version = plant->version;
  titration->calibration = plant->calibration;
  titration->analyst = plant->person;
  titration->portion = 1;
  titration->step = SW_STEP_DONE;
  if (row != NULL)
    {
      titration->outcome = SW_OUTCOME_ACID_FOUND;
      titration->acid_at = row->acid_at;
      titration->pass_at = row->pass_at;
      titration->net_low = row->acid_at;
      titration->net_high = row->pass_at;
      titration->portion_volume.value = row->sample_ml;
      titration->step_ml = row->drop_ml;
      titration->titrant_mmol_ml = row->titrant;
      titration->caustic_mmol = row->caustic;
      titration->caustic_counts = row->caustic > 0.0;
      titration->blank = row->blank;
      titration->closed_ms = fixture->now_ms;
    }
  sw_titration_insert (fixture->store, titration, &error);
  g_assert_no_error (error);
  return titration->record.id;
}

static void
insert_dose (Fixture *fixture, const FixturePlant *plant, const DoseRow *row)
{
  const gint64 sample = insert_sample (fixture, plant, row->code, NULL);
  g_autoptr (SwDoseRow) dose = sw_dose_row_new ();
  const SwDoseRules rules
      = { .graduation_ml = row->graduation, .limit_each_ml = INFINITY, .limit_total_ml = INFINITY };
  SwDoseInput input;
  SwDose amount;
  GError *error = NULL;

  fill_input (row, &input);
  sw_dose_compute (&input, &rules, &amount, &error);
  g_assert_no_error (error);
  dose->titration = insert_titration (fixture, plant, sample, row);
  dose->product = plant->product;
  dose->state = SW_DOSE_ADDED;
  dose->system_l = row->system_l;
  dose->product_mmol_ml = row->product;
  dose->strength_ratio = row->ratio;
  dose->per_step_ml = amount.per_step_ml;
  dose->extra_steps = row->extra;
  dose->computed_ml = amount.dose_ml.value;
  dose->measured_ml = amount.measure_ml;
  dose->graduation_ml = row->graduation;
  dose->supplier_governs = row->supplier;
  dose->added.value = amount.measure_ml;
  dose->added_ms = fixture->now_ms;
  sw_dose_row_insert (fixture->store, dose, &error);
  g_assert_no_error (error);
}

static void
insert_texts (Fixture *fixture, const FixturePlant *plant)
{
  g_autofree char *contents = NULL;
  gsize length = 0;
  int n = 0;
  GError *error = NULL;

  g_file_get_contents (texts_file, &contents, &length, &error);
  g_assert_no_error (error);
  for (const char *at = contents; at < contents + length; at += strlen (at) + 1)
    {
      g_autofree char *code = g_strdup_printf ("text-%02d", n++);

      insert_titration (fixture, plant, insert_sample (fixture, plant, code, at), NULL);
    }
}

static void
make_file (Fixture *fixture)
{
  FixturePlant plant;

  fixture_open (fixture, SW_OPEN_CREATE);
  fixture_plant (fixture, &plant);
  for (guint i = 0; i < G_N_ELEMENTS (dose_rows); i++)
    {
      /* an hour apart, in this order */
      fixture->now_ms += 3600000;
      fixture_begin (fixture, SW_ACT_TEST, NULL);
      insert_dose (fixture, &plant, &dose_rows[i]);
      fixture_commit (fixture);
    }
  fixture_begin (fixture, SW_ACT_TEST, NULL);
  if (texts_file != NULL)
    insert_texts (fixture, &plant);
  else
    insert_sample (fixture, &plant, "no test", NULL);
  fixture_commit (fixture);
}

int
main (int argc, char **argv)
{
  g_autoptr (GOptionContext) context = g_option_context_new (NULL);
  Fixture fixture = { 0 };
  g_autoptr (SwWording) wording = NULL;
  SwWorkbookRequest request = { .by = "tester" };
  GError *error = NULL;

  setlocale (LC_ALL, "");
  g_option_context_add_main_entries (context, options, NULL);
  if (!g_option_context_parse (context, &argc, &argv, &error) || argc != 3)
    g_error ("usage");
  sw_wording_init (NULL);
  wording = sw_wording_new (language != NULL ? language : "en", "Europe/Berlin");
  fixture_set_up_folder (&fixture, NULL);
  g_free (fixture.path);
  fixture.path = g_build_filename (argv[1], "plant.swlog", NULL);
  if (g_file_test (fixture.path, G_FILE_TEST_EXISTS))
    fixture_open (&fixture, SW_OPEN_READ_ONLY);
  else
    make_file (&fixture);
  request.path = argv[2];
  request.force = force;
  request.at_ms = at_ms;
  request.filter.machine = one_machine ? 1 : 0;
  if (!sw_workbook_write (fixture.store, wording, &request, &error))
    g_printerr ("%s\n", sw_report_error_say (wording, error));
  fixture_tear_down (&fixture, NULL);
  return error != NULL;
}
