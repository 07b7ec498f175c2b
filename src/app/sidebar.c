/* SPDX-License-Identifier: GPL-3.0-or-later */
/* To Do, Records and the machines.
 *
 * Machines stand in the order of their tags, not of urgency: a list that reshuffles under the hand
 * makes people press the wrong row, and To Do has the order of urgency already. Rows are kept by
 * machine and filled anew, so that focus and selection stay.
 *
 * "chosen" is emitted for a person's choice only; `silent` is set while the program selects.
 */
#include "app/sidebar.h"

#include "app/sidebar-row.h"
#include "wording/sentence-todo.h"
#include "workflow/due.h"

struct _SwSidebar
{
  GtkWidget parent_instance;

  /* Owned */
  SwContext *context;
  GHashTable *rows; /* machine (gint64 *) to SwSidebarRow (borrowed from the list) */

  /* Template children */
  GtkListBox *list;
  GtkSearchEntry *search;
  GtkLabel *nothing_found;

  gboolean silent;
};

enum
{
  SIGNAL_CHOSEN,
  SIGNAL_LOT_CHOSEN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwSidebar, sw_sidebar, GTK_TYPE_WIDGET)

/* ---- order and filter ---- */

static int
compare_rows (GtkListBoxRow *a, GtkListBoxRow *b, gpointer data)
{
  gint64 first = sw_sidebar_row_get_machine (SW_SIDEBAR_ROW (a));
  gint64 second = sw_sidebar_row_get_machine (SW_SIDEBAR_ROW (b));

  /* To Do is 0, Records below 0: they stand on top, in this order. */
  if (first <= 0 || second <= 0)
    return first <= 0 && second <= 0 ? (first < 0) - (second < 0) : (first > 0) - (second > 0);
  return g_utf8_collate (sw_sidebar_row_get_name (SW_SIDEBAR_ROW (a)),
                         sw_sidebar_row_get_name (SW_SIDEBAR_ROW (b)));
}

static gboolean
row_is_wanted (GtkListBoxRow *row, gpointer data)
{
  SwSidebar *self = SW_SIDEBAR (data);
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->search));

  if (*text == '\0')
    return TRUE;
  return sw_sidebar_row_get_machine (SW_SIDEBAR_ROW (row)) > 0
         && sw_sidebar_row_matches (SW_SIDEBAR_ROW (row), text);
}

/* ---- filling ---- */

static SwSidebarRow *
ensure_row (SwSidebar *self, gint64 machine)
{
  SwSidebarRow *row = g_hash_table_lookup (self->rows, &machine);

  if (row != NULL)
    return row;
  row = SW_SIDEBAR_ROW (sw_sidebar_row_new (machine));
  gtk_list_box_append (self->list, GTK_WIDGET (row));
  g_hash_table_insert (self->rows, g_memdup2 (&machine, sizeof machine), row);
  return row;
}

static void
add_records (SwSidebar *self)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  SwSidebarRow *row = ensure_row (self, SW_SIDEBAR_RECORDS);

  sw_sidebar_row_set_words (row, sw_trc (wording, "page", "Records"),
                            sw_tr (wording, "everything on file"), "");
  sw_sidebar_row_set_icon (row, "view-list-symbolic");
}

/* What stands at the end of a machine's row. */
static char *
dup_due (const SwWording *wording, const SwMachineState *state, gint64 now_ms)
{
  if (state->open_titration != 0)
    return g_strdup (sw_trc (wording, "sidebar", "resume"));
  if (state->due_ms == 0)
    return g_strdup ("");
  return sw_due_format (wording, state->due_ms, now_ms);
}

static void
fill_machine_row (SwSidebar *self, const SwMachine *machine, gint64 now_ms)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  SwSidebarRow *row = ensure_row (self, machine->record.id);
  g_autofree char *name = sw_say_machine_name (wording, machine->tag, machine->name);
  g_autofree char *word = NULL;
  g_autofree char *due = NULL;
  g_autoptr (GError) error = NULL;
  SwMachineState state;

  if (!sw_machine_state (sw_context_get_store (self->context), machine->record.id, now_ms, &state,
                         &error))
    {
      word = sw_say_error (wording, error);
      sw_sidebar_row_set_words (row, name, word, "");
      sw_sidebar_row_set_mark (row, SW_VERDICT_UNKNOWN);
      return;
    }
  word = sw_say_state_word (wording, &state.state);
  due = dup_due (wording, &state, now_ms);
  sw_sidebar_row_set_words (row, name, word, due);
  sw_sidebar_row_set_mark (row, sw_verdict_of_state (state.state.code));
}

/* Takes away the rows of machines that are no longer in the file or in service. */
static void
drop_rows (SwSidebar *self, GHashTable *present)
{
  GHashTableIter iter;
  gpointer key;
  gpointer row;

  g_hash_table_iter_init (&iter, self->rows);
  while (g_hash_table_iter_next (&iter, &key, &row))
    if (!g_hash_table_contains (present, key))
      {
        gtk_list_box_remove (self->list, row);
        g_hash_table_iter_remove (&iter);
      }
}

void
sw_sidebar_refresh (SwSidebar *self)
{
  g_return_if_fail (SW_IS_SIDEBAR (self));

  SwStore *store = sw_context_get_store (self->context);
  gint64 now_ms = sw_context_now (self->context);
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_MACHINE, NULL, 0, NULL);
  g_autoptr (GHashTable) present = g_hash_table_new (g_int64_hash, g_int64_equal);
  static const gint64 todo = 0, records = SW_SIDEBAR_RECORDS;

  g_hash_table_add (present, (gpointer)&todo);
  g_hash_table_add (present, (gpointer)&records);
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gint64 *id = &g_array_index (ids, gint64, i);
      g_autoptr (SwMachine) machine = sw_machine_load (store, *id, NULL);

      if (machine == NULL || machine->service == SW_SERVICE_RETIRED)
        continue;
      g_hash_table_add (present, id);
      fill_machine_row (self, machine, now_ms);
    }
  drop_rows (self, present);
  gtk_list_box_invalidate_sort (self->list);
  gtk_list_box_invalidate_filter (self->list);
}

/* ---- a person's choice ---- */

static void
choose (SwSidebar *self, GtkListBoxRow *row)
{
  g_signal_emit (self, signals[SIGNAL_CHOSEN], 0,
                 sw_sidebar_row_get_machine (SW_SIDEBAR_ROW (row)));
}

static void
selected_cb (GtkListBox *list, GtkListBoxRow *row, SwSidebar *self)
{
  if (row != NULL && !self->silent)
    choose (self, row);
}

/* A press on the row that is selected already: its page may not be the one on screen. */
static void
activated_cb (GtkListBox *list, GtkListBoxRow *row, SwSidebar *self)
{
  choose (self, row);
}

static void
search_changed_cb (GtkSearchEntry *entry, SwSidebar *self)
{
  gtk_label_set_text (self->nothing_found,
                      sw_tr (sw_context_get_wording (self->context),
                             "No machine like that. Press Enter to look for a sample or lot with "
                             "this code."));
  gtk_list_box_invalidate_filter (self->list);
}

static void
search_stopped_cb (GtkSearchEntry *entry, SwSidebar *self)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (self->list);

  gtk_editable_set_text (GTK_EDITABLE (entry), "");
  if (row != NULL)
    gtk_widget_grab_focus (GTK_WIDGET (row));
}

/* The first row below @from in steps of @by that is shown, or NULL. */
static GtkListBoxRow *
find_shown_row (SwSidebar *self, int from, int by)
{
  for (int i = from;; i += by)
    {
      GtkListBoxRow *row = i >= 0 ? gtk_list_box_get_row_at_index (self->list, i) : NULL;
      if (row == NULL || gtk_widget_get_child_visible (GTK_WIDGET (row)))
        return row;
    }
}

/* The code of a sample leads to its machine, the code of a lot to the lots. */
static gboolean
choose_by_code (SwSidebar *self, const char *code)
{
  SwStore *store = sw_context_get_store (self->context);
  g_autoptr (GArray) samples = sw_record_ids_by_text (store, SW_TABLE_SAMPLE, "code", code, NULL);
  g_autoptr (GArray) lots = sw_record_ids_by_text (store, SW_TABLE_LOT, "code", code, NULL);

  if (samples != NULL && samples->len > 0)
    {
      g_autoptr (SwSample) sample
          = sw_sample_load (store, g_array_index (samples, gint64, 0), NULL);
      if (sample == NULL)
        return FALSE;
      g_signal_emit (self, signals[SIGNAL_CHOSEN], 0, sample->machine);
      return TRUE;
    }
  if (lots != NULL && lots->len > 0)
    {
      g_signal_emit (self, signals[SIGNAL_LOT_CHOSEN], 0, g_array_index (lots, gint64, 0));
      return TRUE;
    }
  return FALSE;
}

static void
search_activated_cb (GtkSearchEntry *entry, SwSidebar *self)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));

  if (*text == '\0')
    return;
  /* The list filters after a short pause in typing; Enter does not wait for it. */
  gtk_list_box_invalidate_filter (self->list);
  GtkListBoxRow *row = find_shown_row (self, 0, 1);
  gboolean found = row != NULL || choose_by_code (self, text);
  if (row != NULL)
    choose (self, row);
  if (found)
    gtk_editable_set_text (GTK_EDITABLE (entry), "");
  else
    gtk_label_set_text (self->nothing_found,
                        sw_tr (sw_context_get_wording (self->context),
                               "No machine, sample or lot like that. Codes are searched as a "
                               "whole."));
}

/* ---- class ---- */

static void
sw_sidebar_dispose (GObject *object)
{
  SwSidebar *self = SW_SIDEBAR (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  self->silent = TRUE;
  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_pointer (&self->rows, g_hash_table_unref);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_sidebar_parent_class)->dispose (object);
}

static void
sw_sidebar_class_init (SwSidebarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_sidebar_dispose;
  signals[SIGNAL_CHOSEN] = g_signal_new ("chosen", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                         G_TYPE_NONE, 1, G_TYPE_INT64);
  signals[SIGNAL_LOT_CHOSEN] = g_signal_new ("lot-chosen", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                             NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/sidebar.ui");
  gtk_widget_class_bind_template_child (widget_class, SwSidebar, list);
  gtk_widget_class_bind_template_child (widget_class, SwSidebar, search);
  gtk_widget_class_bind_template_child (widget_class, SwSidebar, nothing_found);
  gtk_widget_class_bind_template_callback (widget_class, selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, search_stopped_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_NAVIGATION);
}

static void
sw_sidebar_init (SwSidebar *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->rows = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  gtk_list_box_set_sort_func (self->list, compare_rows, self, NULL);
  gtk_list_box_set_filter_func (self->list, row_is_wanted, self, NULL);
}

void
sw_sidebar_set_context (SwSidebar *self, SwContext *context)
{
  g_return_if_fail (SW_IS_SIDEBAR (self) && self->context == NULL);

  self->context = g_object_ref (context);
  g_signal_connect_object (context, "changed", G_CALLBACK (sw_sidebar_refresh), self,
                           G_CONNECT_SWAPPED);
  sw_sidebar_set_todo_count (self, 0);
  add_records (self);
  sw_sidebar_refresh (self);
}

void
sw_sidebar_set_todo_count (SwSidebar *self, guint count)
{
  g_return_if_fail (SW_IS_SIDEBAR (self));

  const SwWording *wording = sw_context_get_wording (self->context);
  SwSidebarRow *row = ensure_row (self, 0);
  g_autofree char *words = sw_say_todo_count (wording, count);
  g_autofree char *number = sw_number_format (wording, count, 4);
  sw_sidebar_row_set_words (row, sw_trc (wording, "page", "To Do"), words, "");
  sw_sidebar_row_set_count (row, number);
}

void
sw_sidebar_select (SwSidebar *self, gint64 machine)
{
  g_return_if_fail (SW_IS_SIDEBAR (self));

  SwSidebarRow *row = g_hash_table_lookup (self->rows, &machine);
  self->silent = TRUE;
  gtk_list_box_select_row (self->list, row != NULL ? GTK_LIST_BOX_ROW (row) : NULL);
  self->silent = FALSE;
}

void
sw_sidebar_move (SwSidebar *self, int by)
{
  g_return_if_fail (SW_IS_SIDEBAR (self) && by != 0);

  GtkListBoxRow *row = gtk_list_box_get_selected_row (self->list);
  int from = row != NULL ? gtk_list_box_row_get_index (row) + by : 0;
  GtkListBoxRow *next = find_shown_row (self, from, by > 0 ? 1 : -1);
  if (next != NULL)
    gtk_list_box_select_row (self->list, next);
}

void
sw_sidebar_find (SwSidebar *self)
{
  g_return_if_fail (SW_IS_SIDEBAR (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->search));
}
