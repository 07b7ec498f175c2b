/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One record on the Records page: it tells what the file says; amending, voiding and reviewing
 * through its widgets write what the file then tells. */
#include "app/records/record-export.h"
#include "app/records/record-table.h"
#include "app/records/record-view.h"
#include "app/test/reason-row.h"
#include "app/widgets/form-row.h"
#include "records/review-state.h"
#include "tests/app/box.h"
#include "tests/app/records-desk.h"

/* The newest closed test of the machine with the history. */
static gint64
find_passed_test (Desk *desk)
{
  const SwBrowseFilter filter = { .table = SW_TABLE_TITRATION,
                                  .machine = desk->plant->retest.machine,
                                  .outcome = SW_OUTCOME_PASSED };
  g_autoptr (GArray) ids = sw_browse_ids (desk_store (desk), &filter, NULL);

  g_assert_cmpuint (ids->len, >, 3);
  return g_array_index (ids, gint64, 0);
}

/* ---- a record ---- */

static void
test_record (void)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (SwDoseRow) dose = sw_dose_row_load (desk_store (desk), desk->plant->dose, NULL);

  desk_open (desk, SW_TABLE_TITRATION, dose->titration);
  desk_assert_says (desk->page, "acid, 2 to 3 drops");
  desk_assert_says (desk->page, "Signatures");
  desk_assert_says (desk->page, "Still holds");
  desk_assert_says (desk->page, "2 drops: Yellow, acid");
  desk_assert_says (desk->page, "1260\u202fmL added");
  desk_assert_says (desk->page, "Lot of the titrant");
  /* A part leads to its own page, Back to the test, and Back again to the list. */
  GtkWidget *row = gtk_widget_get_ancestor (sw_find_text (desk->page, "1260\u202fmL added"),
                                            GTK_TYPE_LIST_BOX_ROW);
  g_signal_emit_by_name (gtk_widget_get_parent (row), "row-activated", row);
  desk_settle (desk);
  desk_assert_says (desk->page, "Dose of test");
  desk_press (desk, "Back");
  desk_assert_says (desk->page, "2 drops: Yellow, acid");
  desk_press (desk, "Back");
  g_assert_true (gtk_widget_get_mapped (sw_find_widget (desk->page, SW_TYPE_RECORD_TABLE, NULL)));
}

/* From the list the next record and the one before are a button away. */
static void
test_step (void)
{
  g_autoptr (Desk) desk = desk_new ();
  SwRecordList *list = desk_list (desk);
  GtkWidget *view = sw_find_widget (desk->page, SW_TYPE_RECORD_VIEW, NULL);
  GtkWidget *table = sw_find_widget (desk->page, SW_TYPE_RECORD_TABLE, NULL);

  g_signal_emit_by_name (table, "activated", sw_record_list_get_id (list, 1));
  gtk_widget_activate_action (view, "record.step", "i", 1);
  g_assert_cmpint (sw_record_view_get_id (SW_RECORD_VIEW (view)), ==,
                   sw_record_list_get_id (list, 2));
  gtk_widget_activate_action (view, "record.step", "i", -1);
  gtk_widget_activate_action (view, "record.step", "i", -1);
  gtk_widget_activate_action (view, "record.step", "i", -1);
  g_assert_cmpint (sw_record_view_get_id (SW_RECORD_VIEW (view)), ==,
                   sw_record_list_get_id (list, 0));
}

/* The machine's own list of tests leads to the record. */
static void
test_from_machine (void)
{
  g_autoptr (Desk) desk = desk_new ();
  sw_window_show_machine (desk->window, desk->plant->retest.machine);
  desk_settle (desk);
  GtkWidget *table
      = sw_find_widget (GTK_WIDGET (desk->window), g_type_from_name ("SwTestTable"), NULL);
  g_signal_emit_by_name (sw_find_widget (table, GTK_TYPE_COLUMN_VIEW, NULL), "activate", 0u);
  desk_settle (desk);
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (desk->window)), ==, "Records");
  desk_assert_says (desk->page, "Test M-07-");
  /* And its button to all of them. */
  const SwBrowseFilter filter
      = { .table = SW_TABLE_TITRATION, .machine = desk->plant->later.machine, .outcome = -1 };
  sw_window_show_machine (desk->window, desk->plant->later.machine);
  g_signal_emit_by_name (sw_find_button (GTK_WIDGET (desk->window), "All Records of This Machine"),
                         "clicked");
  desk_settle (desk);
  desk_assert_list (desk, &filter);
}

/* ---- amending and voiding ---- */

static void
type_reason (Desk *desk, const char *text)
{
  sw_reason_row_set_text (SW_REASON_ROW (sw_find_widget (desk->page, SW_TYPE_REASON_ROW, NULL)),
                          text);
}

static SwFormRow *
field (Desk *desk, const char *name)
{
  return SW_FORM_ROW (sw_find_widget (desk->page, SW_TYPE_FORM_ROW, name));
}

static gint64
sample_of (Desk *desk, gint64 titration)
{
  g_autoptr (SwTitration) row = sw_titration_load (desk_store (desk), titration, NULL);

  return row->sample;
}

/* A text that stands struck somewhere below. */
static gboolean
shows_struck (GtkWidget *widget, const char *text)
{
  if (GTK_IS_LABEL (widget) && gtk_widget_has_css_class (widget, "sw-old"))
    return g_str_equal (gtk_label_get_text (GTK_LABEL (widget)), text);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (shows_struck (child, text))
      return TRUE;
  return FALSE;
}

static void
test_amend (void)
{
  g_autoptr (Desk) desk = desk_new ();
  gint64 titration = find_passed_test (desk);
  gint64 sample_id = sample_of (desk, titration);

  desk_open (desk, SW_TABLE_SAMPLE, sample_id);
  desk_press (desk, "Amend…");
  desk_press (desk, "Amend");
  desk_assert_says (desk->page, "Nothing is changed yet.");
  sw_form_row_set_text (field (desk, "appearance"), "cloudy");
  desk_press (desk, "Amend");
  desk_assert_says (desk->page, "A reason is needed");
  type_reason (desk, "read the label again");
  desk_press (desk, "Amend");
  g_autoptr (SwSample) sample = sw_sample_load (desk_store (desk), sample_id, NULL);
  g_assert_cmpstr (sample->appearance, ==, "cloudy");
  /* The story has the old value struck beside the new one, and the reason. */
  g_assert_true (shows_struck (desk->page, "clear"));
  g_assert_false (shows_struck (desk->page, "cloudy"));
  desk_assert_says (desk->page, "read the label again");
  sw_snapshot (GTK_WIDGET (desk->window), "records-amended");
  /* The signature on its test covers the sample no longer. */
  desk_open (desk, SW_TABLE_TITRATION, titration);
  desk_assert_says (desk->page, "No longer holds");
  desk_assert_says (desk->page, "amended");
}

/* A number that cannot be is refused at its field, and what was typed stays. */
static void
test_amend_wrong (void)
{
  g_autoptr (Desk) desk = desk_new ();
  gint64 sample_id = sample_of (desk, find_passed_test (desk));

  desk_open (desk, SW_TABLE_SAMPLE, sample_id);
  desk_press (desk, "Amend…");
  sw_form_row_set_text (field (desk, "volume"), "90000");
  type_reason (desk, "misread");
  desk_press (desk, "Amend");
  g_assert_nonnull (sw_form_row_get_error (field (desk, "volume")));
  g_assert_cmpstr (sw_form_row_get_text (field (desk, "volume")), ==, "90000");
  g_autoptr (SwSample) sample = sw_sample_load (desk_store (desk), sample_id, NULL);
  g_assert_cmpfloat (sample->volume.value, <, 90000);
  desk_press (desk, "Cancel");
  g_assert_nonnull (sw_find_button (desk->page, "Back"));
}

static void
test_void (void)
{
  g_autoptr (Desk) desk = desk_new ();
  gint64 titration = find_passed_test (desk);
  const SwBrowseFilter voided
      = { .table = SW_TABLE_TITRATION, .outcome = -1, .state = SW_BROWSE_VOIDED };

  desk_open (desk, SW_TABLE_TITRATION, titration);
  desk_press (desk, "Void…");
  desk_assert_says (desk->page, "Nothing is deleted");
  desk_press (desk, "Void");
  desk_assert_says (desk->page, "A reason is needed");
  sw_reason_row_pick (SW_REASON_ROW (sw_find_widget (desk->page, SW_TYPE_REASON_ROW, NULL)), 0);
  desk_press (desk, "Void");
  g_autoptr (SwTitration) row = sw_titration_load (desk_store (desk), titration, NULL);
  g_assert_true (row->record.voided);
  desk_assert_says (desk->page, "void");
  g_assert_false (gtk_widget_is_sensitive (sw_find_button (desk->page, "Void…")));
  sw_snapshot (GTK_WIDGET (desk->window), "records-voided");
  desk_show (desk, &voided);
  desk_assert_list (desk, &voided);
  desk_assert_says (desk->page, "1 test");
}

/* What the set-up keeps is changed in its own form there. */
static void
test_amend_setup (void)
{
  g_autoptr (Desk) desk = desk_new ();

  busy_plant_work_as (desk->plant, desk->plant->scene->plant->administrator);
  desk_open (desk, SW_TABLE_PRODUCT, desk->plant->scene->plant->neutraliser);
  desk_press (desk, "Amend…");
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (desk->window)), ==, "Set-up");
  GtkWidget *form
      = sw_find_widget (GTK_WIDGET (desk->window), g_type_from_name ("SwSetupPage"), NULL);
  desk_assert_says (form, "invented amine");
}

/* ---- export ---- */

/* The workbook of one test is written beside the window's work, and it says when it is done. */
static void
test_export (void)
{
  g_autoptr (Desk) desk = desk_new ();
  g_autoptr (SwTestFolder) folder = sw_test_folder_new ();
  g_autofree char *path = g_build_filename (folder, "one-test.xlsx", NULL);
  SwExportFilter filter;

  /* The oldest: there are others after it. */
  g_autoptr (GArray) all = sw_dose_ids (desk_store (desk), 0, 0, NULL);
  const gint64 dose = g_array_index (all, gint64, all->len - 1);
  g_assert_cmpuint (all->len, >, 1);
  g_assert_true (sw_record_export_filter (desk->plant->context, SW_TABLE_DOSE, dose, &filter));
  g_autoptr (GArray) doses = sw_export_ids (desk_store (desk), SW_TABLE_DOSE, &filter, NULL);
  g_assert_cmpuint (doses->len, ==, 1);
  g_assert_cmpint (g_array_index (doses, gint64, 0), ==, dose);
  sw_record_export_write (desk->page, desk->plant->context, &filter, path);
  for (int i = 0; i < 1000 && !desk_says (GTK_WIDGET (desk->window), "one-test.xlsx is written.");
       i++)
    {
      g_usleep (10000);
      desk_settle (desk);
    }
  desk_assert_says (GTK_WIDGET (desk->window), "one-test.xlsx is written.");
  g_assert_true (g_file_test (path, G_FILE_TEST_EXISTS));
}

/* ---- review ---- */

static GtkWidget *
find_tick (Desk *desk, guint nth)
{
  GtkWidget *table = sw_find_widget (desk->page, SW_TYPE_RECORD_TABLE, NULL);
  GtkWidget *view = sw_find_widget (table, GTK_TYPE_COLUMN_VIEW, NULL);
  GtkWidget *row = gtk_widget_get_first_child (gtk_widget_get_last_child (view));

  while (nth-- > 0)
    row = gtk_widget_get_next_sibling (row);
  return sw_find_widget (row, GTK_TYPE_CHECK_BUTTON, NULL);
}

static void
assert_reviewed (Desk *desk, guint place, SwReviewState wanted)
{
  SwReviewState state;

  g_assert_true (sw_review_state (desk_store (desk), SW_TABLE_TITRATION,
                                  sw_record_list_get_id (desk_list (desk), place), &state, NULL));
  g_assert_cmpint (state, ==, wanted);
}

/* Three are ticked, one of them still open: two are reviewed under one signature, and it says which
 * was left out and why. */
static void
test_batch (void)
{
  g_autoptr (Desk) desk = desk_new ();

  busy_plant_work_as (desk->plant, desk->plant->scene->plant->reviewer);
  for (guint i = 0; i < 3; i++)
    gtk_check_button_set_active (GTK_CHECK_BUTTON (find_tick (desk, i)), TRUE);
  desk_settle (desk);
  desk_assert_says (desk->page, "3 chosen");
  sw_snapshot (GTK_WIDGET (desk->window), "records-chosen");
  desk_press (desk, "Review 3 Tests…");
  GtkWidget *box = sw_box_over (GTK_WIDGET (desk->window));
  g_assert_nonnull (box);
  g_assert_true (sw_box_says (box, "2 tests, from M-14-"));
  sw_snapshot (GTK_WIDGET (desk->window), "records-signing");
  sw_box_answer (box, SW_TEST_PLANT_SECRET);
  desk_settle (desk);
  desk_assert_says (GTK_WIDGET (desk->window), "2 tests are reviewed.");
  desk_assert_says (GTK_WIDGET (desk->window), "1 of the 3 chosen cannot be reviewed");
  assert_reviewed (desk, 0, SW_REVIEW_NONE);
  assert_reviewed (desk, 1, SW_REVIEW_REVIEWED);
  assert_reviewed (desk, 2, SW_REVIEW_REVIEWED);
  g_autoptr (SwRecordItem) item = g_list_model_get_item (G_LIST_MODEL (desk_list (desk)), 1);
  g_assert_cmpstr (sw_record_item_get_state (item), ==, "reviewed");
}

/* Nobody reviews their own work, and the page says so. */
static void
test_own_work (void)
{
  g_autoptr (Desk) desk = desk_new ();

  desk_open (desk, SW_TABLE_TITRATION, find_passed_test (desk));
  g_assert_false (gtk_widget_is_sensitive (sw_find_button (desk->page, "Review…")));
  desk_assert_says (desk->page, "Review: Only a reviewer or an administrator");
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/app/records/record", test_record);
  g_test_add_func ("/app/records/next and before", test_step);
  g_test_add_func ("/app/records/from the machine", test_from_machine);
  g_test_add_func ("/app/records/amend", test_amend);
  g_test_add_func ("/app/records/amend, wrong number", test_amend_wrong);
  g_test_add_func ("/app/records/amend set-up", test_amend_setup);
  g_test_add_func ("/app/records/export", test_export);
  g_test_add_func ("/app/records/void", test_void);
  g_test_add_func ("/app/records/review many", test_batch);
  g_test_add_func ("/app/records/own work", test_own_work);
  return g_test_run ();
}
