/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who signed a record, what for, and what that is worth now. */
#include "app/records/card.h"
#include "app/records/mark-shapes.h"
#include "records/review-state.h"
#include "wording/sentence-list.h"
#include "wording/sentence-record.h"

/* As the list of signatures has it; in the order of SwMeaning. */
static const char *
say_meaning (const SwWording *wording, SwMeaning meaning)
{
  static const char *const words[SW_N_MEANINGS] = { "performed", "reviewed", "released", "closed" };

  return sw_say_row_word (wording, sw_table_name (SW_TABLE_REVIEW), words[meaning]);
}

/* What the signature said, by whom and when; below, whether it still covers the record. */
static GtkWidget *
make_line (SwContext *context, const SwReview *review, gboolean holds)
{
  const SwWording *wording = sw_context_get_wording (context);
  g_autoptr (SwPerson) person
      = sw_person_load (sw_context_get_store (context), review->person, NULL);
  g_autofree char *words = sw_say_signed (wording, say_meaning (wording, review->meaning),
                                          person != NULL ? person->name : "?",
                                          review->record.happened_ms, review->identified_by);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  GtkWidget *shapes = sw_mark_shapes_new ();
  GtkWidget *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);

  sw_mark_shapes_set (SW_MARK_SHAPES (shapes), holds ? SW_MARK_REVIEWED : SW_MARK_REVIEW_LOST);
  gtk_widget_set_valign (shapes, GTK_ALIGN_START);
  gtk_widget_set_margin_top (shapes, 3);
  if (!holds)
    gtk_widget_add_css_class (shapes, "sw-wrong");
  gtk_box_append (GTK_BOX (line), shapes);
  gtk_box_append (GTK_BOX (texts), sw_card_label (words, NULL));
  gtk_box_append (GTK_BOX (texts),
                  sw_card_label (sw_say_holds (wording, holds), holds ? "sw-dim" : "sw-wrong"));
  gtk_box_append (GTK_BOX (line), texts);
  return line;
}

GtkWidget *
sw_signature_card_new (SwContext *context, SwTable table, gint64 id)
{
  SwStore *store = sw_context_get_store (context);
  g_autoptr (GArray) ids = sw_review_ids (store, table, id, NULL);

  if (ids == NULL || ids->len == 0)
    return NULL;
  GtkWidget *card = sw_card_new (sw_tr (sw_context_get_wording (context), "Signatures"));
  for (guint i = 0; i < ids->len; i++)
    {
      gint64 review_id = g_array_index (ids, gint64, i);
      g_autoptr (SwReview) review = sw_review_load (store, review_id, NULL);
      gboolean holds = FALSE;

      if (review == NULL || !sw_review_holds (store, review_id, &holds, NULL))
        continue;
      gtk_box_append (GTK_BOX (card), make_line (context, review, holds));
    }
  return card;
}
