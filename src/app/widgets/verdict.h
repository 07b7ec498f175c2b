/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A verdict's shape, so that no colour stands alone: acid triangle, passed or neutral disc,
 * alkaline square, over range octagon outline, unknown ring. In templates: properties "kind" (a
 * number of SwVerdictKind) and "size" (px). */
#pragma once

#include <gtk/gtk.h>

#include "calc/fact.h"
#include "calc/outcome.h"

G_BEGIN_DECLS

typedef enum
{
  SW_VERDICT_UNKNOWN,
  SW_VERDICT_ACID,
  SW_VERDICT_PASSED,
  SW_VERDICT_ALKALINE,
  SW_VERDICT_OVER_RANGE,
  /* not verdicts, but drawn by the same hand */
  SW_VERDICT_CAUTION, /* triangle with an exclamation mark, beside a caution */
  SW_VERDICT_MISTAKE, /* diamond with an exclamation mark, beside an error in a form */
  SW_N_VERDICT_KINDS
} SwVerdictKind;

#define SW_TYPE_VERDICT (sw_verdict_get_type ())
G_DECLARE_FINAL_TYPE (SwVerdict, sw_verdict, SW, VERDICT, GtkWidget)

GtkWidget *sw_verdict_new (SwVerdictKind kind, int size_px);
void sw_verdict_set_kind (SwVerdict *self, SwVerdictKind kind);

SwVerdictKind sw_verdict_of_outcome (SwOutcomeKind kind);
SwVerdictKind sw_verdict_of_field (SwField field);
SwVerdictKind sw_verdict_of_state (SwFactCode state);

G_END_DECLS
