/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program at the desktop.
 *
 * One window per file, one store per real path. Without a file the start window asks what to do; a
 * file that cannot be opened is explained there, too.
 */
#include "app/application.h"

#include <locale.h>
#include <stdlib.h>

#include "app/file-dialog.h"
#include "app/start/start-window.h"
#include "app/theme.h"
#include "app/window.h"
#include "records/checkpoint.h"
#include "sw-config.h"

struct _SwApplication
{
  GtkApplication parent_instance;

  /* Owned */
  SwWording *wording;
};

G_DEFINE_FINAL_TYPE (SwApplication, sw_application, GTK_TYPE_APPLICATION)

static const struct
{
  const char *action;
  const char *keys[3];
} accels[] = {
  { "app.open", { "<Control>o" } },
  { "app.new-plant", { "<Control>n" } },
  { "app.quit", { "<Control>q" } },
  { "window.close", { "<Control>w" } },
  { "win.todo", { "<Control>1", "<Alt>Home" } },
  { "win.records", { "<Control>2" } },
  { "win.find", { "<Control>f" } },
  { "win.who", { "<Control>i" } },
  { "win.setup", { "<Control>comma" } },
  { "win.move(1)", { "<Alt>Down", "<Control>Page_Down" } },
  { "win.move(-1)", { "<Alt>Up", "<Control>Page_Up" } },
};

/* ---- language ---- */

/* Templates are translated by gettext in the language of LANGUAGE; the wording adds its own entry
 * there at start. Setting LC_MESSAGES anew makes gettext look again. */
void
sw_application_speak (SwApplication *self, const SwWording *wording)
{
  g_return_if_fail (SW_IS_APPLICATION (self));

  wording = wording != NULL ? wording : self->wording;
  g_autofree char *list = g_strconcat (sw_wording_get_language (wording), ":xx", NULL);

  g_setenv ("LANGUAGE", list, TRUE);
  setlocale (LC_MESSAGES, "C");
  setlocale (LC_MESSAGES, "C.UTF-8");
  gtk_widget_set_default_direction (sw_wording_is_right_to_left (wording) ? GTK_TEXT_DIR_RTL
                                                                          : GTK_TEXT_DIR_LTR);
}

/* The site's language and zone; the PC's where the site names none. */
static SwWording *
make_wording (SwStore *store)
{
  g_autoptr (SwSite) site = sw_site_get (store, NULL);

  return sw_wording_new (site != NULL ? site->language : NULL, site != NULL ? site->zone : NULL);
}

/* ---- files and windows ---- */

/* The window that has this file open, or NULL. */
static SwWindow *
find_window (SwApplication *self, const char *path)
{
  char *real = realpath (path, NULL);
  SwWindow *found = NULL;

  for (GList *item = gtk_application_get_windows (GTK_APPLICATION (self));
       item != NULL && real != NULL && found == NULL; item = item->next)
    {
      if (!SW_IS_WINDOW (item->data))
        continue;
      SwStore *store = sw_context_get_store (sw_window_get_context (item->data));
      char *other = realpath (sw_store_get_path (store), NULL);
      if (g_strcmp0 (real, other) == 0)
        found = item->data;
      free (other);
    }
  free (real);
  return found;
}

/* The start window that is open, or a new one. */
static SwStartWindow *
ensure_start (SwApplication *self)
{
  for (GList *item = gtk_application_get_windows (GTK_APPLICATION (self)); item != NULL;
       item = item->next)
    if (SW_IS_START_WINDOW (item->data))
      return item->data;
  return sw_start_window_new (self);
}

static void
close_start (SwApplication *self)
{
  for (GList *item = gtk_application_get_windows (GTK_APPLICATION (self)); item != NULL;
       item = item->next)
    if (SW_IS_START_WINDOW (item->data))
      {
        gtk_window_destroy (item->data);
        return;
      }
}

static void
remember (SwStore *store)
{
  GSettings *settings = sw_settings_get ();

  /* a backup that was looked at is not where work goes on */
  if (settings != NULL && !sw_store_is_read_only (store))
    g_settings_set_string (settings, "last-file", sw_store_get_path (store));
}

SwWindow *
sw_application_open_store (SwApplication *self, SwStore *store)
{
  g_return_val_if_fail (SW_IS_APPLICATION (self) && store != NULL, NULL);

  g_autoptr (SwWording) wording = make_wording (store);
  remember (store);
  sw_application_speak (self, wording);
  g_autoptr (SwContext) context = sw_context_new (store, wording);
  g_autofree char *trust = sw_trust_folder_dup_default ();
  sw_context_set_trust_folder (context, trust);
  SwWindow *window = sw_window_new (GTK_APPLICATION (self), context);
  gtk_window_present (GTK_WINDOW (window));
  close_start (self);
  return window;
}

gboolean
sw_application_open_path (SwApplication *self, const char *path, SwOpenMode mode, GError **error)
{
  g_return_val_if_fail (SW_IS_APPLICATION (self) && path != NULL, FALSE);

  SwWindow *window = find_window (self, path);
  if (window != NULL)
    {
      gtk_window_present (GTK_WINDOW (window));
      close_start (self);
      return TRUE;
    }
  SwStore *store = sw_store_open (path, mode, NULL, error);
  if (store == NULL)
    return FALSE;
  sw_application_open_store (self, store);
  return TRUE;
}

static void
open_or_explain (SwApplication *self, const char *path)
{
  g_autoptr (GError) error = NULL;

  if (sw_application_open_path (self, path, SW_OPEN_WRITE, &error))
    return;
  SwStartWindow *start = ensure_start (self);
  sw_start_window_explain (start, path, error);
  gtk_window_present (GTK_WINDOW (start));
}

static void
sw_application_activate (GApplication *application)
{
  SwApplication *self = SW_APPLICATION (application);
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (self));

  gtk_window_present (window != NULL ? window : GTK_WINDOW (ensure_start (self)));
}

static void
sw_application_open (GApplication *application, GFile **files, int n, const char *hint)
{
  for (int i = 0; i < n; i++)
    {
      g_autofree char *path = g_file_get_path (files[i]);
      if (path != NULL)
        open_or_explain (SW_APPLICATION (application), path);
    }
  /* Files that have no path here: show at least that something happened. */
  if (gtk_application_get_windows (GTK_APPLICATION (application)) == NULL)
    sw_application_activate (application);
}

/* ---- actions ---- */

static void
file_chosen_cb (const char *path, gpointer data)
{
  g_autoptr (SwApplication) self = data;

  if (path != NULL)
    open_or_explain (self, path);
}

static void
open_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  SwApplication *self = data;

  sw_file_dialog_open (gtk_application_get_active_window (GTK_APPLICATION (self)), self->wording,
                       file_chosen_cb, g_object_ref (self));
}

static void
new_plant_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  SwStartWindow *start = ensure_start (data);

  sw_start_window_new_plant (start);
  gtk_window_present (GTK_WINDOW (start));
}

static void
quit_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  GtkApplication *application = data;
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (application));

  /* Each closes its file; the program ends with the last. */
  for (GList *item = windows; item != NULL; item = item->next)
    gtk_window_destroy (item->data);
}

static void
about_cb (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  SwApplication *self = data;

  gtk_show_about_dialog (
      gtk_application_get_active_window (GTK_APPLICATION (self)), "program-name", "Stillwarden",
      "version", SW_VERSION, "logo-icon-name", SW_APP_ID, "license-type", GTK_LICENSE_GPL_3_0,
      "comments",
      sw_tr (self->wording, "Keeps the solvent of closed vacuum degreasers from turning acid.\n"
                            "The safety data sheets, the machine maker's manual, local codes and "
                            "licensed practice come before this program."),
      NULL);
}

static const GActionEntry entries[] = {
  { .name = "open", .activate = open_cb },
  { .name = "new-plant", .activate = new_plant_cb },
  { .name = "quit", .activate = quit_cb },
  { .name = "about", .activate = about_cb },
};

static void
add_actions (SwApplication *self)
{
  GSettings *settings = sw_settings_get ();

  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  if (settings != NULL)
    {
      g_autoptr (GAction) scheme = g_settings_create_action (settings, "colour-scheme");
      g_action_map_add_action (G_ACTION_MAP (self), scheme);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (accels); i++)
    gtk_application_set_accels_for_action (GTK_APPLICATION (self), accels[i].action,
                                           accels[i].keys);
}

/* ---- class ---- */

static void
sw_application_startup (GApplication *application)
{
  G_APPLICATION_CLASS (sw_application_parent_class)->startup (application);
  gtk_window_set_default_icon_name (SW_APP_ID);
  sw_application_speak (SW_APPLICATION (application), NULL);
  sw_theme_install (gdk_display_get_default ());
  add_actions (SW_APPLICATION (application));
}

static void
sw_application_finalize (GObject *object)
{
  g_clear_pointer (&SW_APPLICATION (object)->wording, sw_wording_unref);
  G_OBJECT_CLASS (sw_application_parent_class)->finalize (object);
}

static void
sw_application_class_init (SwApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = sw_application_finalize;
  application_class->startup = sw_application_startup;
  application_class->activate = sw_application_activate;
  application_class->open = sw_application_open;
}

static void
sw_application_init (SwApplication *self)
{
  self->wording = sw_wording_new (NULL, NULL);
}

SwApplication *
sw_application_new (void)
{
  GApplicationFlags flags = G_APPLICATION_HANDLES_OPEN;

  if (g_getenv ("SW_NON_UNIQUE") != NULL)
    flags |= G_APPLICATION_NON_UNIQUE;
  return g_object_new (SW_TYPE_APPLICATION, "application-id", SW_APP_ID, "flags", flags,
                       "resource-base-path", "/org/stillwarden/Stillwarden", NULL);
}

SwWording *
sw_application_get_wording (SwApplication *self)
{
  g_return_val_if_fail (SW_IS_APPLICATION (self), NULL);
  return self->wording;
}
