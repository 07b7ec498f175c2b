/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the method asks for is shown; the person says which lots it came from.
 *
 * The portion and the lots come filled in: they are the method's and the bench's, not measured.
 */
#include "app/test/prepare-page.h"

#include "app/test/choice-row.h"
#include "app/test/lots.h"
#include "app/test/reason-row.h"
#include "app/widgets/caution.h"
#include "wording/sentence-test.h"

struct _SwPreparePage
{
  SwStepPage parent_instance;

  /* Template children */
  SwCautionBar *caution;
  SwFormRow *portion;
  GtkWidget *caustic_box;
  GtkLabel *caustic;
  GtkWidget *water_box;
  GtkLabel *water;
  GtkLabel *prompt;
  SwChoiceRow *titrant_lot;
  SwChoiceRow *caustic_lot;
  SwChoiceRow *strip_lot;
  SwReasonRow *lot_reason;
  SwChoiceRow *second_reader;
  GtkWidget *next;
};

G_DEFINE_FINAL_TYPE (SwPreparePage, sw_prepare_page, SW_TYPE_STEP_PAGE)

/* ---- moving on ---- */

static gboolean
check_reason (SwPreparePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);

  if (!gtk_widget_get_visible (GTK_WIDGET (self->lot_reason))
      || sw_reason_row_get_text (self->lot_reason) != NULL)
    return TRUE;
  sw_step_page_refuse_at (
      SW_STEP_PAGE (self), GTK_WIDGET (self->lot_reason),
      sw_say_test_word (sw_step_page_get_wording (page), SW_TEST_WORD_PICK_REASON));
  return FALSE;
}

static gboolean
check_reader (SwPreparePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);

  if (!gtk_widget_get_visible (GTK_WIDGET (self->second_reader))
      || sw_choice_row_get (self->second_reader) != 0)
    return TRUE;
  sw_step_page_refuse_at (
      SW_STEP_PAGE (self), GTK_WIDGET (self->second_reader),
      sw_say_test_word (sw_step_page_get_wording (page), SW_TEST_WORD_PICK_READER));
  return FALSE;
}

/* From the last to the first, so that the focus ends on the first that is wrong. */
static gboolean
check_choices (SwPreparePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  gboolean good = check_reader (self);

  good = check_reason (self) && good;
  good = sw_lots_check (page, self->strip_lot) && good;
  good = sw_lots_check (page, self->caustic_lot) && good;
  return sw_lots_check (page, self->titrant_lot) && good;
}

static void
prepare (SwPreparePage *self, SwPrepareEntry *entry)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  GError *error = NULL;
  gboolean moved;

  entry->titrant_lot = sw_choice_row_get (self->titrant_lot);
  entry->caustic_lot = sw_choice_row_get (self->caustic_lot);
  entry->strip_lot = sw_choice_row_get (self->strip_lot);
  if (gtk_widget_get_visible (GTK_WIDGET (self->lot_reason)))
    entry->lot_reason = sw_reason_row_get_text (self->lot_reason);
  if (gtk_widget_get_visible (GTK_WIDGET (self->second_reader)))
    entry->second_reader = sw_choice_row_get (self->second_reader);
  moved = sw_guided_test_prepare (sw_step_page_get_test (page), entry, &error);
  sw_step_page_settle (page, moved, error);
}

static void
next_cb (GtkButton *button, SwPreparePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  const SwMethodVersion *method = sw_guided_test_get_method (sw_step_page_get_test (page));
  SwPrepareEntry entry = { 0 };
  gboolean good;

  sw_step_page_clear_errors (page);
  good = check_choices (self);
  if (!sw_form_row_get_amount (self->portion, sw_step_page_get_wording (page),
                               SW_QUANTITY_SAMPLE_VOLUME, SW_UNIT_ML, TRUE, &entry.portion))
    {
      sw_step_page_refuse_at (page, GTK_WIDGET (self->portion), NULL);
      good = FALSE;
    }
  if (good
      && sw_step_page_second_look (page, self->portion, SW_QUANTITY_SAMPLE_VOLUME,
                                   entry.portion.value, method->sample.value, SW_UNIT_ML))
    prepare (self, &entry);
  g_free (entry.portion.typed);
}

/* ---- showing ---- */

static void
lot_changed_cb (SwChoiceRow *row, SwPreparePage *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self->lot_reason),
                          sw_choice_row_is_marked (self->titrant_lot)
                              || (gtk_widget_get_visible (GTK_WIDGET (self->caustic_lot))
                                  && sw_choice_row_is_marked (self->caustic_lot))
                              || sw_choice_row_is_marked (self->strip_lot));
}

static void
show_flask (SwPreparePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  const SwWording *wording = sw_step_page_get_wording (page);
  const SwMethodVersion *method = sw_guided_test_get_method (sw_step_page_get_test (page));
  g_autoptr (SwProduct) caustic = NULL;
  g_autofree char *addition = NULL;
  g_autofree char *water = NULL;

  if (method->caustic != 0)
    caustic = sw_product_load (sw_step_page_get_store (page), method->caustic, NULL);
  gtk_widget_set_visible (self->caustic_box, caustic != NULL);
  if (caustic != NULL)
    {
      addition = sw_say_amount_of (wording, method->caustic_volume.value, caustic->name);
      gtk_label_set_text (self->caustic, addition);
    }
  gtk_widget_set_visible (self->water_box, method->water.value > 0.0);
  if (method->water.value > 0.0)
    {
      water = sw_say_water (wording, method->water.value, method->water_kind);
      gtk_label_set_text (self->water, water);
    }
}

static void
fill_lots (SwPreparePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  SwGuidedTest *test = sw_step_page_get_test (page);
  const SwMethodVersion *method = sw_guided_test_get_method (test);
  const SwTitration *titration = sw_guided_test_get_titration (test);

  sw_lots_fill (page, self->titrant_lot, method->titrant, titration->titrant_lot);
  gtk_widget_set_visible (GTK_WIDGET (self->caustic_lot), method->caustic != 0);
  if (method->caustic != 0)
    sw_lots_fill (page, self->caustic_lot, method->caustic, titration->caustic_lot);
  gtk_widget_set_visible (GTK_WIDGET (self->strip_lot),
                          sw_lots_fill_strips (page, self->strip_lot, titration->strip_lot));
  sw_reason_row_fill (self->lot_reason, sw_step_page_get_wording (page), SW_REASON_EXPIRED_LOT);
  sw_reason_row_set_text (self->lot_reason, titration->lot_reason);
  lot_changed_cb (NULL, self);
}

/* Where the person's profile asks for a second reader: everybody else who is active. */
static void
fill_readers (SwPreparePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  SwStore *store = sw_step_page_get_store (page);
  gint64 own = sw_context_get_person (sw_step_page_get_context (page));
  g_autoptr (SwPerson) me = own != 0 ? sw_person_load (store, own, NULL) : NULL;
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_PERSON, NULL, 0, NULL);

  sw_choice_row_clear (self->second_reader, sw_step_page_get_wording (page));
  gtk_widget_set_visible (GTK_WIDGET (self->second_reader), me != NULL && me->second_reader);
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwPerson) person = sw_person_load (store, g_array_index (ids, gint64, i), NULL);

      if (person != NULL && person->active && person->record.id != own)
        sw_choice_row_add (self->second_reader, person->record.id, person->name, FALSE);
    }
  sw_choice_row_set (self->second_reader,
                     sw_guided_test_get_titration (sw_step_page_get_test (page))->second_reader);
}

static void
fill (SwStepPage *page)
{
  SwPreparePage *self = SW_PREPARE_PAGE (page);
  SwGuidedTest *test = sw_step_page_get_test (page);
  const SwWording *wording = sw_step_page_get_wording (page);
  const SwTitration *titration = sw_guided_test_get_titration (test);
  const SwMethodVersion *method = sw_guided_test_get_method (test);
  g_autofree char *text = sw_method_text_dup (sw_step_page_get_store (page), method->record.id,
                                              "prepare", sw_wording_get_language (wording), NULL);

  g_autofree char *caution
      = sw_method_text_dup (sw_step_page_get_store (page), method->record.id, "caution",
                            sw_wording_get_language (wording), NULL);

  gtk_label_set_text (self->prompt, text != NULL ? text : "");
  /* Without caustic in the flask its dangers are not those of this page. */
  sw_caution_bar_set (self->caution, wording,
                      method->caustic != 0 ? SW_CAUTION_PREPARE : SW_CAUTION_READ);
  sw_caution_bar_set_extra (self->caution, caution);
  if (titration->portion_volume.typed != NULL)
    sw_form_row_set_text (self->portion, titration->portion_volume.typed);
  else
    sw_form_row_set_number (self->portion, wording, method->sample.value);
  show_flask (self);
  fill_lots (self);
  fill_readers (self);
  sw_step_page_set_default (page, self->next);
  gtk_widget_grab_focus (GTK_WIDGET (self->portion));
}

static void
sw_prepare_page_class_init (SwPreparePageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  SW_STEP_PAGE_CLASS (klass)->fill = fill;
  g_type_ensure (SW_TYPE_CAUTION_BAR);
  g_type_ensure (SW_TYPE_CHOICE_ROW);
  g_type_ensure (SW_TYPE_REASON_ROW);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/test/prepare-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, caution);
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, portion);
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, caustic_box);
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, caustic);
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, water_box);
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, water);
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, prompt);
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, titrant_lot);
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, caustic_lot);
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, strip_lot);
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, lot_reason);
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, second_reader);
  gtk_widget_class_bind_template_child (widget_class, SwPreparePage, next);
  gtk_widget_class_bind_template_callback (widget_class, next_cb);
}

static void
sw_prepare_page_init (SwPreparePage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);

  gtk_widget_init_template (GTK_WIDGET (self));
  sw_step_page_add_place (page, SW_QUANTITY_SAMPLE_VOLUME, SW_FACT_NONE,
                          GTK_WIDGET (self->portion));
  sw_step_page_add_place (page, SW_QUANTITY_NONE, SW_FACT_LOT_MISSING,
                          GTK_WIDGET (self->titrant_lot));
  sw_step_page_add_place (page, SW_QUANTITY_REASON, SW_FACT_LOT_EXPIRED,
                          GTK_WIDGET (self->lot_reason));
  sw_step_page_add_place (page, SW_QUANTITY_NONE, SW_FACT_NONE, GTK_WIDGET (self->caustic_lot));
  sw_step_page_add_place (page, SW_QUANTITY_NONE, SW_FACT_NONE, GTK_WIDGET (self->strip_lot));
  sw_step_page_add_place (page, SW_QUANTITY_NAME, SW_FACT_NONE, GTK_WIDGET (self->second_reader));
  g_signal_connect (self->titrant_lot, "changed", G_CALLBACK (lot_changed_cb), self);
  g_signal_connect (self->caustic_lot, "changed", G_CALLBACK (lot_changed_cb), self);
  g_signal_connect (self->strip_lot, "changed", G_CALLBACK (lot_changed_cb), self);
}
