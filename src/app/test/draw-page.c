/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the record needs before anything is measured.
 *
 * Nothing is taken over from an earlier test: a number that is there already is not looked at. Only
 * when the person comes Back, what was typed for this very sample is shown again.
 */
#include "app/test/draw-page.h"

#include "app/test/answer-row.h"
#include "app/test/point-list.h"
#include "app/test/tag.h"
#include "app/widgets/caution.h"
#include "wording/sentence-test.h"

struct _SwDrawPage
{
  SwStepPage parent_instance;

  /* Template children */
  SwCautionBar *caution;
  SwFormRow *tag;
  SwAnswerRow *running;
  SwAnswerRow *level_ok;
  SwAnswerRow *added_since;
  SwPointList *points;
  SwFormRow *volume;
  SwFormRow *temperature;
  SwFormRow *appearance;
  GtkCheckButton *retained;
  SwFormRow *remarks;
  GtkWidget *next;
  GtkLabel *next_words;
};

G_DEFINE_FINAL_TYPE (SwDrawPage, sw_draw_page, SW_TYPE_STEP_PAGE)

/* ---- what is missing ---- */

static gboolean
check_answer (SwDrawPage *self, SwAnswerRow *row)
{
  if (sw_answer_row_get (row) != SW_ANSWER_NONE)
    return TRUE;
  sw_step_page_refuse_at (
      SW_STEP_PAGE (self), GTK_WIDGET (row),
      sw_say_test_word (sw_step_page_get_wording (SW_STEP_PAGE (self)), SW_TEST_WORD_ANSWER_FIRST));
  return FALSE;
}

static gboolean
check_point (SwDrawPage *self)
{
  if (sw_point_list_get (self->points) != 0)
    return TRUE;
  sw_step_page_refuse_at (
      SW_STEP_PAGE (self), GTK_WIDGET (self->points),
      sw_say_test_word (sw_step_page_get_wording (SW_STEP_PAGE (self)), SW_TEST_WORD_PICK_POINT));
  return FALSE;
}

/* All that is wrong is marked at once; the focus goes to the first, which is checked last. */
static gboolean
check_words (SwDrawPage *self)
{
  gboolean good = check_point (self);

  good = check_answer (self, self->added_since) && good;
  good = check_answer (self, self->level_ok) && good;
  good = check_answer (self, self->running) && good;
  return sw_tag_confirm (SW_STEP_PAGE (self), self->tag) && good;
}

static gboolean
read_amounts (SwDrawPage *self, SwDrawEntry *entry)
{
  const SwWording *wording = sw_step_page_get_wording (SW_STEP_PAGE (self));
  gboolean warm
      = sw_form_row_get_amount (self->temperature, wording, SW_QUANTITY_SAMPLE_TEMPERATURE,
                                SW_UNIT_CELSIUS, FALSE, &entry->temperature);
  gboolean drawn = sw_form_row_get_amount (self->volume, wording, SW_QUANTITY_DRAWN_VOLUME,
                                           SW_UNIT_ML, TRUE, &entry->volume);

  if (!warm)
    sw_step_page_refuse_at (SW_STEP_PAGE (self), GTK_WIDGET (self->temperature), NULL);
  if (!drawn)
    sw_step_page_refuse_at (SW_STEP_PAGE (self), GTK_WIDGET (self->volume), NULL);
  return warm && drawn;
}

static const char *
get_optional (SwFormRow *row)
{
  const char *text = sw_form_row_get_text (row);

  return *text != '\0' ? text : NULL;
}

static void
clear_entry (SwDrawEntry *entry)
{
  g_clear_pointer (&entry->volume.typed, g_free);
  g_clear_pointer (&entry->temperature.typed, g_free);
}

static void
draw (SwDrawPage *self, SwDrawEntry *entry)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  GError *error = NULL;
  gboolean moved;

  entry->point = sw_point_list_get (self->points);
  entry->running = sw_answer_row_get (self->running);
  entry->level_ok = sw_answer_row_get (self->level_ok);
  entry->added_since = sw_answer_row_get (self->added_since);
  entry->appearance = get_optional (self->appearance);
  entry->retained = gtk_check_button_get_active (self->retained);
  entry->remarks = get_optional (self->remarks);
  moved = sw_guided_test_draw (sw_step_page_get_test (page), entry, &error);
  sw_step_page_settle (page, moved, error);
}

static void
next_cb (GtkButton *button, SwDrawPage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);
  const SwMethodVersion *method = sw_guided_test_get_method (sw_step_page_get_test (page));
  SwDrawEntry entry = { 0 };
  gboolean good;

  sw_step_page_clear_errors (page);
  good = read_amounts (self, &entry);
  good = check_words (self) && good;
  if (good
      && sw_step_page_second_look (page, self->volume, SW_QUANTITY_DRAWN_VOLUME, entry.volume.value,
                                   method->sample.value, SW_UNIT_ML))
    draw (self, &entry);
  clear_entry (&entry);
}

/* ---- showing ---- */

static void
fill (SwStepPage *page)
{
  SwDrawPage *self = SW_DRAW_PAGE (page);
  SwGuidedTest *test = sw_step_page_get_test (page);
  const SwWording *wording = sw_step_page_get_wording (page);
  const SwSample *sample = sw_guided_test_get_sample (test);
  g_autofree char *text = sw_method_text_dup (sw_step_page_get_store (page),
                                              sw_guided_test_get_method (test)->record.id, "draw",
                                              sw_wording_get_language (wording), NULL);

  gtk_label_set_text (self->next_words, text != NULL ? text : "");
  sw_caution_bar_set (self->caution, wording, SW_CAUTION_DRAW);
  sw_form_row_set_text (self->tag, NULL);
  sw_answer_row_set (self->running, sample->running);
  sw_answer_row_set (self->level_ok, sample->level_ok);
  sw_answer_row_set (self->added_since, sample->added_since);
  sw_point_list_fill (self->points, wording, sw_guided_test_get_points (test), sample->point);
  sw_form_row_set_text (self->volume, sample->volume.typed);
  sw_form_row_set_text (self->temperature, sample->temperature.typed);
  sw_form_row_set_text (self->appearance, sample->appearance);
  sw_form_row_set_text (self->remarks, sample->remarks);
  gtk_check_button_set_active (self->retained, sample->retained);
  sw_step_page_set_default (page, self->next);
  gtk_widget_grab_focus (GTK_WIDGET (self->tag));
}

static void
sw_draw_page_class_init (SwDrawPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  SW_STEP_PAGE_CLASS (klass)->fill = fill;
  g_type_ensure (SW_TYPE_CAUTION_BAR);
  g_type_ensure (SW_TYPE_ANSWER_ROW);
  g_type_ensure (SW_TYPE_POINT_LIST);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/test/draw-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, caution);
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, tag);
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, running);
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, level_ok);
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, added_since);
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, points);
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, volume);
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, temperature);
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, appearance);
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, retained);
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, remarks);
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, next);
  gtk_widget_class_bind_template_child (widget_class, SwDrawPage, next_words);
  gtk_widget_class_bind_template_callback (widget_class, next_cb);
}

static void
sw_draw_page_init (SwDrawPage *self)
{
  SwStepPage *page = SW_STEP_PAGE (self);

  gtk_widget_init_template (GTK_WIDGET (self));
  sw_step_page_add_place (page, SW_QUANTITY_DRAWN_VOLUME, SW_FACT_NONE, GTK_WIDGET (self->volume));
  sw_step_page_add_place (page, SW_QUANTITY_SAMPLE_TEMPERATURE, SW_FACT_NONE,
                          GTK_WIDGET (self->temperature));
  sw_step_page_add_place (page, SW_QUANTITY_NAME, SW_FACT_NONE, GTK_WIDGET (self->appearance));
  sw_step_page_add_place (page, SW_QUANTITY_NONE, SW_FACT_NONE, GTK_WIDGET (self->tag));
  sw_step_page_add_place (page, SW_QUANTITY_NONE, SW_FACT_NONE, GTK_WIDGET (self->running));
  sw_step_page_add_place (page, SW_QUANTITY_NONE, SW_FACT_NONE, GTK_WIDGET (self->level_ok));
  sw_step_page_add_place (page, SW_QUANTITY_NONE, SW_FACT_NONE, GTK_WIDGET (self->added_since));
  sw_step_page_add_place (page, SW_QUANTITY_NONE, SW_FACT_NONE, GTK_WIDGET (self->points));
}
