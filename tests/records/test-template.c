/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Method files: what is read, and each thing that can be wrong with one, told by its name. Every
 * row changes one line of a file that is fine. */
#include "records/template-private.h"
#include "support/support.h"

#include <math.h>
#include <string.h>

static const char fine[] = "[method]\n"
                           "direction=base\n"
                           "families=hydrocarbon;modified_alcohol\n"
                           "sample_ml=50\n"
                           "maximum=20\n"
                           "caustic=true\n"
                           "caustic_counts=false\n"
                           "[field 1]\n"
                           "label=Yellow\n"
                           "meaning=acid\n"
                           "[field 2]\n"
                           "label=Green\n"
                           "meaning=neutral\n"
                           "[text]\n"
                           "draw=Let some run off.\n"
                           "draw[de]=Etwas ablaufen lassen.\n";

/* The fine file with @line replaced by @with. (transfer full) */
static GBytes *
change_line (const char *line, const char *with)
{
  g_auto (GStrv) lines = g_strsplit (fine, "\n", -1);
  gboolean found = FALSE;
  char *text;

  for (guint i = 0; lines[i] != NULL; i++)
    if (strcmp (lines[i], line) == 0)
      {
        g_free (lines[i]);
        lines[i] = g_strdup (with);
        found = TRUE;
      }
  g_assert_true (found);
  text = g_strjoinv ("\n", lines);
  return g_bytes_new_take (text, strlen (text));
}

static void
test_fine (void)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static (fine, strlen (fine));
  g_autoptr (GError) error = NULL;
  g_autoptr (SwTemplate) template = sw_template_parse (bytes, &error);
  const SwMethodText *german;

  g_assert_no_error (error);
  g_assert_cmpint (template->version->direction, ==, SW_DIRECTION_BASE);
  g_assert_true (template->version->for_hydrocarbon && template->version->for_modified_alcohol);
  g_assert_false (template->version->for_chlorinated || template->version->for_other);
  g_assert_cmpfloat (template->version->sample.value, ==, 50.0);
  g_assert_cmpfloat (template->version->maximum, ==, 20.0);
  g_assert_true (isnan (template->version->water.value));
  g_assert_true (template->has_caustic);
  g_assert_cmpuint (template->fields->len, ==, 2);
  g_assert_cmpuint (template->texts->len, ==, 2);
  german = template->texts->pdata[1];
  g_assert_cmpstr (german->step, ==, "draw");
  g_assert_cmpstr (german->language, ==, "de");
  g_assert_cmpstr (german->text, ==, "Etwas ablaufen lassen.");
}

typedef struct
{
  const char *name;
  const char *line;
  const char *with;
  const char *part; /* of the message */
} Wrong;

static const Wrong wrongs[] = {
  { "no direction", "direction=base", "", "[method] direction=" },
  { "unknown direction", "direction=base", "direction=both", "direction=both" },
  { "no families", "families=hydrocarbon;modified_alcohol", "", "families" },
  { "empty families", "families=hydrocarbon;modified_alcohol", "families=", "[method] families=" },
  { "unknown family", "families=hydrocarbon;modified_alcohol", "families=hydrocarbon;water",
    "families=water" },
  { "caustic with chlorinated", "families=hydrocarbon;modified_alcohol", "families=chlorinated",
    "dangerous" },
  { "no number", "sample_ml=50", "sample_ml=fifty", "sample_ml" },
  { "number with a tail", "sample_ml=50", "sample_ml=50 mL", "sample_ml" },
  { "decimal comma", "sample_ml=50", "sample_ml=50,5", "sample_ml" },
  { "not finite", "sample_ml=50", "sample_ml=inf", "sample_volume" },
  { "out of range", "sample_ml=50", "sample_ml=-50", "sample_volume" },
  { "maximum of nothing", "maximum=20", "maximum=0", "maximum" },
  { "no flag", "caustic=true", "caustic=maybe", "caustic" },
  { "counts without caustic", "caustic_counts=false", "caustic_counts=true\ncaustic=false",
    "caustic" },
  { "misspelt key", "maximum=20", "maximun=20", "maximun" },
  { "unknown meaning", "meaning=acid", "meaning=sour", "[field 1] meaning=sour" },
  { "no meaning", "meaning=acid", "", "[field 1] meaning=" },
  { "no label", "label=Yellow", "label=", "[field 1] label=" },
  { "gap in the fields", "[field 2]", "[field 3]", "two colour fields" },
  { "one field more", "[text]", "[field 4]\nlabel=Blue\nmeaning=alkaline\n[text]", "group" },
  { "unknown group", "[text]", "[notes]\nx=1\n[text]", "group" },
  { "unknown step", "draw=Let some run off.", "pour=Let some run off.", "[text] pour=" },
  { "same text twice", "draw[de]=Etwas ablaufen lassen.", "draw[en]=Once more.",
    "[text] draw[en]=" },
  { "wrong escape", "draw=Let some run off.", "draw=Let \\k run off.", "draw" },
  { "no texts", "[text]", "[field 3]\nlabel=Blue\nmeaning=alkaline", "field 3" },
};

static void
test_wrong (gconstpointer data)
{
  const Wrong *row = data;
  g_autoptr (GBytes) bytes = change_line (row->line, row->with);
  g_autoptr (GError) error = NULL;
  g_autoptr (SwTemplate) template = sw_template_parse (bytes, &error);

  g_assert_null (template);
  g_assert_nonnull (error);
  if (strstr (error->message, row->part) == NULL)
    g_error ("no \"%s\" in: %s", row->part, error->message);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/records/template/fine", test_fine);
  SW_TEST_ROWS ("/records/template/wrong", wrongs, test_wrong);
  return g_test_run ();
}
