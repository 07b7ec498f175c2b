/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Above every page of the guided test: Back, which test and which step, the page's question, more,
 * Leave. The buttons are the actions test.back, test.fresh, test.abandon and test.leave. */
#pragma once

#include "app/test/step-page.h"

G_BEGIN_DECLS

#define SW_TYPE_TEST_HEAD (sw_test_head_get_type ())
G_DECLARE_FINAL_TYPE (SwTestHead, sw_test_head, SW, TEST_HEAD, GtkWidget)

/* Which machine, sample and step. */
void sw_test_head_show_test (SwTestHead *self, const SwWording *wording, const SwGuidedTest *test);
/* The question of the page on screen. */
void sw_test_head_show_page (SwTestHead *self, SwStepPage *page);
/* Which of the buttons there are. */
void sw_test_head_show_ways (SwTestHead *self, gboolean more, gboolean leave);

G_END_DECLS
