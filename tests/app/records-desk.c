/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks and presses on the Records page. */
#include "tests/app/records-desk.h"

#include "app/records/record-table.h"
#include "app/records/records-page.h"

Desk *
desk_new (void)
{
  Desk *desk = g_new0 (Desk, 1);

  desk->plant = busy_plant_new ();
  desk->window = busy_plant_open_window (desk->plant, "en", 1024, 600, FALSE);
  sw_window_show_records (desk->window, NULL);
  sw_snapshot_settle (GTK_WIDGET (desk->window));
  desk->page = sw_find_widget (GTK_WIDGET (desk->window), SW_TYPE_RECORDS_PAGE, NULL);
  g_assert_nonnull (desk->page);
  return desk;
}

void
desk_free (Desk *desk)
{
  busy_plant_free (desk->plant);
  g_free (desk);
}
SwStore *
desk_store (Desk *desk)
{
  return sw_context_get_store (desk->plant->context);
}

void
desk_settle (Desk *desk)
{
  sw_snapshot_settle (GTK_WIDGET (desk->window));
}

gboolean
desk_says (GtkWidget *widget, const char *part)
{
  g_autofree char *text = sw_visible_text (widget);

  return strstr (text, part) != NULL;
}

void
desk_assert_says (GtkWidget *widget, const char *part)
{
  g_autofree char *text = sw_visible_text (widget);

  if (strstr (text, part) == NULL)
    g_test_message ("\"%s\" is not in:\n%s", part, text);
  g_assert_nonnull (strstr (text, part));
}

SwRecordList *
desk_list (Desk *desk)
{
  GtkWidget *table = sw_find_widget (desk->page, SW_TYPE_RECORD_TABLE, NULL);

  return sw_record_table_get_list (SW_RECORD_TABLE (table));
}

void
desk_show (Desk *desk, const SwBrowseFilter *filter)
{
  sw_window_show_records (desk->window, filter);
  desk_settle (desk);
}

void
desk_open (Desk *desk, SwTable table, gint64 id)
{
  sw_window_show_record (desk->window, table, id);
  desk_settle (desk);
}

void
desk_press (Desk *desk, const char *label)
{
  GtkWidget *button = sw_find_button (desk->page, label);

  g_assert_true (gtk_widget_is_sensitive (button));
  g_signal_emit_by_name (button, "clicked");
  desk_settle (desk);
}

/* The list on screen is what the file answers to the same question. */
void
desk_assert_list (Desk *desk, const SwBrowseFilter *filter)
{
  g_autoptr (GArray) ids = sw_browse_ids (desk_store (desk), filter, NULL);
  SwRecordList *list = desk_list (desk);

  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (list)), ==, ids->len);
  for (guint i = 0; i < ids->len; i++)
    g_assert_cmpint (sw_record_list_get_id (list, i), ==, g_array_index (ids, gint64, i));
}
