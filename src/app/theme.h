/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Light, dark and high contrast: which style sheets are in force, and who decides it. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum /* as the key "colour-scheme" of the settings counts them */
{
  SW_SCHEME_SYSTEM,
  SW_SCHEME_LIGHT,
  SW_SCHEME_DARK,
  SW_N_SCHEMES
} SwScheme;

#define SW_TYPE_THEME (sw_theme_get_type ())
G_DECLARE_FINAL_TYPE (SwTheme, sw_theme, SW, THEME, GObject)

/* The process's theme. Property "dark" is notified after each change of look, also when only the
 * contrast changed. (transfer none) */
SwTheme *sw_theme_get_default (void);
/* Puts the style sheets on a display, once, and begins to follow settings and desktop. */
void sw_theme_install (GdkDisplay *display);
gboolean sw_theme_is_dark (SwTheme *self);
/* A fixed look, whatever settings and desktop say: for pictures and tests. */
void sw_theme_force (SwScheme scheme, gboolean high_contrast);

/* The program's settings, or NULL where the schema is not installed. (transfer none) */
GSettings *sw_settings_get (void);

G_END_DECLS
