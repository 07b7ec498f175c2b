/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Taking out of use: what rests on a set-up record, and what hangs on it (void-used.c); tests,
 * doses and incidents (void-test.c). */
#pragma once

#include "workflow/correction-private.h"

G_BEGIN_DECLS

/* FALSE with SW_FACT_STILL_USED and the name of what rests on the row, or with a fact that says it
 * better. */
gboolean sw_void_check_unused (SwStore *store, SwTable table, gint64 id, GError **error);
/* Inside an act: the row, and what has no meaning without it. */
gboolean sw_void_with_parts (SwStore *store, SwTable table, gint64 id, GError **error);
/* What people call the record: a code, a tag, a name, or that of what it belongs to; NULL with
 * @error unset when it has none. (transfer full) */
char *sw_void_dup_name (SwStore *store, SwTable table, gint64 id, GError **error);

/* Samples, titrations, doses and incidents: inside the correction's act. */
gboolean sw_void_test (SwCorrection *correction, SwTable table, gint64 id, GError **error);
/* An incident stays as long as what opened it found acid, or a dose of it went in. */
gboolean sw_void_check_incident (SwStore *store, gint64 id, GError **error);

G_END_DECLS
