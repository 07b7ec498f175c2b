/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every page of the guided test has: a title, a body, a bar with its buttons, the place of
 * each error, and the test it shows.
 *
 * In a template, children go into the body, children of type "action" into the bar at the foot,
 * which never scrolls away.
 */
#pragma once

#include <gtk/gtk.h>

#include "app/context.h"
#include "app/widgets/form-row.h"
#include "workflow/guided.h"

G_BEGIN_DECLS

#define SW_TYPE_STEP_PAGE (sw_step_page_get_type ())
G_DECLARE_DERIVABLE_TYPE (SwStepPage, sw_step_page, SW, STEP_PAGE, GtkWidget)

struct _SwStepPageClass
{
  GtkWidgetClass parent_class;

  /* The test has come to this page, or came back to it: fill the fields from the record. */
  void (*fill) (SwStepPage *self);
  /* Something moved while the page stays: show the test anew, keep what was typed. */
  void (*show) (SwStepPage *self);
  /* The test is about to go; context and test are still there. */
  void (*close) (SwStepPage *self);
};

/* Both borrowed; the frame keeps them alive as long as the page is shown. */
void sw_step_page_open (SwStepPage *self, SwContext *context, SwGuidedTest *test);
/* Shows the test anew after a move that stays on the page. */
void sw_step_page_refresh (SwStepPage *self);
/* The same test, resumed by another person: what was typed stays. */
void sw_step_page_swap (SwStepPage *self, SwGuidedTest *test);
/* The test is gone. */
void sw_step_page_close (SwStepPage *self);

SwContext *sw_step_page_get_context (SwStepPage *self); /* (transfer none); NULL while closed */
SwGuidedTest *sw_step_page_get_test (SwStepPage *self); /* (transfer none); NULL while closed */
SwStore *sw_step_page_get_store (SwStepPage *self);     /* (transfer none) */
const SwWording *sw_step_page_get_wording (SwStepPage *self);

/* Asks the frame for the page that asks for a reason; @what is an SwAsk (ask-page.h). */
void sw_step_page_ask (SwStepPage *self, int what);
/* Asks the frame to leave the test. */
void sw_step_page_leave (SwStepPage *self);

/* What stands at the head of the page; the frame shows them. */
void sw_step_page_set_title (SwStepPage *self, const char *title);
void sw_step_page_set_subtitle (SwStepPage *self, const char *subtitle);

/* Where an error about @quantity, or a refusal with @fact, is shown: beside @row (places.h). Either
 * may be 0. */
void
sw_step_page_add_place (SwStepPage *self, SwQuantityName quantity, SwFactCode fact, GtkWidget *row);
/* After a move: takes the error away or shows it at its place, with the focus there, and takes
 * @error (transfer full). Emits "moved" when @moved. Returns @moved. */
gboolean sw_step_page_settle (SwStepPage *self, gboolean moved, GError *error);
/* Says at @row what is wrong (NULL: it says so already), puts the focus there and shows all of it.
 */
void sw_step_page_refuse_at (SwStepPage *self, GtkWidget *row, const char *text);
/* A line above the buttons; NULL clears it. */
void sw_step_page_set_message (SwStepPage *self, const char *text);
void sw_step_page_clear_errors (SwStepPage *self);

/* TRUE when @value may go on: it is near the usual one, or the person offers it a second time.
 * Otherwise the row asks for a second look. */
gboolean sw_step_page_second_look (SwStepPage *self,
                                   SwFormRow *row,
                                   SwQuantityName quantity,
                                   double value,
                                   double usual,
                                   SwUnit unit);

/* The button that Return presses; NULL = none. */
void sw_step_page_set_default (SwStepPage *self, GtkWidget *button);

G_END_DECLS
