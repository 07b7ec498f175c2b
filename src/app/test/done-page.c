/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which words and which next date, by what became of the outcome and of the dose:
 *
 *   dose added     re-test due at ...        dose unknown   re-test due now
 *   no dose        still acid                otherwise      the schedule's decision
 */
#include "app/test/done-page.h"

#include "app/widgets/caution.h"
#include "app/widgets/verdict.h"
#include "app/window.h"
#include "wording/sentence-test.h"

struct _SwDonePage
{
  SwStepPage parent_instance;

  /* Template children */
  SwCautionBar *caution;
  SwVerdict *mark;
  GtkLabel *words;
  GtkLabel *next;
  GtkWidget *todo;
  GtkWidget *machine;
};

G_DEFINE_FINAL_TYPE (SwDonePage, sw_done_page, SW_TYPE_STEP_PAGE)

/* Leaving frees the test: what is needed of it is taken before. */
static void
todo_cb (GtkButton *button, SwDonePage *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  sw_step_page_leave (SW_STEP_PAGE (self));
  if (window != NULL)
    sw_window_show_todo (window);
}

static void
machine_cb (GtkButton *button, SwDonePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  SwWindow *window = sw_window_of (GTK_WIDGET (self));
  gint64 machine = sw_guided_test_get_machine (sw_step_page_get_test (page))->record.id;

  sw_step_page_leave (page);
  if (window != NULL)
    sw_window_show_machine (window, machine);
}

static SwTestWord
get_words (SwOutcomeKind kind, const SwDoseRow *dose)
{
  if (dose != NULL && dose->state == SW_DOSE_ADDED)
    return SW_TEST_WORD_DONE_ADDED;
  if (dose != NULL && dose->state == SW_DOSE_NOT_KNOWN)
    return SW_TEST_WORD_DONE_UNKNOWN;
  switch (kind)
    {
    case SW_OUTCOME_ACID_FOUND:
      return SW_TEST_WORD_DONE_ACID;
    case SW_OUTCOME_OVER_RANGE:
      return SW_TEST_WORD_DONE_OVER_RANGE;
    case SW_OUTCOME_RESERVE_FOUND:
    case SW_OUTCOME_NO_RESERVE:
    case SW_OUTCOME_RESERVE_OVER_RANGE:
      return SW_TEST_WORD_DONE_RESERVE;
    default:
      return SW_TEST_WORD_DONE_PASSED;
    }
}

static char *
dup_next (SwStepPage *page, SwTestWord words)
{
  SwGuidedTest *test = sw_step_page_get_test (page);
  const SwWording *wording = sw_step_page_get_wording (page);
  const SwDecision *decision = sw_guided_test_get_decision (test);
  const SwDoseRow *dose = sw_guided_test_get_dose (test);
  gint64 now_ms = sw_context_now (sw_step_page_get_context (page));

  if (words == SW_TEST_WORD_DONE_ADDED || words == SW_TEST_WORD_DONE_UNKNOWN)
    return sw_say_retest_due (wording, dose->retest_due_ms, now_ms);
  if (words == SW_TEST_WORD_DONE_ACID)
    return g_strdup (sw_say_test_word (wording, SW_TEST_WORD_STILL_ACID));
  if (decision == NULL)
    return g_strdup ("");
  return sw_say_schedule (wording, decision->reason, decision->interval_days, decision->due_ms,
                          now_ms);
}

static void
show (SwStepPage *page)
{
  SwDonePage *self = SW_DONE_PAGE (page);
  SwGuidedTest *test = sw_step_page_get_test (page);
  const SwWording *wording = sw_step_page_get_wording (page);
  SwOutcomeKind kind = sw_guided_test_get_outcome (test)->kind;
  SwTestWord words = get_words (kind, sw_guided_test_get_dose (test));
  g_autofree char *next = dup_next (page, words);

  sw_verdict_set_kind (self->mark, sw_verdict_of_outcome (kind));
  gtk_label_set_text (self->words, sw_say_test_word (wording, words));
  gtk_label_set_text (self->next, next);
  sw_caution_bar_set (self->caution, wording, SW_CAUTION_OVER_RANGE);
  gtk_widget_set_visible (GTK_WIDGET (self->caution), kind == SW_OUTCOME_OVER_RANGE);
  sw_step_page_set_default (page, self->todo);
  gtk_widget_grab_focus (self->todo);
}

static void
sw_done_page_class_init (SwDonePageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  SW_STEP_PAGE_CLASS (klass)->show = show;
  g_type_ensure (SW_TYPE_CAUTION_BAR);
  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/test/done-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwDonePage, caution);
  gtk_widget_class_bind_template_child (widget_class, SwDonePage, mark);
  gtk_widget_class_bind_template_child (widget_class, SwDonePage, words);
  gtk_widget_class_bind_template_child (widget_class, SwDonePage, next);
  gtk_widget_class_bind_template_child (widget_class, SwDonePage, todo);
  gtk_widget_class_bind_template_child (widget_class, SwDonePage, machine);
  gtk_widget_class_bind_template_callback (widget_class, todo_cb);
  gtk_widget_class_bind_template_callback (widget_class, machine_cb);
}

static void
sw_done_page_init (SwDonePage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
