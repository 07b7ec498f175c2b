/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Step 2: what goes into the flask, and from which lots. */
#pragma once

#include "app/test/step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_PREPARE_PAGE (sw_prepare_page_get_type ())
G_DECLARE_FINAL_TYPE (SwPreparePage, sw_prepare_page, SW, PREPARE_PAGE, SwStepPage)

G_END_DECLS
