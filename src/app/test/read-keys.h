/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keys of the Read page: 1 .. 9, + or Insert, S, Backspace; none while text is typed. */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  SW_READ_KEY_TILE, /* with its number */
  SW_READ_KEY_ADD,
  SW_READ_KEY_SHAKE,
  SW_READ_KEY_TAKE_BACK
} SwReadKey;

/* Returns whether the key was used. */
typedef gboolean (*SwReadKeyFunc) (SwReadKey key, guint number, gpointer data);

/* For the window, so that the keys work wherever the focus is. (transfer full) */
GtkEventController *sw_read_keys_new (SwReadKeyFunc func, gpointer data);

G_END_DECLS
