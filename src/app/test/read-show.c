/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the Read page shows for each state of the test, from one view of it. */
#include "app/test/read-page-private.h"

#include "app/test/read-view.h"
#include "app/test/reveal.h"
#include "wording/sentence-test.h"

static SwGuidedTest *
get_test (SwReadPage *self)
{
  return sw_step_page_get_test (SW_STEP_PAGE (self));
}

static const SwWording *
get_wording (SwReadPage *self)
{
  return sw_step_page_get_wording (SW_STEP_PAGE (self));
}

static void
set_accent (GtkWidget *button, gboolean accent)
{
  if (accent)
    gtk_widget_add_css_class (button, "sw-accent");
  else
    gtk_widget_remove_css_class (button, "sw-accent");
}

static void
show_notice (SwReadPage *self, const SwReadView *view)
{
  const SwWording *wording = get_wording (self);
  SwGuidedTest *test = get_test (self);
  g_autofree char *words = view->paused ? sw_say_fact (wording, &view->refusal)
                                        : sw_say_next (wording, sw_guided_test_get_outcome (test),
                                                       sw_guided_test_get_method (test)->burette);

  gtk_widget_set_visible (GTK_WIDGET (self->tiles), !view->notice);
  gtk_widget_set_visible (GTK_WIDGET (self->between), !view->notice);
  gtk_widget_set_visible (self->notice, view->notice);
  sw_verdict_set_kind (self->notice_mark, view->next == SW_NEXT_STOP_AND_CALL
                                              ? SW_VERDICT_OVER_RANGE
                                              : SW_VERDICT_CAUTION);
  gtk_label_set_text (self->notice_words, words);
  gtk_label_set_text (self->next, view->notice ? "" : words);
  sw_caution_bar_set (self->caution, wording,
                      view->next == SW_NEXT_STOP_AND_CALL ? SW_CAUTION_OVER_RANGE
                                                          : SW_CAUTION_READ);
}

static void
show_buttons (SwReadPage *self, const SwReadView *view)
{
  gboolean close = view->can_close;

  gtk_widget_set_visible (GTK_WIDGET (self->add), !view->notice && !close);
  gtk_widget_set_visible (GTK_WIDGET (self->several), !view->notice && !close);
  gtk_widget_set_sensitive (GTK_WIDGET (self->add), view->can_add);
  gtk_widget_set_sensitive (GTK_WIDGET (self->several), view->can_add);
  gtk_widget_set_visible (self->close, close);
  gtk_widget_set_visible (self->fresh, view->fresh);
  set_accent (GTK_WIDGET (self->add), view->can_add && view->next == SW_NEXT_ADD);
  set_accent (self->fresh, view->fresh);
  set_accent (self->close, close && !view->fresh);
  sw_shake_timer_set_sensitive (self->timer, view->can_read && !view->notice);
  for (GtkWidget *tile = gtk_widget_get_first_child (GTK_WIDGET (self->tiles)); tile != NULL;
       tile = gtk_widget_get_next_sibling (tile))
    gtk_widget_set_sensitive (tile, view->can_read);
  gtk_widget_set_sensitive (GTK_WIDGET (self->between), view->can_read);
}

/* Return presses only what ends the page; the focus waits on what comes next. */
static void
place_focus (SwReadPage *self, const SwReadView *view)
{
  GtkWidget *end = NULL;

  if (view->fresh)
    end = self->fresh;
  else if (gtk_widget_get_visible (self->close))
    end = self->close;
  sw_step_page_set_default (SW_STEP_PAGE (self), end);
  if (end != NULL)
    gtk_widget_grab_focus (end);
  else if (view->next == SW_NEXT_ADD && view->can_add)
    gtk_widget_grab_focus (GTK_WIDGET (self->add));
  else
    gtk_widget_grab_focus (GTK_WIDGET (self->timer));
}

static void
show_head (SwReadPage *self, const SwReadView *view)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  const SwWording *wording = get_wording (self);
  const SwMethodVersion *method = sw_guided_test_get_method (get_test (self));
  g_autofree char *light = sw_say_light (wording, method->strip_wait_s);
  g_autofree char *count
      = sw_step_count_format (wording, sw_guided_test_get_total (get_test (self)), method->burette);
  SwNext next = view->paused ? SW_NEXT_FRESH_PORTION : view->next;

  sw_step_page_set_title (page, sw_say_read_title (wording, next));
  sw_step_page_set_subtitle (page, view->notice ? NULL : light);
  gtk_label_set_text (self->count, count);
}

/* The newest line is the one that matters. */
static void
show_ladder (SwReadPage *self, gboolean waiting)
{
  sw_ladder_show (self->ladder, get_wording (self), get_test (self), waiting);
  sw_reveal (self->ladder_scroller, NULL);
}

void
sw_read_page_show (SwStepPage *page)
{
  SwReadPage *self = SW_READ_PAGE (page);
  SwGuidedTest *test = get_test (self);
  SwReadView view = sw_read_view_of (test, sw_context_now (sw_step_page_get_context (page)));

  show_head (self, &view);
  show_notice (self, &view);
  show_buttons (self, &view);
  show_ladder (self, view.waiting);
  sw_shake_timer_show (self->timer, sw_step_page_get_context (page),
                       sw_guided_test_get_titration (test)->shake_started_ms,
                       sw_guided_test_get_method (test)->shake_s);
  place_focus (self, &view);
}
