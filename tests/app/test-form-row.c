/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a field of a form makes of what people type: the number, or an error at the field with the
 * text kept. */
#include "app/widgets/form-row.h"

#include <math.h>

#include "support/support.h"
#include "tests/app/snapshot.h"
#include "wording/sentence.h"

typedef struct
{
  const char *name;
  const char *typed;
  SwQuantityName quantity;
  SwUnit unit;
  gboolean needed;
  double value;       /* NAN and error NULL: an empty field that may be empty */
  const char *error;  /* a part of the error; NULL = none */
  const char *record; /* what goes into the record */
} Row;

static const Row rows[] = {
  { "empty, needed", "", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, NAN, "ample volume", NULL },
  { "empty, not needed", "", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, FALSE, NAN, NULL, NULL },
  { "blanks, not needed", "  ", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, FALSE, NAN, NULL, NULL },
  { "text", "fifty", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, NAN, "fifty", NULL },
  { "text, not needed", "fifty", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, FALSE, NAN, "fifty", NULL },
  { "nan", "nan", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, NAN, "nan", NULL },
  { "infinity", "inf", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, NAN, "inf", NULL },
  { "negative", "-50", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, NAN, "ample volume", NULL },
  { "zero", "0", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, NAN, "ample volume", NULL },
  { "far too much", "500000", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, NAN, "ample volume",
    NULL },
  { "wrong kind of unit", "50 kg", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, NAN, "kg", NULL },
  { "plain", "50", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, 50, NULL, "50 mL" },
  { "blanks around", " 50 ", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, 50, NULL, "50 mL" },
  { "unit typed", "50 mL", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, 50, NULL, "50 mL" },
  { "other unit", "0.05 L", SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, 50, NULL, "0.05 L" },
  { "point", "0.05", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, TRUE, 0.05, NULL, "0.05 mL" },
  { "comma", "0,05", SW_QUANTITY_DROP_VOLUME, SW_UNIT_ML, TRUE, 0.05, NULL, "0,05 mL" },
  { "point or group mark", "1.260", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, TRUE, NAN, "1.260",
    NULL },
  { "comma or group mark", "1,260", SW_QUANTITY_ADDED_AMOUNT, SW_UNIT_ML, TRUE, NAN, "1,260",
    NULL },
};

static GtkWindow *window;
static SwFormRow *field;
static SwWording *wording;

static void
test_row (gconstpointer data)
{
  const Row *row = data;
  SwAmount amount = { .value = 1 };

  sw_form_row_set_text (field, row->typed);
  gboolean fine
      = sw_form_row_get_amount (field, wording, row->quantity, row->unit, row->needed, &amount);
  g_assert_cmpstr (sw_form_row_get_text (field), ==, row->typed);
  sw_assert_close (amount.value, row->value, 1e-12);
  g_assert_cmpstr (amount.typed, ==, row->record);
  g_free (amount.typed);
  if (row->error == NULL)
    {
      g_assert_true (fine);
      g_assert_null (sw_form_row_get_error (field));
      gtk_test_accessible_assert_state (sw_form_row_get_entry (field), GTK_ACCESSIBLE_STATE_INVALID,
                                        GTK_ACCESSIBLE_INVALID_FALSE);
      return;
    }
  g_assert_false (fine);
  g_assert_nonnull (sw_form_row_get_error (field));
  g_test_message ("%s", sw_form_row_get_error (field));
  g_assert_nonnull (strstr (sw_form_row_get_error (field), row->error));
  /* Shown, not only kept, and not by colour alone. */
  g_assert_nonnull (sw_find_text (GTK_WIDGET (field), sw_form_row_get_error (field)));
  gtk_test_accessible_assert_state (sw_form_row_get_entry (field), GTK_ACCESSIBLE_STATE_INVALID,
                                    GTK_ACCESSIBLE_INVALID_TRUE);
}

/* Typing takes the error away: it spoke of a text that is no longer there. */
static void
test_typing_clears (void)
{
  sw_form_row_set_text (field, "fifty");
  sw_form_row_set_error (field, "Not a number.");
  gtk_editable_set_text (GTK_EDITABLE (sw_form_row_get_entry (field)), "50");
  g_assert_null (sw_form_row_get_error (field));
}

/* A stored number comes back as the same number in a language with a comma. */
static void
test_set_number (void)
{
  static const double values[] = { 50, 0.05, 1.2345, 12600, 0.0512345 };
  g_autoptr (SwWording) german = sw_wording_new ("de", "Europe/Berlin");

  for (gsize i = 0; i < G_N_ELEMENTS (values); i++)
    {
      SwParsedAmount parsed;
      sw_form_row_set_number (field, german, values[i]);
      g_assert_true (sw_number_parse (sw_form_row_get_text (field), SW_QUANTITY_ADDED_AMOUNT,
                                      SW_UNIT_ML, &parsed, NULL));
      sw_assert_close (parsed.value, values[i], 1e-12);
    }
  sw_form_row_set_number (field, german, NAN);
  g_assert_cmpstr (sw_form_row_get_text (field), ==, "");
}

static void
test_picture (void)
{
  sw_form_row_set_text (field, "fifty");
  SwAmount amount;
  g_assert_false (sw_form_row_get_amount (field, wording, SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML,
                                          TRUE, &amount));
  sw_snapshot (GTK_WIDGET (window), "form-row");
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  wording = sw_wording_new ("en", "Europe/Berlin");
  field = SW_FORM_ROW (sw_form_row_new ("_Sample volume", "As measured in the flask.", SW_UNIT_ML));
  window = sw_snapshot_window (GTK_WIDGET (field), 420, 120, FALSE);

  SW_TEST_ROWS ("/app/form-row", rows, test_row);
  g_test_add_func ("/app/form-row/typing clears the error", test_typing_clears);
  g_test_add_func ("/app/form-row/stored number", test_set_number);
  g_test_add_func ("/app/form-row/picture", test_picture);
  int result = g_test_run ();
  gtk_window_destroy (window);
  sw_wording_unref (wording);
  return result;
}
