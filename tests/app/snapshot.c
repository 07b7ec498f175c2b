/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures of widgets, and ways to find a widget by what a person reads. */
#include "tests/app/snapshot.h"

#include "app/theme.h"

/* Long enough for a slow machine, short enough that a hang is a failure. */
#define WAIT_S 20

GtkWindow *
sw_snapshot_window (GtkWidget *child, int width, int height, gboolean dark)
{
  GtkWidget *window = gtk_window_new ();

  sw_theme_install (gdk_display_get_default ());
  sw_theme_force (dark ? SW_SCHEME_DARK : SW_SCHEME_LIGHT, FALSE);
  gtk_widget_add_css_class (window, "sw");
  gtk_window_set_decorated (GTK_WINDOW (window), FALSE);
  gtk_window_set_default_size (GTK_WINDOW (window), width, height);
  /* As in the real window: boxes come over it. */
  GtkWidget *overlay = gtk_overlay_new ();
  gtk_overlay_set_child (GTK_OVERLAY (overlay), child);
  gtk_window_set_child (GTK_WINDOW (window), overlay);
  gtk_window_present (GTK_WINDOW (window));
  sw_snapshot_settle (window);
  return GTK_WINDOW (window);
}

void
sw_snapshot_settle (GtkWidget *widget)
{
  gint64 until = g_get_monotonic_time () + WAIT_S * G_USEC_PER_SEC;

  if (gtk_widget_get_mapped (widget))
    gtk_test_widget_wait_for_draw (widget);
  while (g_main_context_pending (NULL) && g_get_monotonic_time () < until)
    g_main_context_iteration (NULL, FALSE);
}

void
sw_snapshot (GtkWidget *widget, const char *name)
{
  sw_snapshot_settle (widget);

  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (widget);
  double width = gdk_paintable_get_intrinsic_width (paintable);
  double height = gdk_paintable_get_intrinsic_height (paintable);
  GtkSnapshot *snapshot = gtk_snapshot_new ();
  gdk_paintable_snapshot (paintable, snapshot, width, height);
  g_autoptr (GskRenderNode) node = gtk_snapshot_free_to_node (snapshot);
  g_assert_nonnull (node);

  GskRenderer *renderer = gtk_native_get_renderer (gtk_widget_get_native (widget));
  g_autoptr (GdkTexture) texture = gsk_renderer_render_texture (
      renderer, node, &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  g_assert_nonnull (texture);
  const char *folder = g_getenv ("SW_SNAPSHOT_DIR");
  if (folder == NULL)
    return;
  g_autofree char *file = g_strconcat (name, ".png", NULL);
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_assert_true (gdk_texture_save_to_png (texture, path));
}

GtkWidget *
sw_find_widget (GtkWidget *widget, GType type, const char *name)
{
  if (g_type_is_a (G_OBJECT_TYPE (widget), type)
      && (name == NULL
          || g_strcmp0 (gtk_buildable_get_buildable_id (GTK_BUILDABLE (widget)), name) == 0
          || g_strcmp0 (gtk_widget_get_name (widget), name) == 0))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = sw_find_widget (child, type, name);
      if (found != NULL)
        return found;
    }
  return NULL;
}

/* Shown, and not on a page of a stack that another one covers. */
static gboolean
is_shown (GtkWidget *widget)
{
  return gtk_widget_get_visible (widget) && gtk_widget_get_child_visible (widget);
}

/* The text a person reads on @widget itself, or NULL. */
static const char *
get_text (GtkWidget *widget)
{
  return GTK_IS_LABEL (widget) ? gtk_label_get_text (GTK_LABEL (widget)) : NULL;
}

GtkWidget *
sw_find_text (GtkWidget *widget, const char *text)
{
  if (!is_shown (widget))
    return NULL;
  if (g_strcmp0 (get_text (widget), text) == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = sw_find_text (child, text);
      if (found != NULL)
        return found;
    }
  return NULL;
}

GtkWidget *
sw_find_button (GtkWidget *widget, const char *label)
{
  GtkWidget *found = sw_find_text (widget, label);

  while (found != NULL && !GTK_IS_BUTTON (found))
    found = gtk_widget_get_parent (found);
  if (found == NULL)
    {
      g_autofree char *seen = sw_visible_text (widget);
      g_test_message ("no button \"%s\" in:\n%s", label, seen);
    }
  g_assert_nonnull (found);
  return found;
}

static void
collect_text (GtkWidget *widget, GString *text)
{
  if (!is_shown (widget))
    return;
  const char *own = get_text (widget);
  if (own != NULL && *own != '\0')
    g_string_append_printf (text, "%s\n", own);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    collect_text (child, text);
}

char *
sw_visible_text (GtkWidget *widget)
{
  GString *text = g_string_new (NULL);

  collect_text (widget, text);
  return g_string_free (text, FALSE);
}
