/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Recomputes every stored result from its raw readings and inputs. */
#pragma once

#include "records/verify.h"

G_BEGIN_DECLS

#define SW_CALC_VERSION 1

/* Adds a SW_FINDING_RESULT to @report for each titration or dose whose stored result differs from
 * the recomputed one by more than 1e-9 relative. A result that another version of the calculation
 * stored is a note, SW_FINDING_VERSION, instead: a changed calculation is no tampering. */
gboolean sw_recompute_all (SwStore *store, SwVerifyReport *report, GError **error);
/* The same with progress, of results. */
gboolean sw_recompute_with (
    SwStore *store, SwVerifyReport *report, SwProgress progress, gpointer data, GError **error);

G_END_DECLS
