/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records to choose from in forms, and what each is called. Ids are gint64, those in use, by id;
 * all (transfer full). */
#pragma once

#include "app/context.h"

G_BEGIN_DECLS

GArray *sw_choose_solvents (SwContext *context, GError **error);
GArray *sw_choose_products (SwContext *context, GError **error);
GArray *sw_choose_neutralisers (SwContext *context, GError **error);
GArray *sw_choose_caustics (SwContext *context, GError **error);
GArray *sw_choose_bench_titrants (SwContext *context, GError **error);
/* What a drop can be of: neutralisers that a strip sees, and bench titrants. */
GArray *sw_choose_titrants (SwContext *context, GError **error);
GArray *sw_choose_methods (SwContext *context, GError **error);

char *sw_choice_solvent (SwContext *context, gint64 id);
char *sw_choice_product (SwContext *context, gint64 id);
char *sw_choice_method (SwContext *context, gint64 id);

/* How many rows in use of @table name this id in any of @columns (NULL-terminated). */
gulong sw_count_uses (SwContext *context, SwTable table, const char *const *columns, gint64 id);
gboolean sw_is_out_of_use (SwContext *context, SwTable table, gint64 id);

G_END_DECLS
