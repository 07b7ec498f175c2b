/* SPDX-License-Identifier: GPL-3.0-or-later */
/* After the last step: what the test came to, and what comes next for the machine, and why. */
#pragma once

#include "app/test/step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_DONE_PAGE (sw_done_page_get_type ())
G_DECLARE_FINAL_TYPE (SwDonePage, sw_done_page, SW, DONE_PAGE, SwStepPage)

G_END_DECLS
