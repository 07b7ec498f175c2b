/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window on a busy plant: To Do, sidebar and machine page say what the file says. */
#include "app/theme.h"
#include "tests/app/box.h"
#include "tests/app/busy-plant.h"
#include "tests/app/snapshot.h"
#include "wording/sentence.h"

/* The text of the page on screen holds @part. */
static void
assert_says (GtkWidget *widget, const char *part)
{
  g_autofree char *text = sw_visible_text (widget);

  if (strstr (text, part) == NULL)
    g_test_message ("\"%s\" is not in:\n%s", part, text);
  g_assert_nonnull (strstr (text, part));
}

static void
test_todo (void)
{
  g_autoptr (BusyPlant) plant = busy_plant_new ();
  GtkWidget *window = GTK_WIDGET (busy_plant_open_window (plant, "en", 1280, 900, FALSE));
  GtkWidget *todo = sw_find_widget (window, g_type_from_name ("SwTodoPage"), NULL);

  assert_says (todo, "Seven things to do");
  assert_says (todo, "M-11 Rotary: a test was left open");
  assert_says (todo, "2 drops counted");
  assert_says (todo, "M-07 Long bed: re-test after dose");
  assert_says (todo, "M-03 Twin tank: test");
  assert_says (todo, "Next after these: M-14 Small parts");
  assert_says (todo, "M-14 at 06:");
  g_assert_true (GTK_IS_BUTTON (sw_find_button (todo, "Resume")));
  g_assert_true (GTK_IS_BUTTON (sw_find_button (todo, "Re-test")));
  g_assert_true (GTK_IS_BUTTON (sw_find_button (todo, "Test")));
  /* The accent belongs to the most urgent one alone. */
  g_assert_true (gtk_widget_has_css_class (sw_find_button (todo, "Resume"), "sw-accent"));
  g_assert_false (gtk_widget_has_css_class (sw_find_button (todo, "Test"), "sw-accent"));
  sw_snapshot (window, "todo-light");
}

/* Who may review sees how many tests wait, and the button leads to their list; a technician does
 * not. */
static void
test_todo_reviews (void)
{
  g_autoptr (BusyPlant) plant = busy_plant_new ();
  GtkWidget *window = GTK_WIDGET (busy_plant_open_window (plant, "en", 1280, 900, FALSE));
  GtkWidget *todo = sw_find_widget (window, g_type_from_name ("SwTodoPage"), NULL);
  g_autofree char *technician = sw_visible_text (todo);

  g_assert_null (strstr (technician, "for your review"));
  busy_plant_work_as (plant, plant->scene->plant->reviewer);
  sw_snapshot_settle (window);
  assert_says (todo, "tests wait for your review");
  assert_says (todo, "Eight things to do");
  sw_snapshot (window, "todo-reviews");
  g_signal_emit_by_name (sw_find_button (todo, "Review"), "clicked");
  sw_snapshot_settle (window);
  assert_says (window, "Records");
  g_assert_nonnull (sw_find_widget (window, g_type_from_name ("SwRecordsPage"), NULL));
  sw_snapshot (window, "todo-reviews-list");
}

static void
test_todo_follows (void)
{
  g_autoptr (BusyPlant) plant = busy_plant_new_quiet ();
  SwWindow *window = busy_plant_open_window (plant, "en", 1280, 900, FALSE);
  GtkWidget *todo = sw_find_widget (GTK_WIDGET (window), g_type_from_name ("SwTodoPage"), NULL);

  assert_says (todo, "M-07 Long bed: test due today");
  /* Two days go by: only the clock has changed. */
  sw_test_plant_advance (plant->scene->plant, 48 * 60);
  sw_window_refresh (window);
  assert_says (todo, "M-07 Long bed: test was due");
}

static void
test_machine (void)
{
  g_autoptr (BusyPlant) plant = busy_plant_new ();
  SwWindow *window = busy_plant_open_window (plant, "en", 1280, 900, FALSE);
  GtkWidget *page = sw_find_widget (GTK_WIDGET (window), g_type_from_name ("SwMachinePage"), NULL);

  sw_window_show_machine (window, plant->retest.machine);
  sw_snapshot_settle (GTK_WIDGET (window));
  assert_says (page, "Acid found, dosed, re-test due now");
  assert_says (page, "acid, 2 to 3 drops");
  g_assert_true (GTK_IS_BUTTON (sw_find_button (page, "Re-test")));
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (window)), ==, "M-07 Long bed");
  sw_snapshot (GTK_WIDGET (window), "machine-light");
  sw_window_show_machine (window, plant->open.machine);
  assert_says (page, "A test is open");
  g_assert_true (GTK_IS_BUTTON (sw_find_button (page, "Resume")));
  sw_window_show_machine (window, plant->later.machine);
  assert_says (page, "Passed today");
}

/* Nobody picked: a write is not begun, the window says what to do first. */
static void
test_nobody (void)
{
  g_autoptr (BusyPlant) plant = busy_plant_new_quiet ();
  SwWindow *window = busy_plant_open_window (plant, "en", 1024, 600, FALSE);
  GtkWidget *todo = sw_find_widget (GTK_WIDGET (window), g_type_from_name ("SwTodoPage"), NULL);
  SwStore *store = sw_context_get_store (plant->context);

  sw_context_set_person (plant->context, 0);
  g_signal_emit_by_name (sw_find_button (todo, "Test"), "clicked");
  sw_snapshot_settle (GTK_WIDGET (window));
  assert_says (GTK_WIDGET (window), "Who works now?");
  assert_says (GTK_WIDGET (window), "A picked name proves nothing");
  g_autoptr (GArray) open = sw_titration_open_ids (store, 0, NULL);
  g_assert_cmpuint (open->len, ==, 0);
  busy_plant_work_as (plant, plant->scene->plant->auditor);
  g_assert_false (sw_window_may_write (window));
  busy_plant_work_as (plant, plant->scene->plant->technician);
  g_assert_true (sw_window_may_write (window));
  g_assert_cmpint (sw_context_get_actor (plant->context)->identified, ==, SW_IDENTIFIED_SECRET);
}

/* Acid to the method's last step. */
static void
go_over_range (Scene *scene)
{
  scene_start (scene, SW_PURPOSE_ROUTINE, 0);
  scene_read (scene, SW_FIELD_ACID);
  scene_add (scene, sw_guided_test_get_method (scene->test)->maximum);
  scene_read (scene, SW_FIELD_ACID);
  scene_close (scene);
  scene_accept (scene);
  scene_sign (scene);
  scene_leave (scene);
}

/* Over range is no dosing job: To Do and the machine say stop, with the caution that defers. */
static void
test_over_range (void)
{
  g_autoptr (BusyPlant) plant = busy_plant_new_quiet ();

  go_over_range (plant->scene);
  SwWindow *window = busy_plant_open_window (plant, "en", 1280, 900, FALSE);
  GtkWidget *todo = sw_find_widget (GTK_WIDGET (window), g_type_from_name ("SwTodoPage"), NULL);
  GtkWidget *page = sw_find_widget (GTK_WIDGET (window), g_type_from_name ("SwMachinePage"), NULL);
  assert_says (todo, "M-07 Long bed: over range, stop");
  g_signal_emit_by_name (sw_find_button (todo, "Open"), "clicked");
  sw_snapshot (GTK_WIDGET (window), "machine-over-range");
  assert_says (page, "Over range: stop and call the person responsible");
  g_assert_false (gtk_widget_has_css_class (sw_find_button (page, "Test"), "sw-accent"));
  assert_says (page, sw_say_caution (sw_context_get_wording (plant->context), SW_CAUTION_DEFER));
}

/* What a dose would lack is said before anybody needs one. */
static void
test_missing (void)
{
  g_autoptr (BusyPlant) plant = busy_plant_new_quiet ();
  SwTestPlant *file = plant->scene->plant;
  g_autoptr (SwMachine) machine = sw_machine_load (file->store, plant->retest.machine, NULL);

  g_clear_pointer (&machine->dosing_place, g_free);
  sw_test_plant_begin (file, SW_ACT_AMEND);
  g_assert_true (sw_machine_update (file->store, machine, NULL));
  sw_test_plant_commit (file);
  SwWindow *window = busy_plant_open_window (plant, "en", 1280, 900, TRUE);
  GtkWidget *page = sw_find_widget (GTK_WIDGET (window), g_type_from_name ("SwMachinePage"), NULL);
  sw_window_show_machine (window, plant->retest.machine);
  sw_snapshot (GTK_WIDGET (window), "machine-missing");
  assert_says (page, "no dosing place is on file");
  assert_says (page, "No test yet.");
}

/* Whoever is picked then goes on with what was asked for. */
static void
test_nobody_goes_on (void)
{
  g_autoptr (BusyPlant) plant = busy_plant_new_quiet ();
  SwWindow *window = busy_plant_open_window (plant, "en", 1024, 600, FALSE);
  GtkWidget *todo = sw_find_widget (GTK_WIDGET (window), g_type_from_name ("SwTodoPage"), NULL);
  SwStore *store = sw_context_get_store (plant->context);

  sw_context_set_person (plant->context, 0);
  g_signal_emit_by_name (sw_find_button (todo, "Test"), "clicked");
  sw_snapshot_settle (GTK_WIDGET (window));
  GtkWidget *popover = sw_find_widget (GTK_WIDGET (window), GTK_TYPE_POPOVER, "popover");
  GtkWidget *row
      = gtk_widget_get_ancestor (sw_find_text (popover, "C. Invented"), GTK_TYPE_LIST_BOX_ROW);
  g_signal_emit_by_name (gtk_widget_get_parent (row), "row-activated", row);
  sw_snapshot_settle (GTK_WIDGET (window));
  g_assert_cmpint (sw_context_get_person (plant->context), ==, 0);
  sw_box_answer (sw_box_over (GTK_WIDGET (window)), SW_TEST_PLANT_SECRET);
  sw_snapshot_settle (GTK_WIDGET (window));
  g_assert_cmpint (sw_context_get_person (plant->context), ==, plant->scene->plant->colleague);
  g_autoptr (GArray) open = sw_titration_open_ids (store, 0, NULL);
  g_assert_cmpuint (open->len, ==, 1);
  sw_snapshot (GTK_WIDGET (window), "test-begun");
  g_assert_nonnull (sw_find_button (GTK_WIDGET (window), "Leave"));
  sw_window_leave_test (window);
  assert_says (todo, "M-07 Long bed: a test was left open");
}

static void
test_sidebar (void)
{
  g_autoptr (BusyPlant) plant = busy_plant_new ();
  SwWindow *window = busy_plant_open_window (plant, "en", 1280, 900, FALSE);
  GtkWidget *sidebar = sw_find_widget (GTK_WIDGET (window), g_type_from_name ("SwSidebar"), NULL);
  GtkWidget *search = sw_find_widget (sidebar, GTK_TYPE_SEARCH_ENTRY, NULL);

  assert_says (sidebar, "7 things");
  assert_says (sidebar, "acid, re-test due");
  assert_says (sidebar, "test open");
  /* Enter takes the only machine that is left. */
  gtk_editable_set_text (GTK_EDITABLE (search), "twin");
  g_signal_emit_by_name (search, "activate");
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (window)), ==, "M-03 Twin tank");
  /* The code of a sample leads to its machine. */
  g_autoptr (SwTitration) titration
      = sw_titration_load (sw_context_get_store (plant->context), plant->open_titration, NULL);
  g_autoptr (SwSample) sample
      = sw_sample_load (sw_context_get_store (plant->context), titration->sample, NULL);
  gtk_editable_set_text (GTK_EDITABLE (search), sample->code);
  g_signal_emit_by_name (search, "activate");
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (window)), ==, "M-11 Rotary");
  gtk_widget_activate_action (GTK_WIDGET (window), "win.todo", NULL);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.move", "i", 1);
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (window)), ==, "Records");
  gtk_widget_activate_action (GTK_WIDGET (window), "win.move", "i", 1);
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (window)), ==, "M-03 Twin tank");
}

static void
test_read_only (void)
{
  g_autoptr (BusyPlant) plant = busy_plant_new_quiet ();

  sw_test_plant_reopen (plant->scene->plant, SW_OPEN_READ_ONLY);
  SwWindow *window = busy_plant_open_window (plant, "en", 1024, 600, FALSE);
  assert_says (GTK_WIDGET (window), "read-only");
  g_assert_false (sw_window_may_write (window));
}

/* Large text: the desktop's text scale reaches the toolkit as a higher resolution, in 1024ths. */
static void
set_dpi (int dpi)
{
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", dpi * 1024, NULL);
}

/* Every size and look that people use; the pictures are for eyes, the drawing is the test. */
static void
test_looks (void)
{
  static const struct
  {
    const char *name;
    const char *language;
    int width, height;
    gboolean dark;
    gboolean contrast;
    int dpi;
  } looks[] = {
    { "small-light", "en", 1024, 600, FALSE, FALSE, 96 },
    { "small-dark", "en", 1024, 600, TRUE, FALSE, 96 },
    { "large-dark", "en", 1280, 900, TRUE, FALSE, 96 },
    { "small-long", "xx", 1024, 600, FALSE, FALSE, 96 },
    { "contrast-light", "en", 1280, 900, FALSE, TRUE, 96 },
    { "contrast-dark", "en", 1280, 900, TRUE, TRUE, 96 },
    { "large-text", "en", 1280, 900, FALSE, FALSE, 144 },
    { "small-large-text", "xx", 1024, 600, FALSE, FALSE, 120 },
  };

  g_autoptr (BusyPlant) plant = busy_plant_new ();
  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    {
      SwWindow *window = busy_plant_open_window (plant, looks[i].language, looks[i].width,
                                                 looks[i].height, looks[i].dark);
      sw_theme_force (looks[i].dark ? SW_SCHEME_DARK : SW_SCHEME_LIGHT, looks[i].contrast);
      set_dpi (looks[i].dpi);
      g_autofree char *todo = g_strconcat ("todo-", looks[i].name, NULL);
      g_autofree char *machine = g_strconcat ("machine-", looks[i].name, NULL);
      sw_snapshot (GTK_WIDGET (window), todo);
      sw_window_show_machine (window, plant->retest.machine);
      sw_snapshot (GTK_WIDGET (window), machine);
      g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, looks[i].width);
      g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, looks[i].height);
      busy_plant_close_window (plant);
    }
  set_dpi (96);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/app/window/to do", test_todo);
  g_test_add_func ("/app/window/to do reviews", test_todo_reviews);
  g_test_add_func ("/app/window/to do follows time", test_todo_follows);
  g_test_add_func ("/app/window/machine", test_machine);
  g_test_add_func ("/app/window/nobody at the bench", test_nobody);
  g_test_add_func ("/app/window/nobody, then somebody", test_nobody_goes_on);
  g_test_add_func ("/app/window/over range", test_over_range);
  g_test_add_func ("/app/window/missing", test_missing);
  g_test_add_func ("/app/window/sidebar", test_sidebar);
  g_test_add_func ("/app/window/read-only", test_read_only);
  g_test_add_func ("/app/window/looks", test_looks);
  return g_test_run ();
}
