/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The look follows, in this order: a forced scheme (tests), the person's setting, the desktop's
 * preference through the settings portal, and where there is no portal the toolkit's own settings.
 *
 * GTK 4.8 does not read the portal, so it is read here, without waiting: the window opens light and
 * turns dark when the answer comes, some milliseconds later and before the first frame as a rule.
 */
#include "app/theme.h"

#define RESOURCE "/org/stillwarden/Stillwarden/ui/"
#define PORTAL_NAME "org.freedesktop.portal.Desktop"
#define PORTAL_PATH "/org/freedesktop/portal/desktop"
#define PORTAL_SETTINGS "org.freedesktop.portal.Settings"
#define APPEARANCE "org.freedesktop.appearance"
/* Values of the portal's keys, as its documentation counts them. */
#define PORTAL_PREFERS_DARK 1
#define PORTAL_MORE_CONTRAST 1

struct _SwTheme
{
  GObject parent_instance;

  /* Owned */
  GtkCssProvider *colours;
  GtkCssProvider *contrast;
  GDBusConnection *bus;

  gboolean installed;
  gboolean forced;
  SwScheme scheme;
  gboolean desktop_dark;
  gboolean desktop_contrast;
  gboolean dark;
  gboolean high_contrast;
};

enum
{
  PROP_DARK = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (SwTheme, sw_theme, G_TYPE_OBJECT)

static void
load (GtkCssProvider *provider, const char *name)
{
  if (name == NULL)
    {
      gtk_css_provider_load_from_data (provider, "", 0);
      return;
    }
  g_autofree char *path = g_strconcat (RESOURCE, name, NULL);
  gtk_css_provider_load_from_resource (provider, path);
}

/* Old desktops say it by the name of the toolkit theme alone. */
static gboolean
toolkit_wants_contrast (void)
{
  g_autofree char *name = NULL;

  g_object_get (gtk_settings_get_default (), "gtk-theme-name", &name, NULL);
  return name != NULL && (g_str_has_prefix (name, "HighContrast") || strstr (name, "-hc") != NULL);
}

static gboolean
wants_dark (SwTheme *self)
{
  return self->scheme == SW_SCHEME_SYSTEM ? self->desktop_dark : self->scheme == SW_SCHEME_DARK;
}

static void
apply (SwTheme *self)
{
  gboolean dark = wants_dark (self);
  gboolean contrast = self->desktop_contrast || (!self->forced && toolkit_wants_contrast ());

  self->dark = dark;
  self->high_contrast = contrast;
  load (self->colours, dark ? "colours-dark.css" : "colours-light.css");
  load (self->contrast, !contrast ? NULL : dark ? "contrast-dark.css" : "contrast-light.css");
  g_object_set (gtk_settings_get_default (), "gtk-application-prefer-dark-theme", dark, NULL);
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_DARK]);
}

/* ---- the desktop ---- */

/* Takes a value of the portal, which wraps it in one variant or two. */
static void
take_appearance (SwTheme *self, const char *key, GVariant *value)
{
  g_autoptr (GVariant) inner = g_variant_ref (value);

  while (g_variant_is_of_type (inner, G_VARIANT_TYPE_VARIANT))
    {
      GVariant *next = g_variant_get_variant (inner);
      g_variant_unref (inner);
      inner = next;
    }
  if (self->forced || !g_variant_is_of_type (inner, G_VARIANT_TYPE_UINT32))
    return;
  if (g_str_equal (key, "color-scheme"))
    self->desktop_dark = g_variant_get_uint32 (inner) == PORTAL_PREFERS_DARK;
  else if (g_str_equal (key, "contrast"))
    self->desktop_contrast = g_variant_get_uint32 (inner) == PORTAL_MORE_CONTRAST;
  else
    return;
  apply (self);
}

static void
appearance_changed_cb (GDBusConnection *bus,
                       const char *sender,
                       const char *path,
                       const char *interface,
                       const char *signal,
                       GVariant *parameters,
                       gpointer data)
{
  const char *group = NULL;
  const char *key = NULL;
  g_autoptr (GVariant) value = NULL;

  if (!g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(ssv)")))
    return;
  g_variant_get (parameters, "(&s&sv)", &group, &key, &value);
  if (g_str_equal (group, APPEARANCE))
    take_appearance (SW_THEME (data), key, value);
}

typedef struct
{
  SwTheme *theme; /* Borrowed: lives as long as the process */
  const char *key;
} Question;

static void
appearance_read_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autofree Question *question = data;
  /* No portal, or none that knows the key: the toolkit's own settings stand. */
  g_autoptr (GVariant) answer
      = g_dbus_connection_call_finish (G_DBUS_CONNECTION (source), result, NULL);

  if (answer == NULL)
    return;
  g_autoptr (GVariant) value = g_variant_get_child_value (answer, 0);
  take_appearance (question->theme, question->key, value);
}

static void
ask_appearance (SwTheme *self, const char *key)
{
  Question *question = g_new (Question, 1);

  *question = (Question){ .theme = self, .key = key };
  g_dbus_connection_call (self->bus, PORTAL_NAME, PORTAL_PATH, PORTAL_SETTINGS, "Read",
                          g_variant_new ("(ss)", APPEARANCE, key), G_VARIANT_TYPE ("(v)"),
                          G_DBUS_CALL_FLAGS_NONE, -1, NULL, appearance_read_cb, question);
}

static void
bus_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  SwTheme *self = SW_THEME (data);

  self->bus = g_bus_get_finish (result, NULL);
  if (self->bus == NULL)
    return;
  g_dbus_connection_signal_subscribe (self->bus, PORTAL_NAME, PORTAL_SETTINGS, "SettingChanged",
                                      PORTAL_PATH, APPEARANCE, G_DBUS_SIGNAL_FLAGS_NONE,
                                      appearance_changed_cb, self, NULL);
  ask_appearance (self, "color-scheme");
  ask_appearance (self, "contrast");
}

/* What the toolkit says before anybody changed it: a dark theme by name, or by its own setting. */
static gboolean
toolkit_is_dark (void)
{
  g_autofree char *name = NULL;
  gboolean dark = FALSE;

  g_object_get (gtk_settings_get_default (), "gtk-theme-name", &name,
                "gtk-application-prefer-dark-theme", &dark, NULL);
  return dark || (name != NULL && g_str_has_suffix (name, "-dark"));
}

/* ---- settings ---- */

GSettings *
sw_settings_get (void)
{
  static GSettings *settings;
  static gsize once;

  if (g_once_init_enter (&once))
    {
      GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
      g_autoptr (GSettingsSchema) schema
          = source != NULL
                ? g_settings_schema_source_lookup (source, "org.stillwarden.Stillwarden", TRUE)
                : NULL;
      settings = schema != NULL ? g_settings_new_full (schema, NULL, NULL) : NULL;
      g_once_init_leave (&once, 1);
    }
  return settings;
}

static void
scheme_changed_cb (GSettings *settings, const char *key, SwTheme *self)
{
  if (self->forced)
    return;
  self->scheme = (SwScheme)g_settings_get_enum (settings, "colour-scheme");
  apply (self);
}

static void
contrast_changed_cb (GtkSettings *settings, GParamSpec *pspec, SwTheme *self)
{
  if (!self->forced && toolkit_wants_contrast () != self->high_contrast)
    apply (self);
}

/* ---- class ---- */

static void
sw_theme_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  g_value_set_boolean (value, SW_THEME (object)->dark);
}

static void
sw_theme_class_init (SwThemeClass *klass)
{
  G_OBJECT_CLASS (klass)->get_property = sw_theme_get_property;
  props[PROP_DARK]
      = g_param_spec_boolean ("dark", NULL, NULL, FALSE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (G_OBJECT_CLASS (klass), N_PROPS, props);
}

static void
sw_theme_init (SwTheme *self)
{
  self->colours = gtk_css_provider_new ();
  self->contrast = gtk_css_provider_new ();
}

SwTheme *
sw_theme_get_default (void)
{
  static SwTheme *theme;

  if (theme == NULL)
    theme = g_object_new (SW_TYPE_THEME, NULL);
  return theme;
}

void
sw_theme_install (GdkDisplay *display)
{
  SwTheme *self = sw_theme_get_default ();
  GtkSettings *toolkit = gtk_settings_get_default ();
  GSettings *settings = sw_settings_get ();
  guint priority = GTK_STYLE_PROVIDER_PRIORITY_APPLICATION;

  if (self->installed)
    return;
  self->installed = TRUE;
  g_autoptr (GtkCssProvider) rules = gtk_css_provider_new ();
  load (rules, "style.css");
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (rules), priority);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (self->colours),
                                              priority);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (self->contrast),
                                              priority + 1);

  self->desktop_dark = toolkit_is_dark ();
  g_signal_connect (toolkit, "notify::gtk-theme-name", G_CALLBACK (contrast_changed_cb), self);
  if (settings != NULL)
    {
      self->scheme = (SwScheme)g_settings_get_enum (settings, "colour-scheme");
      g_signal_connect (settings, "changed::colour-scheme", G_CALLBACK (scheme_changed_cb), self);
    }
  apply (self);
  g_bus_get (G_BUS_TYPE_SESSION, NULL, bus_cb, self);
}

gboolean
sw_theme_is_dark (SwTheme *self)
{
  g_return_val_if_fail (SW_IS_THEME (self), FALSE);
  return self->dark;
}

void
sw_theme_force (SwScheme scheme, gboolean high_contrast)
{
  SwTheme *self = sw_theme_get_default ();

  self->forced = TRUE;
  self->scheme = scheme;
  self->desktop_contrast = high_contrast;
  apply (self);
}
