/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of the Records page: it shows what the file answers, follows it, and loads only what is
 * on screen. */
#include "app/records/filter-bar.h"
#include "app/records/filter-pick.h"
#include "app/records/record-table.h"
#include "tests/app/records-desk.h"

/* ---- list and filters ---- */

static const struct
{
  const char *name;
  SwBrowseFilter filter; /* machine 1: that with the history */
} filters[] = {
  { "tests", { .table = SW_TABLE_TITRATION, .outcome = -1 } },
  { "machine", { .table = SW_TABLE_TITRATION, .outcome = -1, .machine = 1 } },
  { "acid", { .table = SW_TABLE_TITRATION, .outcome = SW_OUTCOME_ACID_FOUND } },
  { "days",
    { .table = SW_TABLE_TITRATION,
      .outcome = -1,
      .from_ms = SW_TEST_PLANT_START_MS + 3 * SW_TEST_DAY_MS,
      .to_ms = SW_TEST_PLANT_START_MS + 9 * SW_TEST_DAY_MS } },
  { "search", { .table = SW_TABLE_TITRATION, .outcome = -1, .search = "m-07-2612" } },
  { "review", { .table = SW_TABLE_TITRATION, .outcome = -1, .state = SW_BROWSE_TO_REVIEW } },
  { "doses", { .table = SW_TABLE_DOSE, .outcome = -1 } },
  { "readings", { .table = SW_TABLE_READING, .outcome = -1, .machine = 1 } },
  { "people", { .table = SW_TABLE_PERSON, .outcome = -1 } },
};

static void
test_filter (gconstpointer data)
{
  const gsize at = GPOINTER_TO_SIZE (data);
  g_autoptr (Desk) desk = desk_new ();
  SwBrowseFilter filter = filters[at].filter;
  SwBrowseFilter shown;

  if (filter.machine != 0)
    filter.machine = desk->plant->retest.machine;
  desk_show (desk, &filter);
  sw_filter_bar_get (SW_FILTER_BAR (sw_find_widget (desk->page, SW_TYPE_FILTER_BAR, NULL)), &shown);
  g_assert_cmpint (shown.table, ==, filter.table);
  g_assert_cmpint (shown.machine, ==, filter.machine);
  g_assert_cmpint (shown.from_ms, ==, filter.from_ms);
  desk_assert_list (desk, &filter);
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (desk_list (desk))), >, 0);
}

/* Every kind of record, and the journal, can be listed, and each line says something. */
static void
test_kinds (void)
{
  g_autoptr (Desk) desk = desk_new ();

  for (guint i = 0; i < sw_n_kinds; i++)
    {
      GtkWidget *kind = sw_find_widget (desk->page, SW_TYPE_FILTER_PICK, "kind");

      sw_filter_pick_set (SW_FILTER_PICK (kind), sw_kinds[i].kind);
      g_signal_emit_by_name (kind, "changed");
      guint n = g_list_model_get_n_items (G_LIST_MODEL (desk_list (desk)));
      for (guint k = 0; k < MIN (n, 40); k++)
        {
          g_autoptr (SwRecordItem) item
              = g_list_model_get_item (G_LIST_MODEL (desk_list (desk)), k);
          g_assert_cmpstr (sw_record_item_get_what (item), !=, "");
        }
      if (n > 0)
        {
          g_signal_emit_by_name (sw_find_widget (desk->page, SW_TYPE_RECORD_TABLE, NULL),
                                 "activated", sw_record_list_get_id (desk_list (desk), 0));
          desk_settle (desk);
          g_assert_nonnull (sw_find_button (desk->page, "Back"));
          desk_assert_says (desk->page, " by ");
          desk_press (desk, "Back");
        }
    }
}

static void
test_nothing (void)
{
  g_autoptr (Desk) desk = desk_new ();
  const SwBrowseFilter filter
      = { .table = SW_TABLE_TITRATION, .outcome = -1, .search = "no such words" };

  desk_show (desk, &filter);
  desk_assert_says (desk->page, "Nothing found.");
  g_assert_false (desk_says (desk->page, "M-07"));
  desk_press (desk, "Clear Filters");
  g_assert_false (desk_says (desk->page, "Nothing found."));
  desk_assert_list (desk, &filters[0].filter);
  desk_assert_says (desk->page, "48 tests");
}

/* What is typed is asked for after a pause, not at each letter. */
static void
test_typing (void)
{
  g_autoptr (Desk) desk = desk_new ();
  GtkWidget *search = sw_find_widget (desk->page, GTK_TYPE_SEARCH_ENTRY, "search");
  guint before = g_list_model_get_n_items (G_LIST_MODEL (desk_list (desk)));

  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (desk->window), "win.find", NULL));
  g_assert_true (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (desk->window)), search));
  gtk_editable_set_text (GTK_EDITABLE (search), "M-14");
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (desk_list (desk))), ==, before);
  for (int i = 0; i < 200 && g_list_model_get_n_items (G_LIST_MODEL (desk_list (desk))) == before;
       i++)
    {
      g_usleep (10000);
      desk_settle (desk);
    }
  g_assert_cmpuint (g_list_model_get_n_items (G_LIST_MODEL (desk_list (desk))), ==, 1);
}

/* ---- the list follows the file ---- */

typedef struct
{
  guint n, at, removed, added;
} Change;

static void
changed_cb (GListModel *list, guint at, guint removed, guint added, Change *change)
{
  change->n++;
  change->at = at;
  change->removed = removed;
  change->added = added;
}

/* One record less is told as one record less: place and choice of the others stay. */
static void
test_follows (void)
{
  g_autoptr (Desk) desk = desk_new ();
  Change change = { 0 };
  gint64 id = sw_record_list_get_id (desk_list (desk), 5);
  g_autoptr (SwRecordItem) below = g_list_model_get_item (G_LIST_MODEL (desk_list (desk)), 6);
  GError *error = NULL;

  g_signal_connect (desk_list (desk), "items-changed", G_CALLBACK (changed_cb), &change);
  gtk_widget_set_visible (desk->page, TRUE);
  g_assert_true (sw_act_begin (desk_store (desk), SW_ACT_VOID,
                               sw_context_get_actor_because (desk->plant->context, "entered twice"),
                               &error));
  g_assert_true (sw_record_void (desk_store (desk), SW_TABLE_TITRATION, id, &error));
  g_assert_true (sw_act_commit (desk_store (desk), &error));
  sw_context_changed (desk->plant->context);
  g_assert_cmpuint (change.n, ==, 1);
  g_assert_cmpuint (change.at, ==, 5);
  g_assert_cmpuint (change.removed, ==, 1);
  g_assert_cmpuint (change.added, ==, 0);
  g_autoptr (SwRecordItem) moved = g_list_model_get_item (G_LIST_MODEL (desk_list (desk)), 5);
  g_assert_true (moved == below);
  desk_assert_list (desk, &filters[0].filter);
}

/* ---- many ---- */

#define MANY 20000

static void
insert_many (SwStore *store, SwTestPlant *plant)
{
  GError *error = NULL;

  sw_test_plant_begin (plant, SW_ACT_SETUP);
  for (int i = 0; i < MANY; i++)
    {
      g_autoptr (SwSetting) setting = sw_setting_new ();
      setting->name = g_strdup_printf ("invented-%05d", i);
      setting->value = g_strdup ("yes");
      g_assert_true (sw_setting_insert (store, setting, &error));
      g_assert_no_error (error);
    }
  sw_test_plant_commit (plant);
}

/* Of twenty thousand rows only those near the screen are loaded, at the top and after a jump. */
static void
test_many (void)
{
  g_autoptr (BusyPlant) plant = busy_plant_new_quiet ();
  const SwBrowseFilter filter = { .table = SW_TABLE_SETTING, .outcome = -1 };

  insert_many (plant->scene->plant->store, plant->scene->plant);
  SwWindow *window = busy_plant_open_window (plant, "en", 1024, 600, FALSE);
  guint64 before = sw_record_item_count_loads ();
  sw_window_show_records (window, &filter);
  sw_snapshot_settle (GTK_WIDGET (window));
  GtkWidget *table = sw_find_widget (GTK_WIDGET (window), SW_TYPE_RECORD_TABLE, NULL);
  GListModel *list = G_LIST_MODEL (sw_record_table_get_list (SW_RECORD_TABLE (table)));
  g_assert_cmpuint (g_list_model_get_n_items (list), >=, MANY);
  guint64 top = sw_record_item_count_loads () - before;
  sw_record_table_choose (SW_RECORD_TABLE (table),
                          sw_record_list_get_id (SW_RECORD_LIST (list), MANY / 2));
  sw_snapshot_settle (GTK_WIDGET (window));
  guint64 jumped = sw_record_item_count_loads () - before - top;
  g_test_message ("loaded %" G_GUINT64_FORMAT " rows at the top, %" G_GUINT64_FORMAT " at the jump",
                  top, jumped);
  g_assert_cmpuint (top, >, 5);
  g_assert_cmpuint (top, <, 500);
  g_assert_cmpuint (jumped, >, 5);
  g_assert_cmpuint (jumped, <, 500);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (filters); i++)
    {
      g_autofree char *path = g_strconcat ("/app/records/filter/", filters[i].name, NULL);
      g_test_add_data_func (path, GSIZE_TO_POINTER (i), test_filter);
    }
  g_test_add_func ("/app/records/kinds", test_kinds);
  g_test_add_func ("/app/records/nothing found", test_nothing);
  g_test_add_func ("/app/records/typing", test_typing);
  g_test_add_func ("/app/records/list follows the file", test_follows);
  g_test_add_func ("/app/records/twenty thousand", test_many);
  return g_test_run ();
}
