/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guided test at the window: a frame (Back, title, step, Leave) around one page per step. */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"
#include "workflow/guided.h"

G_BEGIN_DECLS

#define SW_TYPE_TEST_PAGE (sw_test_page_get_type ())
G_DECLARE_FINAL_TYPE (SwTestPage, sw_test_page, SW, TEST_PAGE, GtkWidget)

GtkWidget *sw_test_page_new (SwContext *context);
/* Shows a test at the step it stands at. Takes @test (transfer full). */
void sw_test_page_open (SwTestPage *self, SwGuidedTest *test);
/* Shows nothing and frees the test; the file keeps it. */
void sw_test_page_close (SwTestPage *self);

G_END_DECLS
