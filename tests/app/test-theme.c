/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The look follows the desktop's settings portal and the person's own setting.
 *
 * A portal of the test's own answers on a bus of the test's own. Interface and values: XDG Desktop
 * Portal, org.freedesktop.portal.Settings, version 1 (color-scheme 1 = prefers dark; contrast 1 =
 * more contrast; Read wraps its value in a second variant).
 */
#include <gtk/gtk.h>

#include "app/theme.h"
#include "support/support.h"

#define WAIT_S 10

static const char introspection[]
    = "<node><interface name='org.freedesktop.portal.Settings'>"
      "<method name='Read'><arg type='s' direction='in'/><arg type='s' direction='in'/>"
      "<arg type='v' direction='out'/></method>"
      "<signal name='SettingChanged'><arg type='s'/><arg type='s'/><arg type='v'/></signal>"
      "</interface></node>";

/* Never let go of: that would wait for the theme's connection, which lives as long as the process.
 */
static GTestDBus *test_bus;
static GDBusConnection *portal;
static guint32 desktop_scheme = 1; /* dark, before anybody asks */
static SwTheme *theme;

static void
read_cb (GDBusConnection *bus,
         const char *sender,
         const char *path,
         const char *interface,
         const char *method,
         GVariant *parameters,
         GDBusMethodInvocation *invocation,
         gpointer data)
{
  const char *key;

  g_variant_get (parameters, "(&s&s)", NULL, &key);
  guint32 value = g_str_equal (key, "color-scheme") ? desktop_scheme : 0;
  g_dbus_method_invocation_return_value (
      invocation, g_variant_new ("(v)", g_variant_new_variant (g_variant_new_uint32 (value))));
}

static void
tell (const char *group, const char *key, GVariant *value)
{
  g_autoptr (GError) error = NULL;

  g_dbus_connection_emit_signal (portal, NULL, "/org/freedesktop/portal/desktop",
                                 "org.freedesktop.portal.Settings", "SettingChanged",
                                 g_variant_new ("(ssv)", group, key, value), &error);
  g_assert_no_error (error);
}

static gboolean
late_cb (gpointer data)
{
  *(gboolean *)data = TRUE;
  return G_SOURCE_REMOVE;
}

static void
assert_becomes (gboolean dark)
{
  gboolean late = FALSE;
  guint timer = g_timeout_add_seconds (WAIT_S, late_cb, &late);

  while (sw_theme_is_dark (theme) != dark && !late)
    g_main_context_iteration (NULL, TRUE);
  g_assert_false (late);
  g_source_remove (timer);
}

static gboolean
toolkit_is_dark (void)
{
  gboolean dark;

  g_object_get (gtk_settings_get_default (), "gtk-application-prefer-dark-theme", &dark, NULL);
  return dark;
}

static void
test_asked (void)
{
  assert_becomes (TRUE);
  g_assert_true (toolkit_is_dark ());
}

static void
test_told (void)
{
  tell ("org.freedesktop.appearance", "color-scheme", g_variant_new_uint32 (2));
  assert_becomes (FALSE);
  tell ("org.freedesktop.appearance", "color-scheme", g_variant_new_uint32 (1));
  assert_becomes (TRUE);
}

/* Other groups, other keys and values of another type are passed over: the last message, a real
 * one, is all that counts. */
static void
test_nonsense (void)
{
  tell ("org.gnome.desktop.interface", "color-scheme", g_variant_new_uint32 (0));
  tell ("org.freedesktop.appearance", "accent-color", g_variant_new_uint32 (0));
  tell ("org.freedesktop.appearance", "color-scheme", g_variant_new_string ("light"));
  tell ("org.freedesktop.appearance", "contrast", g_variant_new_uint32 (0));
  for (int i = 0; i < 20; i++)
    {
      g_main_context_iteration (NULL, FALSE);
      g_usleep (5000);
    }
  g_assert_true (sw_theme_is_dark (theme));
}

/* The person's setting is stronger than the desktop, and gives way again. */
static void
test_setting (void)
{
  GSettings *settings = sw_settings_get ();

  g_assert_nonnull (settings);
  g_settings_set_string (settings, "colour-scheme", "light");
  assert_becomes (FALSE);
  tell ("org.freedesktop.appearance", "color-scheme", g_variant_new_uint32 (0));
  g_settings_set_string (settings, "colour-scheme", "dark");
  assert_becomes (TRUE);
  g_settings_set_string (settings, "colour-scheme", "system");
  assert_becomes (FALSE);
}

static void
export_portal (void)
{
  static const GDBusInterfaceVTable table = { .method_call = read_cb };
  g_autoptr (GDBusNodeInfo) node = g_dbus_node_info_new_for_xml (introspection, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (GVariant) reply = NULL;

  portal = g_dbus_connection_new_for_address_sync (
      g_getenv ("DBUS_SESSION_BUS_ADDRESS"),
      G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT
          | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION,
      NULL, NULL, &error);
  g_assert_no_error (error);
  g_dbus_connection_register_object (portal, "/org/freedesktop/portal/desktop", node->interfaces[0],
                                     &table, NULL, NULL, &error);
  g_assert_no_error (error);
  reply = g_dbus_connection_call_sync (portal, "org.freedesktop.DBus", "/org/freedesktop/DBus",
                                       "org.freedesktop.DBus", "RequestName",
                                       g_variant_new ("(su)", "org.freedesktop.portal.Desktop", 0),
                                       NULL, G_DBUS_CALL_FLAGS_NONE, -1, NULL, &error);
  g_assert_no_error (error);
}

int
main (int argc, char **argv)
{
  g_autofree char *display = g_strdup (g_getenv ("DISPLAY"));

  /* Before GTK has threads: the bus forks a process that watches it, and a lock that a thread held
   * at that moment would stay locked there for ever. It takes DISPLAY out of the environment. */
  test_bus = g_test_dbus_new (G_TEST_DBUS_NONE);
  g_test_dbus_up (test_bus);
  g_setenv ("DISPLAY", display, TRUE);
  gtk_test_init (&argc, &argv, NULL);
  export_portal ();
  theme = sw_theme_get_default ();
  sw_theme_install (gdk_display_get_default ());
  g_test_add_func ("/app/theme/asked at start", test_asked);
  g_test_add_func ("/app/theme/told later", test_told);
  g_test_add_func ("/app/theme/nonsense", test_nonsense);
  g_test_add_func ("/app/theme/setting", test_setting);
  int result = g_test_run ();
  g_clear_object (&portal);
  g_test_dbus_stop (test_bus);
  return result;
}
