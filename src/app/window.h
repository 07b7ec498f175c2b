/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window: header bar, sidebar with To Do and the machines, and the pages. Pages find it with
 * gtk_widget_get_root and ask it to go elsewhere; they never know one another. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"
#include "records/browse.h"
#include "workflow/rights.h"

G_BEGIN_DECLS

#define SW_TYPE_WINDOW (sw_window_get_type ())
G_DECLARE_FINAL_TYPE (SwWindow, sw_window, SW, WINDOW, GtkApplicationWindow)

SwWindow *sw_window_new (GtkApplication *application, SwContext *context);

/* The window that a page sits in, or NULL while it sits in none (as in a page's own test).
 * (transfer none) */
SwWindow *sw_window_of (GtkWidget *widget);

SwContext *sw_window_get_context (SwWindow *self); /* (transfer none) */

/* TRUE when the person at the bench has this right; else it says why not, and opens the way forward
 * where there is one: the list of people, the box for their secret, or that for the file's first.
 * Ask it before an act. */
gboolean sw_window_may (SwWindow *self, SwRight right);
gboolean sw_window_may_write (SwWindow *self); /* SW_RIGHT_TEST */

/* FALSE: no administrator has a secret, so nothing can be written (and it is no demo plant). */
gboolean sw_window_is_guarded (SwWindow *self);
/* Asks an administrator to set that first secret. */
void sw_window_ask_first_secret (SwWindow *self);

/* While a box lies over the page: what is in the header rests, too. */
void sw_window_set_resting (SwWindow *self, gboolean rests);
/* Signs out when nobody has touched the window for as long as the site allows; TRUE when it did.
 * Done every few seconds. Both times as sw_idle_get_us has them. */
gboolean sw_window_check_idle (SwWindow *self, gint64 monotonic_us, gint64 real_us);

/* Each leaves a test that may be on screen; the file keeps it. */
void sw_window_show_todo (SwWindow *self);
void sw_window_show_machine (SwWindow *self, gint64 machine);
void sw_window_show_setup (SwWindow *self, const char *section); /* "machines", ... or NULL */
void sw_window_show_verify (SwWindow *self);
/* The form of one record of the set-up. */
void sw_window_show_setup_record (SwWindow *self, const char *section, gint64 id);
/* The list of records; NULL = as it was left. */
void sw_window_show_records (SwWindow *self, const SwBrowseFilter *filter);
/* One record with its story. */
void sw_window_show_record (SwWindow *self, SwTable table, gint64 id);
/* Begin or resume a guided test; a refusal is shown as a toast. The test covers the sidebar. */
void sw_window_begin_test (SwWindow *self, gint64 plan, SwPurpose purpose, gint64 answers_dose);
void sw_window_resume_test (SwWindow *self, gint64 titration);
/* The test page calls this when it is left or done: back to where it was begun. */
void sw_window_leave_test (SwWindow *self);

/* A short message at the foot for some seconds. @text is a whole sentence in the reader's language.
 */
void sw_window_toast (SwWindow *self, const char *text);
/* The same for a record of the set-up that was just added, with a button that undoes it. */
void sw_window_toast_added (SwWindow *self, const char *text, SwTable table, gint64 id);
/* The same for an error, said by sw_say_error; stays until dismissed. */
void sw_window_toast_error (SwWindow *self, const GError *error);

/* Shows anew what time alone changes; done once a minute. */
void sw_window_refresh (SwWindow *self);

G_END_DECLS
