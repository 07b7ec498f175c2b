/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every number of the guided test, with everything people type into a field for a number.
 *
 * Wrong: the error stands at the field, the text is kept, the test stays where it stood, and the
 * file has not changed by a byte. Right: the record holds the number. A number far from the usual
 * one is wrong once and right when it is offered again.
 */
#include "app/test/choice-row.h"
#include "app/test/point-list.h"
#include "app/test/reason-row.h"
#include "app/test/step-page.h"
#include "tests/app/guided-bench.h"

/* ---- fields ---- */

typedef struct
{
  const char *name;
  const char *id;
  const char *button;
  void (*come_to) (SwBench *bench);
  double (*get) (SwBench *bench); /* the number in the record, after the move */
} Field;

static void
come_to_draw (SwBench *bench)
{
  GtkWidget *points;

  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_type (bench, "tag", "M-07");
  sw_bench_answer (bench, "running", SW_ANSWER_YES);
  sw_bench_answer (bench, "level_ok", SW_ANSWER_YES);
  sw_bench_answer (bench, "added_since", SW_ANSWER_UNKNOWN);
  points = sw_bench_find (bench, SW_TYPE_POINT_LIST, "points");
  gtk_check_button_set_active (
      GTK_CHECK_BUTTON (sw_find_widget (points, GTK_TYPE_CHECK_BUTTON, NULL)), TRUE);
  sw_bench_type (bench, "volume", "150");
}

static void
come_to_prepare (SwBench *bench)
{
  sw_bench_begin (bench, SW_PURPOSE_ROUTINE, 0);
  sw_bench_draw (bench);
}

static void
come_to_read (SwBench *bench)
{
  come_to_prepare (bench);
  sw_bench_prepare (bench);
  sw_bench_tile (bench, 1);
}

static void
come_to_dose (SwBench *bench)
{
  come_to_prepare (bench);
  sw_bench_prepare (bench);
  sw_bench_titrate (bench, 3);
  sw_bench_press (bench, "next");
  sw_bench_sign (bench);
  sw_bench_type (bench, "tag", "M-07");
  sw_reason_row_pick (SW_REASON_ROW (sw_bench_find (bench, SW_TYPE_REASON_ROW, "extra_reason")), 0);
}

static void
come_to_added (SwBench *bench)
{
  come_to_dose (bench);
  sw_bench_type (bench, "extra", "0");
  sw_bench_press (bench, "accept");
  sw_bench_answer (bench, "when", SW_ANSWER_YES);
}

static double
get_volume (SwBench *bench)
{
  return sw_guided_test_get_sample (bench->test)->volume.value;
}

static double
get_temperature (SwBench *bench)
{
  return sw_guided_test_get_sample (bench->test)->temperature.value;
}

static double
get_portion (SwBench *bench)
{
  return sw_guided_test_get_titration (bench->test)->portion_volume.value;
}

static double
get_total (SwBench *bench)
{
  return sw_guided_test_get_total (bench->test);
}

static double
get_extra (SwBench *bench)
{
  return sw_guided_test_get_dose (bench->test)->extra_steps;
}

static double
get_added (SwBench *bench)
{
  return sw_guided_test_get_dose (bench->test)->added.value;
}

typedef enum
{
  VOLUME,
  TEMPERATURE,
  PORTION,
  SEVERAL,
  EXTRA,
  ADDED
} FieldName;

static const Field fields[] = {
  [VOLUME] = { "volume drawn", "volume", "next", come_to_draw, get_volume },
  [TEMPERATURE] = { "temperature", "temperature", "next", come_to_draw, get_temperature },
  [PORTION] = { "portion", "portion", "next", come_to_prepare, get_portion },
  [SEVERAL] = { "several drops", "several_steps", "several_go", come_to_read, get_total },
  [EXTRA] = { "extra neutraliser", "extra", "accept", come_to_dose, get_extra },
  [ADDED] = { "amount added", "added", "record", come_to_added, get_added },
};

/* ---- what is typed ---- */

typedef enum
{
  WRONG,
  TWICE, /* wrong once; right when it is offered again */
  RIGHT
} Verdict;

typedef struct
{
  const char *name;
  FieldName field;
  const char *typed;
  Verdict verdict;
  double value; /* in the record, where it is right in the end */
} Row;

/* The usual numbers: 50 mL for volume and portion, 3 drops for the extra, 1260 mL added. The
 * portion cannot be more than the 150 mL drawn; 20 drops are the method's last step. */
static const Row rows[] = {
  { "empty", VOLUME, "", WRONG, NAN },
  { "text", VOLUME, "a bottle", WRONG, NAN },
  { "NaN", VOLUME, "NaN", WRONG, NAN },
  { "negative", VOLUME, "-150", WRONG, NAN },
  { "zero", VOLUME, "0", WRONG, NAN },
  { "ten times", VOLUME, "500", TWICE, 500.0 },
  { "comma", VOLUME, "150,5", RIGHT, 150.5 },
  { "point", VOLUME, "150.5", RIGHT, 150.5 },
  { "small comma", VOLUME, "3,5", TWICE, 3.5 },
  { "small point", VOLUME, "3.5", TWICE, 3.5 },
  { "group mark", VOLUME, "1,234", WRONG, NAN },

  { "empty", TEMPERATURE, "", RIGHT, NAN },
  { "text", TEMPERATURE, "warm", WRONG, NAN },
  { "NaN", TEMPERATURE, "NaN", WRONG, NAN },
  { "negative", TEMPERATURE, "-500", WRONG, NAN },
  { "zero", TEMPERATURE, "0", RIGHT, 0.0 },
  { "far too much", TEMPERATURE, "2150", WRONG, NAN },
  { "comma", TEMPERATURE, "21,5", RIGHT, 21.5 },
  { "point", TEMPERATURE, "21.5", RIGHT, 21.5 },

  { "empty", PORTION, "", WRONG, NAN },
  { "text", PORTION, "fifty", WRONG, NAN },
  { "NaN", PORTION, "NaN", WRONG, NAN },
  { "negative", PORTION, "-50", WRONG, NAN },
  { "zero", PORTION, "0", WRONG, NAN },
  { "ten times", PORTION, "500", WRONG, NAN },
  { "comma", PORTION, "49,5", RIGHT, 49.5 },
  { "point", PORTION, "49.5", RIGHT, 49.5 },
  { "small comma", PORTION, "3,5", TWICE, 3.5 },
  { "small point", PORTION, "3.5", TWICE, 3.5 },
  { "group mark", PORTION, "1,234", WRONG, NAN },

  { "empty", SEVERAL, "", WRONG, NAN },
  { "text", SEVERAL, "some", WRONG, NAN },
  { "NaN", SEVERAL, "NaN", WRONG, NAN },
  { "negative", SEVERAL, "-1", WRONG, NAN },
  { "zero", SEVERAL, "0", WRONG, NAN },
  { "too many", SEVERAL, "30", WRONG, NAN },
  { "comma", SEVERAL, "3,5", WRONG, NAN },
  { "point", SEVERAL, "3.5", WRONG, NAN },
  { "group mark", SEVERAL, "1,234", WRONG, NAN },
  { "whole", SEVERAL, "4", RIGHT, 4.0 },

  { "empty", EXTRA, "", WRONG, NAN },
  { "text", EXTRA, "a little", WRONG, NAN },
  { "NaN", EXTRA, "NaN", WRONG, NAN },
  { "negative", EXTRA, "-1", WRONG, NAN },
  { "zero", EXTRA, "0", RIGHT, 0.0 },
  { "ten times", EXTRA, "30", TWICE, 30.0 },
  { "comma", EXTRA, "3,5", RIGHT, 3.5 },
  { "point", EXTRA, "3.5", RIGHT, 3.5 },
  { "too many", EXTRA, "12345", WRONG, NAN },

  { "empty", ADDED, "", WRONG, NAN },
  { "text", ADDED, "all", WRONG, NAN },
  { "NaN", ADDED, "NaN", WRONG, NAN },
  { "negative", ADDED, "-1260", WRONG, NAN },
  { "zero", ADDED, "0", WRONG, NAN },
  { "ten times", ADDED, "12600", WRONG, NAN },
  { "litres", ADDED, "1.26 L", RIGHT, 1260.0 },
  { "small comma", ADDED, "3,5", TWICE, 3.5 },
  { "small point", ADDED, "3.5", TWICE, 3.5 },
  { "group mark", ADDED, "1,234", WRONG, NAN },
};

/* Presses the button where it can be pressed: a wrong extra has none. */
static void
offer (SwBench *bench, const Field *field)
{
  GtkWidget *button = sw_bench_find (bench, GTK_TYPE_BUTTON, field->button);

  if (gtk_widget_is_sensitive (button))
    g_signal_emit_by_name (button, "clicked");
  /* A dose that a reviewer must release. */
  if (sw_bench_box (bench) != NULL)
    {
      sw_box_pick (sw_bench_box (bench), "R. Invented");
      sw_box_answer (sw_bench_box (bench), SW_TEST_PLANT_SECRET);
    }
}

static void
assert_refused (SwBench *bench, const Row *row, SwStep step, const char *before)
{
  const Field *field = &fields[row->field];
  GtkWidget *form_row = sw_bench_find (bench, SW_TYPE_FORM_ROW, field->id);
  g_autofree char *after = sw_bench_digest (bench);

  sw_bench_assert_step (bench, step);
  if (sw_bench_error (bench, field->id) == NULL)
    g_error ("no error at the field for \"%s\"", row->typed);
  g_test_message ("%s", sw_bench_error (bench, field->id));
  g_assert_cmpstr (sw_form_row_get_text (SW_FORM_ROW (form_row)), ==, row->typed);
  g_assert_cmpstr (after, ==, before);
}

static void
test_field (gconstpointer data)
{
  const Row *row = data;
  const Field *field = &fields[row->field];
  g_autoptr (SwBench) bench = sw_bench_new (NULL);
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  SwStep step;

  field->come_to (bench);
  sw_bench_type (bench, field->id, row->typed);
  before = sw_bench_digest (bench);
  step = sw_guided_test_get_step (bench->test);
  offer (bench, field);
  if (row->verdict != RIGHT)
    assert_refused (bench, row, step, before);
  if (row->verdict == TWICE)
    offer (bench, field);
  if (row->verdict == WRONG)
    return;
  if (row->field != SEVERAL && sw_guided_test_get_step (bench->test) == step)
    g_error ("still there: %s", sw_bench_error (bench, field->id));
  sw_assert_close (field->get (bench), row->value, 1e-12);
  /* The digest of a refusal could not differ if it never did. */
  after = sw_bench_digest (bench);
  g_assert_cmpstr (after, !=, before);
}

/* A second look is for one number only: another wrong one is asked about anew. */
static void
test_another_look (void)
{
  g_autoptr (SwBench) bench = sw_bench_new (NULL);

  come_to_draw (bench);
  sw_bench_type (bench, "volume", "500");
  sw_bench_press (bench, "next");
  sw_bench_type (bench, "volume", "5000");
  sw_bench_press (bench, "next");
  g_assert_nonnull (sw_bench_error (bench, "volume"));
  sw_bench_assert_step (bench, SW_STEP_DRAW);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  gtk_init ();
  sw_wording_init (NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *group = sw_test_path ("/guided-fields", fields[rows[i].field].name);
      g_autofree char *path = sw_test_path (group, rows[i].name);

      g_test_add_data_func (path, &rows[i], test_field);
    }
  g_test_add_func ("/guided-fields/another look", test_another_look);
  return g_test_run ();
}
