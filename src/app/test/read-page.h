/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Step 3: titrate drop by drop; read a fresh strip after each. */
#pragma once

#include "app/test/step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_READ_PAGE (sw_read_page_get_type ())
G_DECLARE_FINAL_TYPE (SwReadPage, sw_read_page, SW, READ_PAGE, SwStepPage)

G_END_DECLS
