/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Functions of our own that statements may call. Everything else in the SQL of this folder is
 * portable; a store on another engine brings these under the same names. */
#pragma once

#include <glib.h>
#include <sqlite3.h>

G_BEGIN_DECLS

/* sw_has_words (text, words): 1 when each of the words, folded by sw_text_fold and separated by one
 * space, stands somewhere in the text, whatever the case of either. */
int sw_functions_install (sqlite3 *db);

/* Text without case, so that equal means equal for a reader, in any script: Unicode case folding of
 * the composed form. Accents count. (transfer full) */
char *sw_text_fold (const char *text);

G_END_DECLS
