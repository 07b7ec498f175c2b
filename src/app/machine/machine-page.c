/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The machine page.
 *
 * `next` is the one thing to do with the machine now, as To Do would word it; its button is the
 * page's accent. The list is asked for anew only when the file changed, not every minute, so that
 * its place and selection stay.
 */
#include "app/machine/machine-page.h"

#include "app/machine/chart-view.h"
#include "app/machine/incident-card.h"
#include "app/machine/test-table.h"
#include "app/todo/todo-words.h"
#include "app/widgets/caution.h"
#include "app/window.h"
#include "wording/sentence-todo.h"
#include "workflow/setup.h"

/* Tests in the chart: years of daily tests. */
#define MOST_IN_CHART 2000

struct _SwMachinePage
{
  GtkWidget parent_instance;

  /* Owned */
  SwContext *context;

  /* Template children */
  GtkLabel *headline;
  GtkLabel *why;
  GtkButton *action;
  SwCautionBar *caution;
  SwIncidentCard *incident;
  GtkWidget *missing;
  GtkBox *missing_list;
  GtkWidget *empty;
  GtkWidget *history;
  SwChartView *chart;
  SwTestTable *table;

  gint64 machine;
  SwTodo next; /* kind SW_N_TODO_KINDS: nothing can be done */
};

G_DEFINE_FINAL_TYPE (SwMachinePage, sw_machine_page, GTK_TYPE_WIDGET)

/* ---- what comes next ---- */

static SwTodoKind
get_next_kind (const SwMachineState *state)
{
  if (state->open_dose != 0)
    return SW_TODO_RECORD_DOSE;
  if (state->open_titration != 0)
    return state->state.code == SW_FACT_STATE_ACID ? SW_TODO_DOSE : SW_TODO_RESUME;
  if (state->retest_dose != 0)
    return SW_TODO_RETEST;
  return state->plan != 0 ? SW_TODO_TEST : SW_N_TODO_KINDS;
}

static SwTodo
get_next (const SwMachineState *state)
{
  return (SwTodo){
    .kind = get_next_kind (state),
    .machine = state->machine,
    .plan = state->plan,
    .titration = state->open_titration,
    .dose = state->open_dose != 0 ? state->open_dose : state->retest_dose,
    .due_ms = state->due_ms,
    .due = TRUE,
    .reason = state->reason,
    .interval_days = state->interval_days,
  };
}

static void
action_cb (GtkButton *button, SwMachinePage *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  if (window == NULL)
    return;
  if (self->next.kind == SW_TODO_RETEST)
    sw_window_begin_test (window, self->next.plan, SW_PURPOSE_RETEST, self->next.dose);
  else if (self->next.kind == SW_TODO_TEST)
    sw_window_begin_test (window, self->next.plan, SW_PURPOSE_ROUTINE, 0);
  else if (self->next.titration != 0)
    sw_window_resume_test (window, self->next.titration);
}

static void
setup_cb (GtkButton *button, SwMachinePage *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  if (window != NULL)
    sw_window_show_setup (window, "machines");
}

static void
records_cb (GtkButton *button, SwMachinePage *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));
  const SwBrowseFilter filter
      = { .table = SW_TABLE_TITRATION, .machine = self->machine, .outcome = -1 };

  if (window != NULL)
    sw_window_show_records (window, &filter);
}

/* ---- showing ---- */

static void
show_next (SwMachinePage *self, const SwMachineState *state, gint64 now_ms)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  gboolean possible;

  self->next = get_next (state);
  possible = self->next.kind != SW_N_TODO_KINDS && state->state.code != SW_FACT_STATE_RETIRED;
  gtk_widget_set_visible (GTK_WIDGET (self->action), possible);
  if (self->next.kind == SW_N_TODO_KINDS)
    {
      gtk_label_set_text (self->why,
                          sw_tr (wording, "No test is planned for this machine. Give it a plan in "
                                          "Set-up."));
      return;
    }
  g_autoptr (SwTodoWords) words = sw_todo_words_new (self->context, &self->next, now_ms);
  gtk_label_set_text (self->why, words->text);
  gtk_button_set_label (self->action, words->button);
}

/* What is still missing before a dose can be shown, one line each. */
static void
show_missing (SwMachinePage *self)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autoptr (GArray) facts
      = sw_setup_missing (sw_context_get_store (self->context), self->machine, NULL);
  GtkWidget *old;

  while ((old = gtk_widget_get_first_child (GTK_WIDGET (self->missing_list))) != NULL)
    gtk_box_remove (self->missing_list, old);
  gtk_widget_set_visible (self->missing, facts != NULL && facts->len > 0);
  for (guint i = 0; facts != NULL && i < facts->len; i++)
    {
      g_autofree char *words = sw_say_fact (wording, &g_array_index (facts, SwFact, i));
      GtkWidget *label = gtk_label_new (words);

      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_box_append (self->missing_list, label);
    }
}

static void
show_state (SwMachinePage *self)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  gint64 now_ms = sw_context_now (self->context);
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;
  SwMachineState state;
  gboolean over_range;

  if (!sw_machine_state (sw_context_get_store (self->context), self->machine, now_ms, &state,
                         &error))
    {
      words = sw_say_error (wording, error);
      gtk_label_set_text (self->headline, words);
      gtk_label_set_text (self->why, "");
      gtk_widget_set_visible (GTK_WIDGET (self->action), FALSE);
      return;
    }
  words = sw_say_state_headline (wording, &state.state, state.last_ms, state.due_ms, now_ms);
  gtk_label_set_text (self->headline, words);
  over_range = state.state.code == SW_FACT_STATE_OVER_RANGE;
  gtk_widget_set_visible (GTK_WIDGET (self->caution), over_range);
  /* There the page says stop; a further test is for the person responsible to order. */
  if (over_range)
    gtk_widget_remove_css_class (GTK_WIDGET (self->action), "sw-accent");
  else
    gtk_widget_add_css_class (GTK_WIDGET (self->action), "sw-accent");
  show_next (self, &state, now_ms);
}

static void
show_history (SwMachinePage *self)
{
  SwStore *store = sw_context_get_store (self->context);
  SwHistory *history = sw_machine_history (store, self->machine, sw_context_now (self->context),
                                           MOST_IN_CHART, NULL);
  gboolean any = history != NULL && history->tests->len > 0;

  gtk_widget_set_visible (self->history, any);
  gtk_widget_set_visible (self->empty, !any);
  sw_chart_view_set_history (self->chart, history, sw_context_get_wording (self->context));
  sw_test_table_set_machine (self->table, self->machine);
}

static void
show_all (SwMachinePage *self)
{
  if (self->machine == 0)
    return;
  show_state (self);
  sw_incident_card_show (self->incident, self->machine);
  show_missing (self);
  show_history (self);
}

void
sw_machine_page_refresh (SwMachinePage *self)
{
  g_return_if_fail (SW_IS_MACHINE_PAGE (self));
  if (self->machine != 0)
    show_state (self);
}

static void
test_chosen_cb (SwChartView *chart, gint64 titration, SwMachinePage *self)
{
  sw_test_table_choose (self->table, titration);
}

/* ---- class ---- */

static void
sw_machine_page_dispose (GObject *object)
{
  SwMachinePage *self = SW_MACHINE_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_machine_page_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, SwMachinePage, headline);
  gtk_widget_class_bind_template_child (widget_class, SwMachinePage, why);
  gtk_widget_class_bind_template_child (widget_class, SwMachinePage, action);
  gtk_widget_class_bind_template_child (widget_class, SwMachinePage, caution);
  gtk_widget_class_bind_template_child (widget_class, SwMachinePage, incident);
  gtk_widget_class_bind_template_child (widget_class, SwMachinePage, missing);
  gtk_widget_class_bind_template_child (widget_class, SwMachinePage, missing_list);
  gtk_widget_class_bind_template_child (widget_class, SwMachinePage, empty);
  gtk_widget_class_bind_template_child (widget_class, SwMachinePage, history);
  gtk_widget_class_bind_template_child (widget_class, SwMachinePage, chart);
  gtk_widget_class_bind_template_child (widget_class, SwMachinePage, table);
}

static void
sw_machine_page_class_init (SwMachinePageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_machine_page_dispose;
  g_type_ensure (SW_TYPE_CHART_VIEW);
  g_type_ensure (SW_TYPE_CAUTION_BAR);
  g_type_ensure (SW_TYPE_TEST_TABLE);
  g_type_ensure (SW_TYPE_INCIDENT_CARD);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/machine/machine-page.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, action_cb);
  gtk_widget_class_bind_template_callback (widget_class, setup_cb);
  gtk_widget_class_bind_template_callback (widget_class, records_cb);
  gtk_widget_class_bind_template_callback (widget_class, test_chosen_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_machine_page_init (SwMachinePage *self)
{
  self->next.kind = SW_N_TODO_KINDS;
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_machine_page_set_context (SwMachinePage *self, SwContext *context)
{
  g_return_if_fail (SW_IS_MACHINE_PAGE (self) && self->context == NULL);

  self->context = g_object_ref (context);
  sw_test_table_set_context (self->table, context);
  sw_incident_card_set_context (self->incident, context);
  sw_caution_bar_set (self->caution, sw_context_get_wording (context), SW_CAUTION_OVER_RANGE);
  g_signal_connect_object (context, "changed", G_CALLBACK (show_all), self, G_CONNECT_SWAPPED);
}

void
sw_machine_page_show (SwMachinePage *self, gint64 machine)
{
  g_return_if_fail (SW_IS_MACHINE_PAGE (self));
  if (self->machine == machine)
    return;
  self->machine = machine;
  show_all (self);
}

gint64
sw_machine_page_get_machine (SwMachinePage *self)
{
  g_return_val_if_fail (SW_IS_MACHINE_PAGE (self), 0);
  return self->machine;
}
