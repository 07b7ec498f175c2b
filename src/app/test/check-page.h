/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Step 5: everything on one page, and the signature. */
#pragma once

#include "app/test/step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_CHECK_PAGE (sw_check_page_get_type ())
G_DECLARE_FINAL_TYPE (SwCheckPage, sw_check_page, SW, CHECK_PAGE, SwStepPage)

G_END_DECLS
