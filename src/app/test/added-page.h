/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Step 7: what was really added, from which lot, and when. */
#pragma once

#include "app/test/step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_ADDED_PAGE (sw_added_page_get_type ())
G_DECLARE_FINAL_TYPE (SwAddedPage, sw_added_page, SW, ADDED_PAGE, SwStepPage)

G_END_DECLS
