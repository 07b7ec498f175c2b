/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The machine is locked for other doses until one of the answers is given.
 *
 * The amount is never prefilled with the one worked out: the record says what left the jug.
 */
#include "app/test/added-page.h"

#include "app/test/answer-row.h"
#include "app/test/ask-page.h"
#include "app/test/choice-row.h"
#include "app/test/lots.h"
#include "app/test/reason-row.h"
#include "app/widgets/caution.h"
#include "wording/sentence-test.h"

struct _SwAddedPage
{
  SwStepPage parent_instance;

  /* Template children */
  GtkLabel *amount;
  GtkLabel *where;
  GtkLabel *lapsed;
  SwCautionBar *caution;
  SwFormRow *added;
  SwAnswerRow *when;
  SwFormRow *time;
  SwChoiceRow *lot;
  SwReasonRow *lot_reason;
  GtkWidget *record;
  GtkWidget *nobody;
  GtkWidget *nobody_knows;
  GtkWidget *later;
};

G_DEFINE_FINAL_TYPE (SwAddedPage, sw_added_page, SW_TYPE_STEP_PAGE)

static const SwWording *
get_wording (SwAddedPage *self)
{
  return sw_step_page_get_wording (SW_STEP_PAGE (self));
}

/* ---- reading the form, from the last field to the first ---- */

static gboolean
check_reason (SwAddedPage *self)
{
  if (!gtk_widget_get_visible (GTK_WIDGET (self->lot_reason))
      || sw_reason_row_get_text (self->lot_reason) != NULL)
    return TRUE;
  sw_step_page_refuse_at (SW_STEP_PAGE (self), GTK_WIDGET (self->lot_reason),
                          sw_say_test_word (get_wording (self), SW_TEST_WORD_PICK_REASON));
  return FALSE;
}

/* 0 for now. */
static gboolean
read_time (SwAddedPage *self, gint64 *added_ms)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  SwAnswer now = sw_answer_row_get (self->when);
  GError *error = NULL;

  *added_ms = 0;
  if (now == SW_ANSWER_YES)
    return TRUE;
  if (now == SW_ANSWER_NONE)
    {
      sw_step_page_refuse_at (SW_STEP_PAGE (self), GTK_WIDGET (self->when),
                              sw_say_test_word (get_wording (self), SW_TEST_WORD_ANSWER_FIRST));
      return FALSE;
    }
  if (sw_clock_parse (sw_form_row_get_text (self->time), sw_wording_get_zone (get_wording (self)),
                      sw_context_now (sw_step_page_get_context (page)), added_ms, &error))
    return TRUE;
  return sw_step_page_settle (page, FALSE, error);
}

static gboolean
read_entry (SwAddedPage *self, SwAddedEntry *entry)
{
  gboolean good = check_reason (self);

  good = sw_lots_check (SW_STEP_PAGE (self), self->lot) && good;
  good = read_time (self, &entry->added_ms) && good;
  if (!sw_form_row_get_amount (self->added, get_wording (self), SW_QUANTITY_ADDED_AMOUNT,
                               SW_UNIT_ML, TRUE, &entry->added))
    {
      sw_step_page_refuse_at (SW_STEP_PAGE (self), GTK_WIDGET (self->added), NULL);
      return FALSE;
    }
  return good;
}

/* ---- answers ---- */

static void
write_entry (SwAddedPage *self, SwAddedEntry *entry)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  GError *error = NULL;
  gboolean moved;

  entry->lot = sw_choice_row_get (self->lot);
  if (gtk_widget_get_visible (GTK_WIDGET (self->lot_reason)))
    entry->lot_reason = sw_reason_row_get_text (self->lot_reason);
  moved = sw_guided_test_record_added (sw_step_page_get_test (page), entry, &error);
  sw_step_page_settle (page, moved, error);
}

static void
record_cb (GtkButton *button, SwAddedPage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  const SwDoseRow *dose = sw_guided_test_get_dose (sw_step_page_get_test (page));
  SwAddedEntry entry = { 0 };

  sw_step_page_clear_errors (page);
  if (read_entry (self, &entry)
      && sw_step_page_second_look (page, self->added, SW_QUANTITY_ADDED_AMOUNT, entry.added.value,
                                   dose->measured_ml, SW_UNIT_ML))
    write_entry (self, &entry);
  g_free (entry.added.typed);
}

static void
nobody_cb (GtkButton *button, SwAddedPage *self)
{
  sw_step_page_ask (SW_STEP_PAGE (self), SW_ASK_NOT_ADDED);
}

static void
nobody_knows_cb (GtkButton *button, SwAddedPage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  GError *error = NULL;
  gboolean moved = sw_guided_test_not_known (sw_step_page_get_test (page), &error);

  sw_step_page_settle (page, moved, error);
}

static void
later_cb (GtkButton *button, SwAddedPage *self)
{
  sw_step_page_leave (SW_STEP_PAGE (self));
}

/* ---- showing ---- */

static void
lot_changed_cb (SwChoiceRow *row, SwAddedPage *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self->lot_reason), sw_choice_row_is_marked (self->lot));
}

static void
when_changed_cb (SwAnswerRow *row, SwAddedPage *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self->time), sw_answer_row_get (row) == SW_ANSWER_NO);
}

static void
show_amount (SwAddedPage *self, const SwDoseRow *dose)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  const SwWording *wording = get_wording (self);
  const SwFact fact = sw_fact (SW_FACT_NO_DOSE_LAPSED);
  g_autofree char *amount = sw_volume_format (wording, dose->measured_ml);
  g_autofree char *lapsed = sw_say_fact (wording, &fact);
  g_autofree char *where = NULL;
  g_autoptr (SwProduct) product
      = sw_product_load (sw_step_page_get_store (page), dose->product, NULL);

  if (product != NULL)
    where = sw_say_dose_where (wording, product->name, dose->place);
  gtk_label_set_text (self->amount, amount);
  gtk_label_set_text (self->where, where != NULL ? where : "");
  gtk_label_set_text (self->lapsed, lapsed);
  gtk_widget_set_visible (GTK_WIDGET (self->lapsed), dose->state == SW_DOSE_LAPSED);
}

static void
fill (SwStepPage *page)
{
  SwAddedPage *self = SW_ADDED_PAGE (page);
  const SwDoseRow *dose = sw_guided_test_get_dose (sw_step_page_get_test (page));

  show_amount (self, dose);
  sw_caution_bar_set (self->caution, get_wording (self), SW_CAUTION_DOSE);
  sw_form_row_set_text (self->added, NULL);
  sw_form_row_set_text (self->time, NULL);
  sw_answer_row_set (self->when, SW_ANSWER_NONE);
  sw_lots_fill (page, self->lot, dose->product, 0);
  sw_reason_row_fill (self->lot_reason, get_wording (self), SW_REASON_EXPIRED_LOT);
  lot_changed_cb (self->lot, self);
  when_changed_cb (self->when, self);
  sw_step_page_set_default (page, self->record);
  gtk_widget_grab_focus (GTK_WIDGET (self->added));
}

static void
sw_added_page_class_init (SwAddedPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  SW_STEP_PAGE_CLASS (klass)->fill = fill;
  g_type_ensure (SW_TYPE_CAUTION_BAR);
  g_type_ensure (SW_TYPE_ANSWER_ROW);
  g_type_ensure (SW_TYPE_CHOICE_ROW);
  g_type_ensure (SW_TYPE_REASON_ROW);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/test/added-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, amount);
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, where);
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, lapsed);
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, caution);
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, added);
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, when);
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, time);
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, lot);
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, lot_reason);
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, record);
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, nobody);
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, nobody_knows);
  gtk_widget_class_bind_template_child (widget_class, SwAddedPage, later);
  gtk_widget_class_bind_template_callback (widget_class, record_cb);
  gtk_widget_class_bind_template_callback (widget_class, nobody_cb);
  gtk_widget_class_bind_template_callback (widget_class, nobody_knows_cb);
  gtk_widget_class_bind_template_callback (widget_class, later_cb);
}

static void
sw_added_page_init (SwAddedPage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);

  gtk_widget_init_template (GTK_WIDGET (self));
  sw_step_page_add_place (page, SW_QUANTITY_ADDED_AMOUNT, SW_FACT_NONE, GTK_WIDGET (self->added));
  sw_step_page_add_place (page, SW_QUANTITY_DATE, SW_FACT_NO_DOSE_LAPSED, GTK_WIDGET (self->time));
  sw_step_page_add_place (page, SW_QUANTITY_NONE, SW_FACT_NONE, GTK_WIDGET (self->when));
  sw_step_page_add_place (page, SW_QUANTITY_NONE, SW_FACT_LOT_MISSING, GTK_WIDGET (self->lot));
  sw_step_page_add_place (page, SW_QUANTITY_REASON, SW_FACT_LOT_EXPIRED,
                          GTK_WIDGET (self->lot_reason));
  g_signal_connect (self->lot, "changed", G_CALLBACK (lot_changed_cb), self);
  g_signal_connect (self->when, "changed", G_CALLBACK (when_changed_cb), self);
}
