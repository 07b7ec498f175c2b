/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Step 4: what the readings mean, in one sentence, with its bounds. */
#pragma once

#include "app/test/step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_RESULT_PAGE (sw_result_page_get_type ())
G_DECLARE_FINAL_TYPE (SwResultPage, sw_result_page, SW, RESULT_PAGE, SwStepPage)

G_END_DECLS
