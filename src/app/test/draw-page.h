/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Step 1: the state of the machine, the place of sampling, and what was drawn. */
#pragma once

#include "app/test/step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_DRAW_PAGE (sw_draw_page_get_type ())
G_DECLARE_FINAL_TYPE (SwDrawPage, sw_draw_page, SW, DRAW_PAGE, SwStepPage)

G_END_DECLS
