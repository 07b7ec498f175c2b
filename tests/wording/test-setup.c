/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The set-up's words: one for each kind that the records know, in their order, and no more. */
#include "records/method.h"
#include "support/support.h"
#include "wording/sentence-setup.h"

#include <string.h>

typedef struct
{
  const char *name;
  const char *(*say) (const SwWording *, guint);
  guint n;
  guint known; /* one value whose word must hold ... */
  const char *part;
} WordRow;

/* The known values pin the order: a swapped table fails. */
static const WordRow rows[] = {
  { "role", sw_say_role, SW_N_ROLES, SW_ROLE_AUDITOR, "Auditor" },
  { "role reviewer", sw_say_role, SW_N_ROLES, SW_ROLE_REVIEWER, "Reviewer" },
  { "family", sw_say_family, SW_N_FAMILIES, SW_FAMILY_CHLORINATED, "Chlorinated" },
  { "family alcohol", sw_say_family, SW_N_FAMILIES, SW_FAMILY_MODIFIED_ALCOHOL, "alcohol" },
  { "use", sw_say_product_use, SW_N_PRODUCT_USES, SW_PRODUCT_CAUSTIC, "Caustic" },
  { "use titrant", sw_say_product_use, SW_N_PRODUCT_USES, SW_PRODUCT_TITRANT, "Titrant" },
  { "kind", sw_say_neutraliser_kind, SW_N_NEUTRALISER_KINDS, SW_NEUTRALISER_EPOXIDE, "Epoxide" },
  { "kind both", sw_say_neutraliser_kind, SW_N_NEUTRALISER_KINDS, SW_NEUTRALISER_BOTH, "and" },
  { "service", sw_say_service_state, SW_N_SERVICE_STATES, SW_SERVICE_RETIRED, "Out of service" },
  { "compartment", sw_say_compartment_kind, SW_N_COMPARTMENT_KINDS, SW_COMPARTMENT_SEPARATOR,
    "separator" },
  { "compartment still", sw_say_compartment_kind, SW_N_COMPARTMENT_KINDS, SW_COMPARTMENT_STILL,
    "Still" },
  { "language", sw_say_language, SW_N_SETUP_LANGUAGES, 1, "Deutsch" },
  { "paper", sw_say_paper, SW_N_SETUP_PAPERS, 1, "Letter" },
  { "way", sw_say_dropper_way, 2, 1, "weighed" },
};

static void
test_words (gconstpointer data)
{
  const WordRow *row = data;
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");

  for (guint i = 0; i < row->n; i++)
    {
      const char *word = row->say (wording, i);

      g_assert_nonnull (word);
      g_assert_cmpstr (word, !=, "");
    }
  g_assert_null (row->say (wording, row->n));
  g_assert_nonnull (strstr (row->say (wording, row->known), row->part));
}

static void
test_templates (void)
{
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  const char *const *names = sw_method_template_names ();

  for (; *names != NULL; names++)
    {
      g_assert_cmpstr (sw_say_template (wording, *names), !=, *names);
      g_assert_cmpuint (strlen (sw_say_template_use (wording, *names)), >, 40);
    }
  g_assert_cmpstr (sw_say_template (wording, "own"), ==, "own");
}

typedef struct
{
  const char *name;
  const char *zone;
  gint64 ms;
  const char *text;
} DateRow;

/* `date -u -d 2026-05-24 +%s` is 1779580800. */
static const DateRow dates[] = {
  { "utc", "UTC", G_GINT64_CONSTANT (1779580800000), "2026-05-24" },
  { "east of it", "Asia/Tokyo", G_GINT64_CONSTANT (1779580800000), "2026-05-24" },
  { "west of it", "America/New_York", G_GINT64_CONSTANT (1779580800000), "2026-05-23" },
  { "before 1970", "UTC", -1000, "1969-12-31" },
};

/* What is shown is read back as a time of the same day. */
static void
test_date (gconstpointer data)
{
  const DateRow *row = data;
  g_autoptr (SwWording) wording = sw_wording_new ("de", row->zone);
  g_autofree char *text = sw_date_typed_format (wording, row->ms);
  g_autofree char *again = NULL;
  gint64 ms = 0;

  g_assert_cmpstr (text, ==, row->text);
  g_assert_true (sw_iso_parse (text, sw_wording_get_zone (wording), &ms, NULL));
  again = sw_date_typed_format (wording, ms);
  g_assert_cmpstr (again, ==, row->text);
}

static void
test_lot (void)
{
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  gint64 now = dates[0].ms;
  g_autofree char *good = sw_say_lot_state (wording, FALSE, now + 1, now);
  g_autofree char *expired = sw_say_lot_state (wording, FALSE, now - 1, now);
  g_autofree char *used_up = sw_say_lot_state (wording, TRUE, now - 1, now);
  g_autofree char *endless = sw_say_lot_state (wording, FALSE, 0, now);

  g_assert_cmpstr (good, ==, "Good until 24 May 2026");
  g_assert_cmpstr (expired, ==, "Expired on 23 May 2026");
  g_assert_cmpstr (used_up, ==, "Used up");
  g_assert_cmpstr (endless, ==, "No expiry date");
}

static void
test_volume (void)
{
  g_autoptr (SwWording) wording = sw_wording_new ("de", "UTC");
  g_autofree char *known = sw_say_system_volume (wording, (SwQuantity){ 320.5, 6, INFINITY }, TRUE);
  g_autofree char *partly
      = sw_say_system_volume (wording, (SwQuantity){ 320.5, 6, INFINITY }, FALSE);
  g_autofree char *unknown = sw_say_system_volume (wording, SW_UNKNOWN, FALSE);

  g_assert_nonnull (strstr (known, "320,5\302\240L") ?: strstr (known, "320,5\342\200\257L"));
  g_assert_true (g_str_has_prefix (partly, known));
  g_assert_cmpuint (strlen (partly), >, strlen (known) + 20);
  g_assert_nonnull (strstr (unknown, "not known"));
}

static void
add (const char *group, const char *name, gconstpointer data, GTestDataFunc func)
{
  g_autofree char *in = g_strconcat ("/wording/setup/", group, NULL);
  g_autofree char *path = sw_test_path (in, name);

  g_test_add_data_func (path, data, func);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    add ("words", rows[i].name, &rows[i], test_words);
  for (gsize i = 0; i < G_N_ELEMENTS (dates); i++)
    add ("date", dates[i].name, &dates[i], test_date);
  g_test_add_func ("/wording/setup/templates", test_templates);
  g_test_add_func ("/wording/setup/lot", test_lot);
  g_test_add_func ("/wording/setup/volume", test_volume);
  return g_test_run ();
}
