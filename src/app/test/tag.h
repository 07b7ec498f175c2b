/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tag on the machine, typed or scanned, against the one that the test is for. */
#pragma once

#include "app/test/step-page.h"

G_BEGIN_DECLS

/* TRUE when the row holds the tag of the page's machine, whatever the case and the spaces around;
 * else the error shows at the row and the focus goes there. */
gboolean sw_tag_confirm (SwStepPage *page, SwFormRow *row);

G_END_DECLS
