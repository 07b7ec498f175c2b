/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lots read once per page; a file that cannot be read leaves the list empty and says so. */
#include "app/test/lots.h"

#include "wording/sentence-test.h"

/* Adds one lot; used-up ones are left out. Returns its id when it is in date, else 0. */
static gint64
add_lot (SwStepPage *page, SwChoiceRow *row, gint64 id, gint64 now_ms)
{
  g_autoptr (SwLot) lot = sw_lot_load (sw_step_page_get_store (page), id, NULL);
  g_autofree char *text = NULL;
  gboolean expired;

  if (lot == NULL || lot->used_up)
    return 0;
  expired = lot->expires_ms != 0 && lot->expires_ms <= now_ms;
  text = sw_say_lot (sw_step_page_get_wording (page), lot->code, lot->expires_ms, now_ms);
  sw_choice_row_add (row, id, text, expired);
  return expired ? 0 : id;
}

/* Returns the first lot in date, or 0. */
static gint64
add_lots (SwStepPage *page, SwChoiceRow *row, gint64 product)
{
  g_autoptr (GArray) ids
      = sw_record_ids (sw_step_page_get_store (page), SW_TABLE_LOT, "product", product, NULL);
  gint64 now_ms = sw_context_now (sw_step_page_get_context (page));
  gint64 good = 0;

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gint64 id = add_lot (page, row, g_array_index (ids, gint64, i), now_ms);

      good = good == 0 ? id : good;
    }
  return good;
}

static void
finish (SwStepPage *page, SwChoiceRow *row, gint64 product, gint64 chosen)
{
  g_autoptr (SwProduct) loaded = NULL;
  g_autofree char *text = NULL;

  sw_choice_row_set_hint (row, NULL);
  sw_choice_row_set (row, chosen);
  if (sw_choice_row_count (row) > 0)
    return;
  loaded = sw_product_load (sw_step_page_get_store (page), product, NULL);
  text = sw_say_no_lot (sw_step_page_get_wording (page), loaded != NULL ? loaded->name : NULL);
  sw_choice_row_set_hint (row, text);
}

void
sw_lots_fill (SwStepPage *page, SwChoiceRow *row, gint64 product, gint64 chosen)
{
  gint64 good;

  sw_choice_row_clear (row, sw_step_page_get_wording (page));
  good = add_lots (page, row, product);
  finish (page, row, product, chosen != 0 ? chosen : good);
}

gboolean
sw_lots_fill_strips (SwStepPage *page, SwChoiceRow *row, gint64 chosen)
{
  g_autoptr (GArray) ids = sw_record_ids (sw_step_page_get_store (page), SW_TABLE_PRODUCT, "use",
                                          SW_PRODUCT_STRIPS, NULL);
  gint64 good = 0;

  if (ids == NULL || ids->len == 0)
    return FALSE;
  sw_choice_row_clear (row, sw_step_page_get_wording (page));
  for (guint i = 0; i < ids->len; i++)
    {
      gint64 id = add_lots (page, row, g_array_index (ids, gint64, i));

      good = good == 0 ? id : good;
    }
  finish (page, row, g_array_index (ids, gint64, 0), chosen != 0 ? chosen : good);
  return TRUE;
}

gboolean
sw_lots_check (SwStepPage *page, SwChoiceRow *row)
{
  if (!gtk_widget_get_visible (GTK_WIDGET (row)) || sw_choice_row_get (row) != 0)
    return TRUE;
  sw_step_page_refuse_at (
      page, GTK_WIDGET (row),
      sw_say_test_word (sw_step_page_get_wording (page), SW_TEST_WORD_PICK_LOT));
  return FALSE;
}
