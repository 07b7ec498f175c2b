/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks for a reason before a move that takes something back or gives something up. */
#pragma once

#include "app/test/step-page.h"

G_BEGIN_DECLS

typedef enum
{
  SW_ASK_TAKE_BACK, /* also: did the last drops go in? */
  SW_ASK_FRESH_PORTION,
  SW_ASK_ABANDON,
  SW_ASK_NOT_ADDED,
  SW_N_ASKS
} SwAsk;

#define SW_TYPE_ASK_PAGE (sw_ask_page_get_type ())
G_DECLARE_FINAL_TYPE (SwAskPage, sw_ask_page, SW, ASK_PAGE, SwStepPage)

/* What to ask; call before sw_step_page_open. Signal "cancelled": nothing was done. */
void sw_ask_page_set (SwAskPage *self, SwAsk ask);

G_END_DECLS
