/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The record as it will be signed.
 *
 * What can still change has its button: the readings. What was drawn and what is in the flask are
 * what the readings were made with; other ones need a fresh portion, which the menu offers.
 */
#include "app/test/check-page.h"

#include "app/sign/sign-box.h"
#include "app/test/ladder.h"
#include "app/widgets/verdict.h"
#include "wording/sentence-sign.h"
#include "wording/sentence-test.h"

struct _SwCheckPage
{
  SwStepPage parent_instance;

  int row; /* next free line while lines is filled */

  /* Template children */
  GtkGrid *lines;
  SwVerdict *mark;
  GtkLabel *sentence;
  GtkLabel *content;
  GtkLabel *threshold;
  GtkWidget *change;
  SwLadder *ladder;
  GtkWidget *sign;
  GtkLabel *signature;
};

G_DEFINE_FINAL_TYPE (SwCheckPage, sw_check_page, SW_TYPE_STEP_PAGE)

static const SwTestWord answer_words[SW_N_ANSWERS] = {
  [SW_ANSWER_NONE] = SW_TEST_WORD_NONE_GIVEN,
  [SW_ANSWER_YES] = SW_TEST_WORD_YES,
  [SW_ANSWER_NO] = SW_TEST_WORD_NO,
  [SW_ANSWER_UNKNOWN] = SW_TEST_WORD_NOT_KNOWN,
};

static const SwTestWord purpose_words[SW_N_PURPOSES] = {
  [SW_PURPOSE_ROUTINE] = SW_TEST_WORD_ROUTINE,
  [SW_PURPOSE_RETEST] = SW_TEST_WORD_RETEST,
  [SW_PURPOSE_CONTROL] = SW_TEST_WORD_CONTROL,
  [SW_PURPOSE_DUPLICATE] = SW_TEST_WORD_DUPLICATE,
};

static const SwWording *
get_wording (SwCheckPage *self)
{
  return sw_step_page_get_wording (SW_STEP_PAGE (self));
}

/* ---- moves ---- */

/* Given up: the page stays as it is. The test may have gone with the page below the box. */
static void
signed_cb (const SwSigner *signer, gpointer data)
{
  g_autoptr (SwStepPage) page = data;
  SwGuidedTest *test = sw_step_page_get_test (page);
  GError *error = NULL;
  gboolean moved;

  if (signer == NULL || test == NULL)
    return;
  moved = sw_guided_test_sign (test, signer, &error);
  sw_step_page_settle (page, moved, error);
}

static void
sign_cb (GtkButton *button, SwCheckPage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  SwContext *context = sw_step_page_get_context (page);
  const SwSample *sample = sw_guided_test_get_sample (sw_step_page_get_test (page));
  g_autofree char *subject = sw_say_test_subject (get_wording (self), sample->code);
  const SwSignRequest request = { .meaning = SW_MEANING_PERFORMED,
                                  .subject = subject,
                                  .person = sw_context_get_person (context) };

  sw_sign_ask (GTK_WIDGET (self), context, &request, signed_cb, g_object_ref (page));
}

/* Back to Read, over Result where there was one. */
static void
change_cb (GtkButton *button, SwCheckPage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  SwGuidedTest *test = sw_step_page_get_test (page);
  GError *error = NULL;
  gboolean moved = TRUE;

  while (moved && sw_guided_test_get_step (test) > SW_STEP_READ)
    moved = sw_guided_test_back (test, &error);
  /* One page back is a move too, when the next one failed. */
  sw_step_page_settle (page, sw_guided_test_get_step (test) != SW_STEP_CHECK, error);
}

/* ---- lines ---- */

static const char *
get_word (SwCheckPage *self, SwTestWord word)
{
  return sw_say_test_word (get_wording (self), word);
}

static GtkWidget *
attach_label (SwCheckPage *self, const char *text, const char *style, int column)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0F);
  gtk_label_set_yalign (GTK_LABEL (label), 0.0F);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, style);
  gtk_grid_attach (self->lines, label, column, self->row, 1, 1);
  return label;
}

/* A line with nothing in it says so. */
static void
add_line (SwCheckPage *self, SwTestWord name, const char *value)
{
  GtkWidget *label;

  if (value == NULL || *value == '\0')
    value = get_word (self, SW_TEST_WORD_NONE_GIVEN);
  attach_label (self, get_word (self, name), "sw-dim", 0);
  label = attach_label (self, value, "sw-bold", 1);
  gtk_widget_set_hexpand (label, TRUE);
  self->row++;
}

static void
add_amount (SwCheckPage *self, SwTestWord name, const SwAmount *amount, SwUnit unit)
{
  g_autofree char *text = NULL;

  if (!isnan (amount->value))
    text = sw_amount_format (get_wording (self), amount->value, unit, 6);
  add_line (self, name, text);
}

static void
add_lot (SwCheckPage *self, SwTestWord name, gint64 id)
{
  g_autoptr (SwLot) lot = NULL;
  g_autofree char *text = NULL;
  SwStepPage *page = SW_STEP_PAGE (self);

  if (id == 0)
    return;
  lot = sw_lot_load (sw_step_page_get_store (page), id, NULL);
  if (lot != NULL)
    text = sw_say_lot (get_wording (self), lot->code, lot->expires_ms,
                       sw_context_now (sw_step_page_get_context (page)));
  add_line (self, name, text);
}

static const char *
find_point (SwGuidedTest *test, gint64 id)
{
  GPtrArray *points = sw_guided_test_get_points (test);

  for (guint i = 0; i < points->len; i++)
    {
      const SwSamplingPoint *point = g_ptr_array_index (points, i);

      if (point->record.id == id)
        return point->name;
    }
  return NULL;
}

static void
add_sample (SwCheckPage *self, SwGuidedTest *test)
{
  const SwSample *sample = sw_guided_test_get_sample (test);
  g_autofree char *drawn = sw_date_time_format (get_wording (self), sample->record.happened_ms);

  add_line (self, SW_TEST_WORD_LINE_PURPOSE, get_word (self, purpose_words[sample->purpose]));
  add_line (self, SW_TEST_WORD_LINE_DRAWN, drawn);
  add_line (self, SW_TEST_WORD_LINE_POINT, find_point (test, sample->point));
  add_line (self, SW_TEST_WORD_LINE_RUNNING, get_word (self, answer_words[sample->running]));
  add_line (self, SW_TEST_WORD_LINE_LEVEL, get_word (self, answer_words[sample->level_ok]));
  add_line (self, SW_TEST_WORD_LINE_ADDED, get_word (self, answer_words[sample->added_since]));
  add_amount (self, SW_TEST_WORD_LINE_VOLUME, &sample->volume, SW_UNIT_ML);
  add_amount (self, SW_TEST_WORD_LINE_TEMPERATURE, &sample->temperature, SW_UNIT_CELSIUS);
  add_line (self, SW_TEST_WORD_LINE_APPEARANCE, sample->appearance);
  add_line (self, SW_TEST_WORD_LINE_RETAINED,
            get_word (self, sample->retained ? SW_TEST_WORD_YES : SW_TEST_WORD_NO));
  add_line (self, SW_TEST_WORD_LINE_REMARKS, sample->remarks);
}

static void
add_flask (SwCheckPage *self, SwGuidedTest *test)
{
  const SwTitration *titration = sw_guided_test_get_titration (test);
  g_autoptr (SwMethod) method = sw_method_load (sw_step_page_get_store (SW_STEP_PAGE (self)),
                                                sw_guided_test_get_method (test)->method, NULL);

  add_line (self, SW_TEST_WORD_LINE_METHOD, method != NULL ? method->name : NULL);
  add_amount (self, SW_TEST_WORD_LINE_PORTION, &titration->portion_volume, SW_UNIT_ML);
  add_lot (self, SW_TEST_WORD_LINE_TITRANT_LOT, titration->titrant_lot);
  add_lot (self, SW_TEST_WORD_LINE_CAUSTIC_LOT, titration->caustic_lot);
  add_lot (self, SW_TEST_WORD_LINE_STRIP_LOT, titration->strip_lot);
  if (titration->lot_reason != NULL)
    add_line (self, SW_TEST_WORD_LINE_LOT_REASON, titration->lot_reason);
}

/* ---- showing ---- */

static void
show_result (SwCheckPage *self, SwGuidedTest *test)
{
  const SwWording *wording = get_wording (self);
  const SwOutcome *outcome = sw_guided_test_get_outcome (test);
  const SwTitration *titration = sw_guided_test_get_titration (test);
  double portion_ml = titration->portion_volume.value;
  g_autofree char *sentence
      = sw_say_result (wording, outcome, sw_guided_test_get_method (test)->burette);
  g_autofree char *content = sw_say_content (wording, outcome->net, titration->step_ml,
                                             titration->titrant_mmol_ml, portion_ml);
  g_autofree char *threshold
      = sw_say_threshold (wording, titration->caustic_mmol, titration->caustic_counts, portion_ml);

  sw_verdict_set_kind (self->mark, sw_verdict_of_outcome (outcome->kind));
  gtk_label_set_text (self->sentence, sentence);
  gtk_label_set_text (self->content, content);
  gtk_widget_set_visible (GTK_WIDGET (self->content), !isnan (titration->titrant_mmol_ml));
  gtk_label_set_text (self->threshold, threshold != NULL ? threshold : "");
  gtk_widget_set_visible (GTK_WIDGET (self->threshold), threshold != NULL);
  sw_ladder_show (self->ladder, wording, test, FALSE);
}

static void
show_signature (SwCheckPage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  gint64 id = sw_context_get_person (sw_step_page_get_context (page));
  g_autoptr (SwPerson) person
      = id != 0 ? sw_person_load (sw_step_page_get_store (page), id, NULL) : NULL;
  g_autofree char *words = NULL;

  if (person != NULL)
    words = sw_say_signature (get_wording (self), person->name);
  gtk_label_set_text (self->signature,
                      words != NULL ? words : get_word (self, SW_TEST_WORD_PICK_PERSON));
  gtk_widget_set_sensitive (self->sign, person != NULL);
}

static void
show (SwStepPage *page)
{
  SwCheckPage *self = SW_CHECK_PAGE (page);
  SwGuidedTest *test = sw_step_page_get_test (page);
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->lines))) != NULL)
    gtk_grid_remove (self->lines, child);
  self->row = 0;
  add_sample (self, test);
  add_flask (self, test);
  show_result (self, test);
  show_signature (self);
  gtk_widget_set_visible (
      self->change, sw_guided_test_can (test, SW_MOVE_BACK,
                                        sw_context_now (sw_step_page_get_context (page)), NULL));
  sw_step_page_set_default (page, self->sign);
  gtk_widget_grab_focus (self->sign);
}

static void
sw_check_page_class_init (SwCheckPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  SW_STEP_PAGE_CLASS (klass)->show = show;
  g_type_ensure (SW_TYPE_VERDICT);
  g_type_ensure (SW_TYPE_LADDER);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/test/check-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwCheckPage, lines);
  gtk_widget_class_bind_template_child (widget_class, SwCheckPage, mark);
  gtk_widget_class_bind_template_child (widget_class, SwCheckPage, sentence);
  gtk_widget_class_bind_template_child (widget_class, SwCheckPage, content);
  gtk_widget_class_bind_template_child (widget_class, SwCheckPage, threshold);
  gtk_widget_class_bind_template_child (widget_class, SwCheckPage, change);
  gtk_widget_class_bind_template_child (widget_class, SwCheckPage, ladder);
  gtk_widget_class_bind_template_child (widget_class, SwCheckPage, sign);
  gtk_widget_class_bind_template_child (widget_class, SwCheckPage, signature);
  gtk_widget_class_bind_template_callback (widget_class, sign_cb);
  gtk_widget_class_bind_template_callback (widget_class, change_cb);
}

static void
sw_check_page_init (SwCheckPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
