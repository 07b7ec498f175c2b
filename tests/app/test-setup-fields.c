/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every number and date of the set-up, typed wrongly in all the ways people do: the field says what
 * is wrong, what was typed stays, and what is right is read right with either decimal mark.
 *
 * The ranges are those of calc/range.c; the texts here are chosen a factor of ten outside of them.
 */
#include "app/setup/dropper-entry.h"
#include "app/setup/pick-row.h"
#include "app/widgets/form-row.h"
#include "tests/app/setup-bench.h"

/* One bench for all rows: a field has no memory. */
static Bench *bench;

/* ---- records to read into ---- */

typedef struct
{
  gpointer (*create) (void);
  void (*free) (gpointer record);
} Record;

#define RECORD(name, Type, prefix)                                                                 \
  static gpointer name##_create (void) { return prefix##_new (); }                                 \
  static void name##_free (gpointer record) { prefix##_free ((Type *)record); }                    \
  static const Record name = { name##_create, name##_free };

RECORD (solvent, SwSolvent, sw_solvent)
RECORD (product, SwProduct, sw_product)
RECORD (lot, SwLot, sw_lot)
RECORD (machine, SwMachine, sw_machine)
RECORD (compartment, SwCompartment, sw_compartment)
RECORD (plan, SwPlan, sw_plan)

static gpointer
dropper_create (void)
{
  return g_new0 (SwDropperEntry, 1);
}

static void
dropper_free (gpointer record)
{
  sw_dropper_entry_clear (record);
  g_free (record);
}

static const Record dropper = { dropper_create, dropper_free };

/* ---- the fields ---- */

typedef struct
{
  const char *section;
  const char *list; /* a small form of this list; NULL = the form itself */
  const char *field;
  const Record *record;
  gsize offset;
  gboolean needed;
  gboolean zero_fits;
  const char *point; /* a good number with a point ... */
  const char *comma; /* ... and with a comma */
  double value;
  const char *too_big;   /* NULL: its bound depends on another field (test-setup-refused) */
  const char *ambiguous; /* both readings in range; NULL: there is no such number */
  const char *with;      /* the choice field that shows this one, and its value */
  gint64 with_value;
} FieldRow;

#define AT G_STRUCT_OFFSET

/* clang-format off */
static const FieldRow fields[] = {
  { "solvents", NULL, "density", &solvent, AT (SwSolvent, density_g_ml), FALSE, FALSE,
    "0.78", "0,78", 0.78, "25", NULL, NULL, 0 },
  { "products", NULL, "strength", &product, AT (SwProduct, strength_mmol_ml), FALSE, FALSE,
    "1.2", "1,2", 1.2, "200", NULL, "use", SW_PRODUCT_NEUTRALISER },
  { "products", NULL, "titrant-strength", &product, AT (SwProduct, strength_mmol_ml), FALSE, FALSE,
    "0.1", "0,1", 0.1, "200", NULL, "use", SW_PRODUCT_TITRANT },
  { "products", NULL, "strength-u", &product, AT (SwProduct, strength_u_mmol_ml), FALSE, TRUE,
    "0.05", "0,05", 0.05, NULL, "1.234", "use", SW_PRODUCT_NEUTRALISER },
  { "products", NULL, "density", &product, AT (SwProduct, density_g_ml), FALSE, FALSE,
    "0.95", "0,95", 0.95, "25", NULL, "use", SW_PRODUCT_NEUTRALISER },
  { "products", NULL, "limit-each", &product, AT (SwProduct, limit_each_ml_l), FALSE, FALSE,
    "2.5", "2,5", 2.5, "5000", NULL, "use", SW_PRODUCT_NEUTRALISER },
  { "products", NULL, "limit-total", &product, AT (SwProduct, limit_total_ml_l), FALSE, FALSE,
    "12.5", "12,5", 12.5, "5000", NULL, "use", SW_PRODUCT_NEUTRALISER },
  { "products", NULL, "reaction", &product, AT (SwProduct, reaction_min), FALSE, TRUE,
    "90.5", "90,5", 90.5, "100800", "1.234", "use", SW_PRODUCT_NEUTRALISER },
  { "lots", NULL, "quantity", &lot, AT (SwLot, quantity.value), FALSE, TRUE,
    "12.5", "12,5", 12.5, "10000000", "1.234", NULL, 0 },
  { "droppers", NULL, "drop", &dropper, AT (SwDropperEntry, drop.value), TRUE, FALSE,
    "0.031", "0,031", 0.031, "50", NULL, "way", SW_DROPPER_TYPED },
  { "droppers", NULL, "drop-u", &dropper, AT (SwDropperEntry, drop_u_ml), FALSE, TRUE,
    "0.001", "0,001", 0.001, NULL, "1.234", "way", SW_DROPPER_TYPED },
  { "droppers", NULL, "drops", &dropper, AT (SwDropperEntry, drops), TRUE, FALSE,
    "20.0", "20,0", 20, "100000", "1.234", "way", SW_DROPPER_WEIGHED },
  { "droppers", NULL, "density", &dropper, AT (SwDropperEntry, density_g_ml), TRUE, FALSE,
    "0.95", "0,95", 0.95, "25", NULL, "way", SW_DROPPER_WEIGHED },
  { "machines", NULL, "circulation", &machine, AT (SwMachine, circulation_min), FALSE, FALSE,
    "45.5", "45,5", 45.5, "100800", "1.234", NULL, 0 },
  { "machines", NULL, "graduation", &machine, AT (SwMachine, graduation.value), FALSE, FALSE,
    "2.5", "2,5", 2.5, "50000", "1.234", NULL, 0 },
  { "machines", NULL, "reserve-low", &machine, AT (SwMachine, reserve_low), FALSE, TRUE,
    "2.5", "2,5", 2.5, "10000", NULL, NULL, 0 },
  { "machines", NULL, "reserve-high", &machine, AT (SwMachine, reserve_high), FALSE, TRUE,
    "4.5", "4,5", 4.5, "10000", NULL, NULL, 0 },
  { "machines", NULL, "chamber", &machine, AT (SwMachine, chamber_l), FALSE, FALSE,
    "600.5", "600,5", 600.5, "1000000", "1.234", NULL, 0 },
  { "machines", "compartments", "volume", &compartment, AT (SwCompartment, volume.value), TRUE,
    TRUE, "180.5", "180,5", 180.5, "1000000", "1.234", NULL, 0 },
  { "machines", "compartments", "volume-u", &compartment, AT (SwCompartment, volume_u_l), FALSE,
    TRUE, "3.5", "3,5", 3.5, NULL, "1.234", NULL, 0 },
  { "machines", "plans", "shortest", &plan, AT (SwPlan, shortest_days), TRUE, FALSE,
    "1.5", "1,5", 1.5, "3660", NULL, NULL, 0 },
  { "machines", "plans", "longest", &plan, AT (SwPlan, longest_days), TRUE, FALSE,
    "7.5", "7,5", 7.5, "3660", NULL, NULL, 0 },
  /* Typed in percent, kept as a ratio. */
  { "machines", "plans", "alpha", &plan, AT (SwPlan, alpha), TRUE, FALSE,
    "12.5", "12,5", 0.125, "500", NULL, NULL, 0 },
};
/* clang-format on */

/* ---- what is typed ---- */

typedef enum
{
  TYPED_EMPTY,
  TYPED_TEXT,
  TYPED_NAN,
  TYPED_INFINITE,
  TYPED_NEGATIVE,
  TYPED_ZERO,
  TYPED_TOO_BIG,
  TYPED_POINT,
  TYPED_COMMA,
  TYPED_AMBIGUOUS,
  N_TYPED
} Typed;

static const char *const typed_names[N_TYPED]
    = { "empty", "text",      "nan",   "infinite", "negative",
        "zero",  "ten times", "point", "comma",    "ambiguous" };

typedef struct
{
  const FieldRow *field;
  Typed typed;
} Case;

/* NULL: this field has no such text. */
static const char *
get_text (const Case *row)
{
  static const char *const texts[N_TYPED] = { "", "a lot", "NaN", "inf", "-1.5", "0" };

  if (row->typed == TYPED_TOO_BIG)
    return row->field->too_big;
  if (row->typed == TYPED_POINT)
    return row->field->point;
  if (row->typed == TYPED_COMMA)
    return row->field->comma;
  return row->typed == TYPED_AMBIGUOUS ? row->field->ambiguous : texts[row->typed];
}

static gboolean
is_fine (const Case *row)
{
  switch (row->typed)
    {
    case TYPED_EMPTY:
      return !row->field->needed;
    case TYPED_ZERO:
      return row->field->zero_fits;
    case TYPED_POINT:
    case TYPED_COMMA:
      return TRUE;
    default:
      return FALSE;
    }
}

static double
get_value (const Case *row)
{
  if (row->typed == TYPED_POINT || row->typed == TYPED_COMMA)
    return row->field->value;
  return row->typed == TYPED_ZERO ? 0.0 : NAN;
}

/* ---- the test ---- */

static SwForm *
open_field (const FieldRow *field)
{
  GtkWidget *form;

  bench_open (bench, field->section, 0);
  if (field->list != NULL)
    bench_add_to (bench, field->list);
  if (field->with != NULL)
    bench_pick (bench, field->with, field->with_value);
  form = gtk_widget_get_ancestor (bench_row (bench, field->list, 0, field->field), SW_TYPE_FORM);
  return SW_FORM (form);
}

static void
assert_words (const Case *row, const char *error)
{
  static const char *const parts[N_TYPED] = { "nothing is entered",
                                              "is not a number",
                                              "is not a number",
                                              "is not a number",
                                              "too little",
                                              "too little",
                                              "too much",
                                              NULL,
                                              NULL,
                                              "may mean" };

  g_assert_nonnull (error);
  if (strstr (error, parts[row->typed]) == NULL)
    g_test_message ("%s", error);
  g_assert_nonnull (strstr (error, parts[row->typed]));
}

static void
test_field (gconstpointer data)
{
  const Case *row = data;
  const FieldRow *field = row->field;
  SwForm *form = open_field (field);
  SwFormRow *at = SW_FORM_ROW (sw_form_get_row (form, field->field));
  gpointer record = field->record->create ();

  bench_type_in (bench, field->list, 0, field->field, get_text (row));
  g_assert_false (bench_save (bench));
  if (is_fine (row))
    {
      g_assert_null (sw_form_row_get_error (at));
      sw_form_peek (form, record);
      sw_assert_close (*(double *)G_STRUCT_MEMBER_P (record, (glong)field->offset), get_value (row),
                       1e-12);
    }
  else
    assert_words (row, sw_form_row_get_error (at));
  /* Whatever it was, it stays. */
  g_assert_cmpstr (sw_form_row_get_text (at), ==, get_text (row));
  g_assert_true (sw_form_is_changed (form) || row->typed == TYPED_EMPTY);
  field->record->free (record);
}

/* ---- dates ---- */

typedef struct
{
  const char *name;
  const char *text;
  gboolean fine;
  const char *words; /* a part of the hint, or of the error */
} DateRow;

static const DateRow dates[] = {
  { "empty", "", TRUE, "Year-month-day" },
  { "good", "2027-05-24", TRUE, "24 May 2027" },
  { "leap", "2028-02-29", TRUE, "29 February 2028" },
  { "no leap", "2027-02-29", FALSE, "cannot be read" },
  { "month 13", "2027-13-01", FALSE, "cannot be read" },
  { "other order", "24.5.2027", FALSE, "cannot be read" },
  { "word", "next year", FALSE, "cannot be read" },
};

static void
test_date (gconstpointer data)
{
  const DateRow *row = data;
  g_autofree char *hint = NULL;

  bench_open (bench, "lots", 0);
  bench_type (bench, "expires", row->text);
  g_assert_false (bench_save (bench));
  g_assert_cmpstr (bench_text (bench, "expires"), ==, row->text);
  if (!row->fine)
    {
      g_assert_nonnull (strstr (bench_error (bench, "expires"), row->words));
      return;
    }
  g_assert_null (bench_error (bench, "expires"));
  g_object_get (bench_row (bench, NULL, 0, "expires"), "hint", &hint, NULL);
  g_assert_nonnull (strstr (hint, row->words));
}

/* ---- texts and choices that are needed ---- */

typedef struct
{
  const char *section;
  const char *list;
  const char *field;
} NeededRow;

static const NeededRow needed[] = {
  { "people", NULL, "name" },       { "people", NULL, "initials" },
  { "solvents", NULL, "name" },     { "solvents", NULL, "family" },
  { "products", NULL, "name" },     { "products", NULL, "use" },
  { "lots", NULL, "product" },      { "lots", NULL, "code" },
  { "droppers", NULL, "product" },  { "droppers", NULL, "dropper" },
  { "methods", NULL, "name" },      { "methods", NULL, "titrant" },
  { "machines", NULL, "tag" },      { "machines", NULL, "solvent" },
  { "machines", "points", "name" }, { "machines", "plans", "method" },
};

static void
test_needed (gconstpointer data)
{
  const NeededRow *row = data;
  GtkWidget *at;

  bench_open (bench, row->section, 0);
  if (row->list != NULL)
    bench_add_to (bench, row->list);
  g_assert_false (bench_save (bench));
  at = bench_row (bench, row->list, 0, row->field);
  if (SW_IS_PICK_ROW (at))
    g_assert_nonnull (sw_pick_row_get_error (SW_PICK_ROW (at)));
  else
    g_assert_nonnull (strstr (sw_form_row_get_error (SW_FORM_ROW (at)), "nothing is entered"));
}

static void
add (const char *group, const char *name, gconstpointer data, GTestDataFunc func)
{
  g_autofree char *in = g_strconcat ("/setup/fields/", group, NULL);
  g_autofree char *path = sw_test_path (in, name);

  g_test_add_data_func (path, data, func);
}

static void
add_cases (const FieldRow *field)
{
  static Case cases[G_N_ELEMENTS (fields)][N_TYPED];
  Case *row = cases[field - fields];

  for (guint i = 0; i < N_TYPED; i++)
    {
      g_autofree char *name
          = g_strdup_printf ("%s %s %s", field->section, field->field, typed_names[i]);

      row[i] = (Case){ field, (Typed)i };
      if (get_text (&row[i]) != NULL)
        add ("number", name, &row[i], test_field);
    }
}

int
main (int argc, char **argv)
{
  int status;

  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    add_cases (&fields[i]);
  for (guint i = 0; i < G_N_ELEMENTS (dates); i++)
    add ("date", dates[i].name, &dates[i], test_date);
  for (guint i = 0; i < G_N_ELEMENTS (needed); i++)
    {
      g_autofree char *name = g_strdup_printf ("%s %s", needed[i].section, needed[i].field);

      add ("needed", name, &needed[i], test_needed);
    }
  bench = bench_new ("en", 1024, 600, FALSE);
  status = g_test_run ();
  bench_free (bench);
  return status;
}
