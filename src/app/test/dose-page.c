/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The amount follows the extra neutraliser as it is typed; workflow works it out.
 *
 *   extra empty    the amount up to the end point, said to be without extra
 *   extra wrong    no amount at all: a figure that does not belong to what is typed is never shown
 *   extra fine     the amount with it
 *
 * A refusal of workflow takes the place of everything: then only "without a dose" is left.
 */
#include "app/test/dose-page.h"

#include "app/sign/sign-box.h"
#include "app/test/dose-view.h"
#include "app/test/reason-row.h"
#include "app/test/tag.h"
#include "app/widgets/caution.h"
#include "app/widgets/verdict.h"
#include "wording/sentence-sign.h"
#include "wording/sentence-test.h"

struct _SwDosePage
{
  SwStepPage parent_instance;

  /* Template children */
  GtkWidget *refusal;
  GtkLabel *refusal_words;
  GtkLabel *refusal_advice;
  GtkWidget *proposal;
  SwCautionBar *caution;
  GtkLabel *amount;
  GtkLabel *where;
  GtkLabel *split;
  GtkLabel *arithmetic;
  GtkLabel *per_step;
  GtkLabel *bounds;
  GtkLabel *best;
  GtkLabel *supplier;
  GtkLabel *last_dose;
  GtkLabel *threshold;
  SwFormRow *extra;
  SwReasonRow *extra_reason;
  GtkWidget *release_box;
  GtkLabel *release_words;
  SwFormRow *tag;
  GtkWidget *accept;
  GtkWidget *no_dose;
  GtkWidget *after;

  double measure_ml; /* as shown */
};

G_DEFINE_FINAL_TYPE (SwDosePage, sw_dose_page, SW_TYPE_STEP_PAGE)

static const SwWording *
get_wording (SwDosePage *self)
{
  return sw_step_page_get_wording (SW_STEP_PAGE (self));
}

/* ---- showing ---- */

/* Takes @text. An empty line takes no room. */
static void
take_line (GtkLabel *label, char *text)
{
  gtk_label_set_text (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL);
  g_free (text);
}

static void
show_refusal (SwDosePage *self, const SwFact *refusal)
{
  gboolean refused = refusal->code != SW_FACT_NONE;
  g_autofree char *words = NULL;

  gtk_widget_set_visible (self->refusal, refused);
  gtk_widget_set_visible (self->proposal, !refused);
  gtk_widget_set_visible (self->accept, !refused);
  gtk_widget_set_visible (self->after, !refused);
  sw_step_page_set_default (SW_STEP_PAGE (self), refused ? self->no_dose : self->accept);
  if (!refused)
    return;
  words = sw_say_fact (get_wording (self), refusal);
  gtk_label_set_text (self->refusal_words, words);
  gtk_label_set_text (self->refusal_advice,
                      sw_say_no_dose_advice (get_wording (self), refusal->code));
  gtk_widget_grab_focus (self->no_dose);
}

static void
show_release (SwDosePage *self, const SwFact *release)
{
  gtk_widget_set_visible (self->release_box, release->code != SW_FACT_NONE);
  take_line (self->release_words,
             release->code != SW_FACT_NONE ? sw_say_fact (get_wording (self), release) : NULL);
}

/* No amount belongs to what is typed. */
static void
show_no_amount (SwDosePage *self)
{
  gtk_label_set_text (self->amount, "–");
  gtk_widget_set_sensitive (self->accept, FALSE);
  take_line (self->arithmetic,
             g_strdup (sw_say_test_word (get_wording (self), SW_TEST_WORD_EXTRA_WRONG)));
  take_line (self->split, NULL);
  take_line (self->supplier, NULL);
}

static void
show_amount (SwDosePage *self, const SwDoseProposal *proposal)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  const SwWording *wording = get_wording (self);
  gboolean burette = sw_guided_test_get_method (sw_step_page_get_test (page))->burette;
  g_autofree char *amount = sw_volume_format (wording, proposal->dose.measure_ml);
  g_autofree char *button = sw_say_dose_button (wording, proposal->dose.measure_ml);

  self->measure_ml = proposal->dose.measure_ml;
  gtk_label_set_text (self->amount, amount);
  gtk_button_set_label (GTK_BUTTON (self->accept), button);
  gtk_widget_set_sensitive (self->accept, TRUE);
  take_line (self->where, sw_dose_words_where (page, proposal));
  take_line (self->split, sw_dose_words_split (page, proposal));
  take_line (self->arithmetic, sw_dose_words_arithmetic (page, proposal));
  take_line (self->per_step, sw_say_per_step (wording, proposal->dose.per_step_ml, burette));
  take_line (self->bounds, sw_say_dose_bounds (wording, &proposal->dose));
  take_line (self->best, sw_say_dose_best (wording, &proposal->dose, proposal->likely_ml));
  take_line (self->supplier, sw_dose_words_supplier (page, proposal));
  take_line (self->last_dose, sw_dose_words_last (page, proposal));
  take_line (self->threshold, sw_dose_words_threshold (page));
  show_release (self, &proposal->release);
}

/* Works the dose out with @extra and shows it; a fault about the extra goes to its row. */
static void
propose (SwDosePage *self, double extra)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  g_auto (SwDoseProposal) proposal = { 0 };
  GError *error = NULL;

  if (!sw_guided_test_propose (sw_step_page_get_test (page), extra, &proposal, &error))
    {
      show_no_amount (self);
      sw_step_page_settle (page, FALSE, error);
      return;
    }
  show_refusal (self, &proposal.refusal);
  if (proposal.refusal.code == SW_FACT_NONE)
    show_amount (self, &proposal);
}

/* ---- extra neutraliser ---- */

/* FALSE with the error at its row. Empty gives NAN unless @needed. */
static gboolean
read_extra (SwDosePage *self, gboolean needed, double *extra)
{
  SwAmount amount = { .value = NAN };
  gboolean good = sw_form_row_get_amount (self->extra, get_wording (self), SW_QUANTITY_EXTRA,
                                          SW_UNIT_STEP, needed, &amount);

  *extra = amount.value;
  g_free (amount.typed);
  return good;
}

static void
extra_changed_cb (SwFormRow *row, GParamSpec *pspec, SwDosePage *self)
{
  double extra;
  gboolean good;

  if (sw_step_page_get_test (SW_STEP_PAGE (self)) == NULL)
    return;
  sw_step_page_set_message (SW_STEP_PAGE (self), NULL);
  good = read_extra (self, FALSE, &extra);
  gtk_widget_set_visible (GTK_WIDGET (self->extra_reason), good && extra > 0.0);
  if (good)
    propose (self, extra);
  else
    show_no_amount (self);
}

/* ---- moving on ---- */

static gboolean
check_reason (SwDosePage *self)
{
  if (!gtk_widget_get_visible (GTK_WIDGET (self->extra_reason))
      || sw_reason_row_get_text (self->extra_reason) != NULL)
    return TRUE;
  sw_step_page_refuse_at (SW_STEP_PAGE (self), GTK_WIDGET (self->extra_reason),
                          sw_say_test_word (get_wording (self), SW_TEST_WORD_PICK_REASON));
  return FALSE;
}

static void
decide (SwDosePage *self, double extra, const SwSigner *release)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  const char *reason = gtk_widget_get_visible (GTK_WIDGET (self->extra_reason))
                           ? sw_reason_row_get_text (self->extra_reason)
                           : NULL;
  GError *error = NULL;
  gboolean moved
      = sw_guided_test_decide_dose (sw_step_page_get_test (page), extra, reason, release, &error);

  sw_step_page_settle (page, moved, error);
}

/* Given up: the page stays as it is. The test may have gone with the page below the box. */
static void
released_cb (const SwSigner *signer, gpointer data)
{
  g_autoptr (SwDosePage) self = data;
  double extra;

  if (signer != NULL && sw_step_page_get_test (SW_STEP_PAGE (self)) != NULL
      && read_extra (self, TRUE, &extra))
    decide (self, extra, signer);
}

static void
ask_release (SwDosePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  SwGuidedTest *test = sw_step_page_get_test (page);
  const SwMachine *machine = sw_guided_test_get_machine (test);
  g_autofree char *name = sw_say_machine (get_wording (self), machine->tag, machine->name);
  g_autofree char *subject = sw_say_dose_subject (get_wording (self), self->measure_ml, name);
  const SwSignRequest request = { .meaning = SW_MEANING_RELEASED,
                                  .subject = subject,
                                  .not_person = sw_guided_test_get_titration (test)->analyst };

  sw_sign_ask (GTK_WIDGET (self), sw_step_page_get_context (page), &request, released_cb,
               g_object_ref (self));
}

/* From the last field to the first, so that the focus ends on the first that is wrong. */
static void
accept_cb (GtkButton *button, SwDosePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  double usual = sw_guided_test_get_outcome (sw_step_page_get_test (page))->pass_at;
  double extra;
  gboolean good;

  sw_step_page_clear_errors (page);
  good = sw_tag_confirm (page, self->tag);
  good = check_reason (self) && good;
  if (!read_extra (self, TRUE, &extra))
    {
      sw_step_page_refuse_at (page, GTK_WIDGET (self->extra), NULL);
      good = FALSE;
    }
  /* A small extra is usual; ten times the end point is not. */
  if (good
      && (extra <= usual
          || sw_step_page_second_look (page, self->extra, SW_QUANTITY_EXTRA, extra, usual,
                                       SW_UNIT_STEP)))
    {
      if (gtk_widget_get_visible (self->release_box))
        ask_release (self);
      else
        decide (self, extra, NULL);
    }
}

static void
no_dose_cb (GtkButton *button, SwDosePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  GError *error = NULL;
  gboolean moved = sw_guided_test_no_dose (sw_step_page_get_test (page), &error);

  sw_step_page_settle (page, moved, error);
}

static void
fill (SwStepPage *page)
{
  SwDosePage *self = SW_DOSE_PAGE (page);

  sw_caution_bar_set (self->caution, get_wording (self), SW_CAUTION_DOSE);
  sw_reason_row_fill (self->extra_reason, get_wording (self), SW_REASON_EXTRA);
  sw_form_row_set_text (self->tag, NULL);
  sw_form_row_set_text (self->extra, NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->extra_reason), FALSE);
  gtk_widget_grab_focus (GTK_WIDGET (self->extra));
  propose (self, NAN);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, refusal);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, refusal_words);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, refusal_advice);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, proposal);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, caution);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, amount);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, where);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, split);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, arithmetic);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, per_step);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, bounds);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, best);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, supplier);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, last_dose);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, threshold);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, extra);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, extra_reason);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, release_box);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, release_words);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, tag);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, accept);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, no_dose);
  gtk_widget_class_bind_template_child (widget_class, SwDosePage, after);
  gtk_widget_class_bind_template_callback (widget_class, accept_cb);
  gtk_widget_class_bind_template_callback (widget_class, no_dose_cb);
}

static void
sw_dose_page_class_init (SwDosePageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  SW_STEP_PAGE_CLASS (klass)->fill = fill;
  g_type_ensure (SW_TYPE_CAUTION_BAR);
  g_type_ensure (SW_TYPE_VERDICT);
  g_type_ensure (SW_TYPE_REASON_ROW);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/test/dose-page.ui");
  bind_children (widget_class);
}

static void
sw_dose_page_init (SwDosePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);

  gtk_widget_init_template (GTK_WIDGET (self));
  sw_step_page_add_place (page, SW_QUANTITY_EXTRA, SW_FACT_NONE, GTK_WIDGET (self->extra));
  sw_step_page_add_place (page, SW_QUANTITY_REASON, SW_FACT_NONE, GTK_WIDGET (self->extra_reason));
  sw_step_page_add_place (page, SW_QUANTITY_NONE, SW_FACT_NONE, GTK_WIDGET (self->tag));
  g_signal_connect (self->extra, "notify::text", G_CALLBACK (extra_changed_cb), self);
}
