/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Nothing is worked out here: outcome, contents and uncertainty come from below and are said by
 * wording. */
#include "app/test/result-page.h"

#include "app/test/interval-picture.h"
#include "app/widgets/caution.h"
#include "app/widgets/verdict.h"
#include "wording/sentence-test.h"

struct _SwResultPage
{
  SwStepPage parent_instance;

  /* Template children */
  SwCautionBar *caution;
  SwVerdict *mark;
  GtkLabel *bounds;
  GtkLabel *sentence;
  SwIntervalPicture *picture;
  GtkLabel *content;
  GtkWidget *dominant_label;
  GtkLabel *dominant;
  GtkLabel *threshold;
  GtkWidget *next;
};

G_DEFINE_FINAL_TYPE (SwResultPage, sw_result_page, SW_TYPE_STEP_PAGE)

static void
next_cb (GtkButton *button, SwResultPage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  GError *error = NULL;
  gboolean moved = sw_guided_test_accept (sw_step_page_get_test (page), &error);

  sw_step_page_settle (page, moved, error);
}

static void
show_outcome (SwResultPage *self, const SwGuidedTest *test)
{
  const SwWording *wording = sw_step_page_get_wording (SW_STEP_PAGE (self));
  const SwOutcome *outcome = sw_guided_test_get_outcome (test);
  gboolean burette = sw_guided_test_get_method (test)->burette;
  gboolean over_range = outcome->kind == SW_OUTCOME_OVER_RANGE;
  g_autofree char *bounds = sw_steps_format (wording, outcome->net.low, outcome->net.high, burette);
  g_autofree char *sentence = sw_say_result (wording, outcome, burette);

  sw_verdict_set_kind (self->mark, sw_verdict_of_outcome (outcome->kind));
  gtk_label_set_text (self->bounds, bounds);
  gtk_label_set_text (self->sentence, sentence);
  sw_interval_picture_show (self->picture, wording, test, sentence);
  gtk_widget_set_visible (GTK_WIDGET (self->caution), over_range);
  sw_caution_bar_set (self->caution, wording, SW_CAUTION_OVER_RANGE);
}

static void
show_content (SwResultPage *self, const SwGuidedTest *test)
{
  const SwWording *wording = sw_step_page_get_wording (SW_STEP_PAGE (self));
  const SwTitration *titration = sw_guided_test_get_titration (test);
  double portion_ml = titration->portion_volume.value;
  g_autofree char *content
      = sw_say_content (wording, sw_guided_test_get_outcome (test)->net, titration->step_ml,
                        titration->titrant_mmol_ml, portion_ml);
  g_autofree char *threshold
      = sw_say_threshold (wording, titration->caustic_mmol, titration->caustic_counts, portion_ml);

  gtk_label_set_text (self->content, content);
  gtk_label_set_text (self->threshold, threshold != NULL ? threshold : "");
  gtk_widget_set_visible (GTK_WIDGET (self->threshold), threshold != NULL);
}

/* Only where an amount can be worked out is there an uncertainty budget. */
static void
show_dominant (SwResultPage *self, SwGuidedTest *test)
{
  const SwWording *wording = sw_step_page_get_wording (SW_STEP_PAGE (self));
  g_auto (SwDoseProposal) proposal = { 0 };
  g_autofree char *words = NULL;
  gboolean known = sw_guided_test_get_outcome (test)->kind == SW_OUTCOME_ACID_FOUND
                   && sw_guided_test_propose (test, 0.0, &proposal, NULL)
                   && proposal.refusal.code == SW_FACT_NONE && proposal.dose.budget.n > 0;

  if (known)
    words = sw_say_dominant (wording, &proposal.dose.budget);
  gtk_label_set_text (self->dominant,
                      known ? words : sw_say_test_word (wording, SW_TEST_WORD_NO_DOMINANT));
}

static void
show (SwStepPage *page)
{
  SwResultPage *self = SW_RESULT_PAGE (page);
  SwGuidedTest *test = sw_step_page_get_test (page);

  show_outcome (self, test);
  show_content (self, test);
  show_dominant (self, test);
  sw_step_page_set_default (page, self->next);
  gtk_widget_grab_focus (self->next);
}

static void
sw_result_page_class_init (SwResultPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  SW_STEP_PAGE_CLASS (klass)->show = show;
  g_type_ensure (SW_TYPE_CAUTION_BAR);
  g_type_ensure (SW_TYPE_VERDICT);
  g_type_ensure (SW_TYPE_INTERVAL_PICTURE);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/test/result-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwResultPage, caution);
  gtk_widget_class_bind_template_child (widget_class, SwResultPage, mark);
  gtk_widget_class_bind_template_child (widget_class, SwResultPage, bounds);
  gtk_widget_class_bind_template_child (widget_class, SwResultPage, sentence);
  gtk_widget_class_bind_template_child (widget_class, SwResultPage, picture);
  gtk_widget_class_bind_template_child (widget_class, SwResultPage, content);
  gtk_widget_class_bind_template_child (widget_class, SwResultPage, dominant_label);
  gtk_widget_class_bind_template_child (widget_class, SwResultPage, dominant);
  gtk_widget_class_bind_template_child (widget_class, SwResultPage, threshold);
  gtk_widget_class_bind_template_child (widget_class, SwResultPage, next);
  gtk_widget_class_bind_template_callback (widget_class, next_cb);
}

static void
sw_result_page_init (SwResultPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
