/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Step 6: the amount for the machine, or why there is none. */
#pragma once

#include "app/test/step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_DOSE_PAGE (sw_dose_page_get_type ())
G_DECLARE_FINAL_TYPE (SwDosePage, sw_dose_page, SW, DOSE_PAGE, SwStepPage)

G_END_DECLS
