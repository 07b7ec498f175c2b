/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small plant, to ask questions about. */
#include "questions.h"

void
plant_set_up (Plant *plant, gconstpointer data)
{
  fixture_set_up (&plant->base, data);
  fixture_plant (&plant->base, &plant->plant);
}

void
plant_tear_down (Plant *plant, gconstpointer data)
{
  fixture_assert_sound (&plant->base);
  fixture_tear_down (&plant->base, data);
}

void
assert_ids (GArray *ids, const char *expected)
{
  g_autoptr (GString) text = g_string_new (NULL);

  g_assert_nonnull (ids);
  for (guint i = 0; i < ids->len; i++)
    g_string_append_printf (text, "%s%" G_GINT64_FORMAT, i > 0 ? " " : "",
                            g_array_index (ids, gint64, i));
  g_array_unref (ids);
  g_assert_cmpstr (text->str, ==, expected);
}

gint64
add_machine (Plant *plant, const char *tag)
{
  g_autoptr (SwMachine) machine = sw_machine_new ();

  machine->tag = g_strdup (tag);
  g_assert_true (sw_machine_insert (STORE (plant), machine, NULL));
  return machine->record.id;
}
