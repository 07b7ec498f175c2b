/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The lots of a product as lines of a drop-down, expired ones marked in words. */
#pragma once

#include "app/test/choice-row.h"
#include "app/test/step-page.h"

G_BEGIN_DECLS

/* Fills @row with the lots of @product; without any the hint says so. @chosen 0: the first in date
 * is chosen; lots may be prefilled, other numbers not. */
void sw_lots_fill (SwStepPage *page, SwChoiceRow *row, gint64 product, gint64 chosen);
/* The same with all lots of strips; FALSE when the site keeps no strips as a product. */
gboolean sw_lots_fill_strips (SwStepPage *page, SwChoiceRow *row, gint64 chosen);
/* TRUE when a visible row has a lot chosen; else its error shows and it takes the focus. */
gboolean sw_lots_check (SwStepPage *page, SwChoiceRow *row);

G_END_DECLS
