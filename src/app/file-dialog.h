/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The desktop's file dialog, for opening and for keeping a plant. */
#pragma once

#include <gtk/gtk.h>

#include "wording/wording.h"

G_BEGIN_DECLS

#define SW_FILE_SUFFIX ".stillwarden"

/* Called once; @path is NULL when nothing was chosen. */
typedef void (*SwFileChosen) (const char *path, gpointer data);

void sw_file_dialog_open (GtkWindow *parent,
                          const SwWording *wording,
                          SwFileChosen chosen,
                          gpointer data);
/* @name is proposed, with the suffix added where it lacks one; so is the path that is chosen. */
void sw_file_dialog_save (GtkWindow *parent,
                          const SwWording *wording,
                          const char *name,
                          SwFileChosen chosen,
                          gpointer data);
/* Where to write a file for others to read; @suffix (".xlsx") is added where the name lacks it. */
void sw_file_dialog_export (GtkWindow *parent,
                            const SwWording *wording,
                            const char *name,
                            const char *suffix,
                            SwFileChosen chosen,
                            gpointer data);

/* The same for another kind of file than a plant of one's own; @title is copied. */
void sw_file_dialog_save_as (GtkWindow *parent,
                             const SwWording *wording,
                             const char *title,
                             const char *name,
                             SwFileChosen chosen,
                             gpointer data);
void sw_file_dialog_folder (GtkWindow *parent,
                            const SwWording *wording,
                            const char *title,
                            SwFileChosen chosen,
                            gpointer data);

G_END_DECLS
