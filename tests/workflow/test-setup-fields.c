/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up: every field with what may be in it and what may not. */
#include "setup-fields.h"

#include "calc/range.h"

typedef enum
{
  TRY_GOOD,
  TRY_EMPTY,
  TRY_TEXT,
  TRY_INFINITE,
  TRY_NEGATIVE,
  TRY_ZERO,
  TRY_TEN_TIMES, /* the largest allowed */
  N_NUMBER_TRIES
} NumberTry;

static const char *const number_tries[]
    = { "good", "empty", "text", "infinite", "negative", "zero", "ten times the largest" };
G_STATIC_ASSERT (G_N_ELEMENTS (number_tries) == N_NUMBER_TRIES);

typedef struct
{
  const NumberField *field;
  NumberTry what;
} NumberCase;

static double
get_value (const NumberCase *tried)
{
  double high = NAN;

  switch (tried->what)
    {
    case TRY_GOOD:
      return tried->field->good;
    case TRY_INFINITE:
      return INFINITY;
    case TRY_NEGATIVE:
      return -1.0;
    case TRY_ZERO:
      return 0.0;
    case TRY_TEN_TIMES:
      sw_range_get (tried->field->quantity, NULL, &high, NULL);
      return 10.0 * high;
    case TRY_EMPTY:
    case TRY_TEXT:
    case N_NUMBER_TRIES:
    default:
      return NAN;
    }
}

/* SwFaultCode, or -1 where it is fine. */
static int
get_expected (const NumberCase *tried)
{
  switch (tried->what)
    {
    case TRY_GOOD:
      return -1;
    case TRY_EMPTY:
      return tried->field->needed ? (int)SW_FAULT_MISSING : -1;
    case TRY_ZERO:
      return tried->field->zero ? -1 : (int)SW_FAULT_RANGE;
    case TRY_TEXT:
    case TRY_INFINITE:
      return SW_FAULT_NOT_A_NUMBER;
    case TRY_NEGATIVE:
    case TRY_TEN_TIMES:
    case N_NUMBER_TRIES:
    default:
      return SW_FAULT_RANGE;
    }
}

static void
test_number (gconstpointer data)
{
  const NumberCase *tried = data;
  g_autoptr (Scene) scene = scene_new ();
  GError *error = NULL;
  int expected = get_expected (tried);
  gboolean written = tried->field->set (scene, get_value (tried),
                                        tried->what == TRY_TEXT ? "about ten" : NULL, &error);

  g_assert_cmpint (written, ==, expected < 0);
  if (written)
    g_assert_no_error (error);
  else
    sw_assert_fault (&error, (SwFaultCode)expected, tried->field->quantity);
  scene_assert_sound (scene);
}

static void
add_numbers (void)
{
  gsize n;
  const NumberField *fields = setup_number_fields (&n);

  for (gsize i = 0; i < n; i++)
    for (int what = 0; what < N_NUMBER_TRIES; what++)
      {
        NumberCase *tried = g_new (NumberCase, 1);
        g_autofree char *group = sw_test_path ("/setup/number", fields[i].name);
        g_autofree char *path = sw_test_path (group, number_tries[what]);

        *tried = (NumberCase){ &fields[i], (NumberTry)what };
        if (what == TRY_TEXT && !fields[i].typed)
          g_free (tried);
        else
          g_test_add_data_func_full (path, tried, test_number, g_free);
      }
}

typedef enum
{
  TEXT_GOOD,
  TEXT_NULL,
  TEXT_EMPTY,
  TEXT_BLANK,
  TEXT_LONG,
  TEXT_NOT_UTF8,
  TEXT_TAKEN,
  TEXT_TAKEN_WITH_BLANKS,
  N_TEXT_TRIES
} TextTry;

static const char *const text_tries[]
    = { "good", "null", "empty", "blank", "too long", "not utf8", "taken", "taken with blanks" };
G_STATIC_ASSERT (G_N_ELEMENTS (text_tries) == N_TEXT_TRIES);

typedef struct
{
  const TextField *field;
  TextTry what;
} TextCase;

/* (transfer full) */
static char *
make_text (const TextCase *tried)
{
  switch (tried->what)
    {
    case TEXT_GOOD:
      return g_strdup ("Überlauf 3");
    case TEXT_EMPTY:
      return g_strdup ("");
    case TEXT_BLANK:
      return g_strdup (" \t ");
    case TEXT_LONG:
      return g_strnfill (5000, 'x');
    case TEXT_NOT_UTF8:
      return g_strdup ("\xff\xfe");
    case TEXT_TAKEN:
      return g_strdup (tried->field->taken);
    case TEXT_TAKEN_WITH_BLANKS:
      return g_strconcat ("  ", tried->field->taken, " ", NULL);
    case TEXT_NULL:
    case N_TEXT_TRIES:
    default:
      return NULL;
    }
}

static void
test_text (gconstpointer data)
{
  const TextCase *tried = data;
  g_autoptr (Scene) scene = scene_new ();
  g_autofree char *text = make_text (tried);
  GError *error = NULL;
  gboolean missing
      = tried->what == TEXT_NULL || tried->what == TEXT_EMPTY || tried->what == TEXT_BLANK;
  gboolean written = tried->field->set (scene, text, &error);

  g_assert_cmpint (written, ==, tried->what == TEXT_GOOD);
  if (written)
    g_assert_no_error (error);
  else
    sw_assert_fault (&error, missing ? SW_FAULT_MISSING : SW_FAULT_TEXT, tried->field->quantity);
}

static void
add_texts (void)
{
  gsize n;
  const TextField *fields = setup_text_fields (&n);

  for (gsize i = 0; i < n; i++)
    for (int what = 0; what < N_TEXT_TRIES; what++)
      {
        TextCase *tried = g_new (TextCase, 1);
        g_autofree char *group = sw_test_path ("/setup/text", fields[i].name);
        g_autofree char *path = sw_test_path (group, text_tries[what]);

        *tried = (TextCase){ &fields[i], (TextTry)what };
        if (what >= TEXT_TAKEN && fields[i].taken == NULL)
          g_free (tried);
        else
          g_test_add_data_func_full (path, tried, test_text, g_free);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add_numbers ();
  add_texts ();
  return g_test_run ();
}
