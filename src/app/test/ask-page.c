/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One page for the four moves that need a reason; a table says what each asks and does. */
#include "app/test/ask-page.h"

#include "app/test/answer-row.h"
#include "app/test/reason-row.h"

struct _SwAskPage
{
  SwStepPage parent_instance;

  SwAsk ask;

  /* Template children */
  GtkWidget *form;
  GtkLabel *words;
  SwAnswerRow *went_in;
  SwReasonRow *reason;
  GtkButton *go;
  GtkButton *cancel;
};

static const struct
{
  SwReasonKind reasons;
  SwTestWord title;
  SwTestWord words;
  SwTestWord button;
} asks[SW_N_ASKS] = {
  [SW_ASK_TAKE_BACK] = { SW_REASON_TAKE_BACK, SW_TEST_WORD_ASK_TAKE_BACK,
                         SW_TEST_WORD_ABOUT_TAKE_BACK, SW_TEST_WORD_GO_TAKE_BACK },
  [SW_ASK_FRESH_PORTION] = { SW_REASON_FRESH_PORTION, SW_TEST_WORD_ASK_FRESH,
                             SW_TEST_WORD_ABOUT_FRESH, SW_TEST_WORD_GO_FRESH },
  [SW_ASK_ABANDON] = { SW_REASON_ABANDON, SW_TEST_WORD_ASK_ABANDON, SW_TEST_WORD_ABOUT_ABANDON,
                       SW_TEST_WORD_GO_ABANDON },
  [SW_ASK_NOT_ADDED] = { SW_REASON_NOT_ADDED, SW_TEST_WORD_ASK_NOT_ADDED,
                         SW_TEST_WORD_ABOUT_NOT_ADDED, SW_TEST_WORD_GO_NOT_ADDED },
};

static guint signal_cancelled;

G_DEFINE_FINAL_TYPE (SwAskPage, sw_ask_page, SW_TYPE_STEP_PAGE)

static gboolean
move (SwAskPage *self, const char *reason, GError **error)
{
  SwGuidedTest *test = sw_step_page_get_test (SW_STEP_PAGE (self));

  switch (self->ask)
    {
    case SW_ASK_TAKE_BACK:
      return sw_guided_test_strike (test, sw_answer_row_get (self->went_in) == SW_ANSWER_NO, reason,
                                    error);
    case SW_ASK_FRESH_PORTION:
      return sw_guided_test_fresh_portion (test, reason, error);
    case SW_ASK_ABANDON:
      return sw_guided_test_abandon (test, reason, error);
    case SW_ASK_NOT_ADDED:
      return sw_guided_test_not_added (test, reason, error);
    case SW_N_ASKS:
    default:
      g_return_val_if_reached (FALSE);
    }
}

static void
go_cb (GtkButton *button, SwAskPage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  const SwWording *wording = sw_step_page_get_wording (page);
  const char *reason = sw_reason_row_get_text (self->reason);
  GError *error = NULL;
  gboolean moved;

  sw_step_page_clear_errors (page);
  if (gtk_widget_get_visible (GTK_WIDGET (self->went_in))
      && sw_answer_row_get (self->went_in) == SW_ANSWER_NONE)
    {
      sw_step_page_refuse_at (SW_STEP_PAGE (self), GTK_WIDGET (self->went_in),
                              sw_say_test_word (wording, SW_TEST_WORD_ANSWER_FIRST));
      return;
    }
  if (reason == NULL)
    {
      sw_step_page_refuse_at (SW_STEP_PAGE (self), GTK_WIDGET (self->reason),
                              sw_say_test_word (wording, SW_TEST_WORD_PICK_REASON));
      return;
    }
  moved = move (self, reason, &error);
  sw_step_page_settle (page, moved, error);
}

static void
cancel_cb (GtkButton *button, SwAskPage *self)
{
  g_signal_emit (self, signal_cancelled, 0);
}

/* Where nothing is in the flask there is nothing to ask about it. */
static void
fill (SwStepPage *page)
{
  SwAskPage *self = SW_ASK_PAGE (page);
  const SwWording *wording = sw_step_page_get_wording (page);
  gboolean ask_drops = self->ask == SW_ASK_TAKE_BACK
                       && sw_guided_test_get_total (sw_step_page_get_test (page)) > 0.0;

  sw_step_page_set_title (page, sw_say_test_word (wording, asks[self->ask].title));
  gtk_label_set_text (self->words, sw_say_test_word (wording, asks[self->ask].words));
  gtk_button_set_label (self->go, sw_say_test_word (wording, asks[self->ask].button));
  sw_answer_row_set (self->went_in, SW_ANSWER_NONE);
  gtk_widget_set_visible (GTK_WIDGET (self->went_in), ask_drops);
  sw_reason_row_fill (self->reason, wording, asks[self->ask].reasons);
  sw_step_page_set_default (page, GTK_WIDGET (self->go));
  gtk_widget_grab_focus (ask_drops ? GTK_WIDGET (self->went_in) : GTK_WIDGET (self->reason));
}

static void
sw_ask_page_class_init (SwAskPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  SW_STEP_PAGE_CLASS (klass)->fill = fill;
  signal_cancelled = g_signal_new ("cancelled", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0,
                                   NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (SW_TYPE_ANSWER_ROW);
  g_type_ensure (SW_TYPE_REASON_ROW);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/test/ask-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwAskPage, form);
  gtk_widget_class_bind_template_child (widget_class, SwAskPage, words);
  gtk_widget_class_bind_template_child (widget_class, SwAskPage, went_in);
  gtk_widget_class_bind_template_child (widget_class, SwAskPage, reason);
  gtk_widget_class_bind_template_child (widget_class, SwAskPage, go);
  gtk_widget_class_bind_template_child (widget_class, SwAskPage, cancel);
  gtk_widget_class_bind_template_callback (widget_class, go_cb);
  gtk_widget_class_bind_template_callback (widget_class, cancel_cb);
}

static void
sw_ask_page_init (SwAskPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  sw_step_page_add_place (SW_STEP_PAGE (self), SW_QUANTITY_REASON, SW_FACT_NONE,
                          GTK_WIDGET (self->reason));
  sw_step_page_add_place (SW_STEP_PAGE (self), SW_QUANTITY_NONE, SW_FACT_NONE,
                          GTK_WIDGET (self->went_in));
}

void
sw_ask_page_set (SwAskPage *self, SwAsk ask)
{
  g_return_if_fail (ask < SW_N_ASKS);
  self->ask = ask;
}
