/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every template of the program makes its widget, and the widget goes again without a context.
 *
 * The templates are found in the resources, not in a list here: a new one is tested from the day it
 * is there.
 */
#include <gtk/gtk.h>

#include "app/theme.h"
#include "support/support.h"
#include "tests/app/snapshot.h"

#define ROOT "/org/stillwarden/Stillwarden/ui/"

static char *
read_class (const char *path)
{
  g_autoptr (GBytes) bytes = g_resources_lookup_data (path, 0, NULL);
  g_autoptr (GRegex) regex = g_regex_new ("<template class=\"(\\w+)\"", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  gsize length;
  const char *text = g_bytes_get_data (bytes, &length);

  if (!g_regex_match_full (regex, text, (gssize)length, 0, 0, &match, NULL))
    return NULL;
  return g_match_info_fetch (match, 1);
}

static void
test_template (gconstpointer data)
{
  const char *path = data;
  g_autofree char *name = read_class (path);
  g_autoptr (GtkBuilder) builder = gtk_builder_new ();

  if (name == NULL)
    {
      /* No template: a whole object, such as the shortcuts. */
      g_autoptr (GError) error = NULL;
      gtk_builder_add_from_resource (builder, path, &error);
      g_assert_no_error (error);
      return;
    }
  GType type = gtk_builder_get_type_from_name (builder, name);
  g_test_message ("%s", name);
  g_assert_true (g_type_is_a (type, GTK_TYPE_WIDGET));
  if (G_TYPE_IS_ABSTRACT (type))
    return;
  GtkWidget *widget = g_object_ref_sink (g_object_new (type, NULL));
  GtkWidget *held = widget;
  g_object_add_weak_pointer (G_OBJECT (widget), (gpointer *)&held);
  if (GTK_IS_WINDOW (widget))
    gtk_window_destroy (GTK_WINDOW (widget));
  g_object_unref (widget);
  while (g_main_context_iteration (NULL, FALSE))
    ;
  /* Nothing holds it: no cycle of references, no signal that keeps it. */
  g_assert_null (held);
}

static void
add_folder (const char *folder, guint *found)
{
  g_auto (GStrv) names = g_resources_enumerate_children (folder, 0, NULL);

  for (gsize i = 0; names != NULL && names[i] != NULL; i++)
    {
      g_autofree char *path = g_strconcat (folder, names[i], NULL);
      if (g_str_has_suffix (path, "/"))
        add_folder (path, found);
      else if (g_str_has_suffix (path, ".ui"))
        {
          g_autofree char *test = sw_test_path ("/app/templates", path + strlen (ROOT));
          g_test_add_data_func_full (test, g_strdup (path), test_template, g_free);
          (*found)++;
        }
    }
}

int
main (int argc, char **argv)
{
  guint found = 0;

  gtk_test_init (&argc, &argv, NULL);
  sw_theme_install (gdk_display_get_default ());
  add_folder (ROOT, &found);
  g_assert_cmpuint (found, >=, 10);
  return g_test_run ();
}
