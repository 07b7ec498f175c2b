/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The To Do page.
 *
 * It is read anew on every change of the file and once a minute, and built anew only when what it
 * says has changed: `shown` holds the words on screen. The focus stays on the card at the same
 * place, which after a press is the next thing to do.
 */
#include "app/todo/todo-page.h"

#include "app/todo/todo-act.h"
#include "app/todo/todo-card.h"
#include "app/todo/todo-words.h"
#include "app/window.h"
#include "wording/sentence-todo.h"

struct _SwTodoPage
{
  GtkWidget parent_instance;

  /* Owned */
  SwContext *context;
  char *shown;
  SwTodo reviews; /* the reviewer's line as last asked for; kind SW_N_TODO_KINDS: there is none */
  gint64 reviewer;

  /* Template children */
  GtkLabel *heading;
  GtkLabel *next;
  GtkBox *cards;
  GtkWidget *empty;
  GtkLabel *empty_text;
  GtkButton *empty_button;
  GtkWidget *done;
  GtkListBox *done_list;

  guint count;
};

enum
{
  PROP_COUNT = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (SwTodoPage, sw_todo_page, GTK_TYPE_WIDGET)

/* What stands in a machine's way is told there; To Do names at most so many closed tests. */
#define MOST_DONE 20
#define WORDS_KEY "sw-todo-words"

/* ---- a press ---- */

static void
pressed_cb (SwTodoCard *card, SwTodoPage *self)
{
  const SwTodoWords *words = g_object_get_data (G_OBJECT (card), WORDS_KEY);
  SwWindow *window = sw_window_of (GTK_WIDGET (self));
  /* The card may be gone when the press is done with. */
  SwTodo todo = words->todo;

  if (window != NULL)
    sw_todo_act (self->context, window, &todo);
}

static void
empty_pressed_cb (GtkButton *button, SwTodoPage *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  if (window != NULL)
    sw_window_show_setup (window, "machines");
}

/* ---- building ---- */

/* The place of the card that has the focus, or -1. */
static int
find_focus (SwTodoPage *self)
{
  int place = 0;

  for (GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (self->cards)); card != NULL;
       card = gtk_widget_get_next_sibling (card), place++)
    if (gtk_widget_get_focus_child (card) != NULL)
      return place;
  return -1;
}

static void
restore_focus (SwTodoPage *self, int place)
{
  GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (self->cards));

  if (place < 0 || card == NULL)
    return;
  for (GtkWidget *next; place > 0 && (next = gtk_widget_get_next_sibling (card)) != NULL; place--)
    card = next;
  gtk_widget_grab_focus (card);
}

/* The cards take the words out of @now. */
static void
build_cards (SwTodoPage *self, GPtrArray *now)
{
  int focus = find_focus (self);
  GtkWidget *old;

  while ((old = gtk_widget_get_first_child (GTK_WIDGET (self->cards))) != NULL)
    gtk_box_remove (self->cards, old);
  gsize n = 0;
  g_autofree gpointer *taken = g_ptr_array_steal (now, &n);
  for (gsize i = 0; i < n; i++)
    {
      SwTodoWords *words = taken[i];
      GtkWidget *card
          = sw_todo_card_new (words->mark, words->title, words->text, words->button, i == 0);
      g_object_set_data_full (G_OBJECT (card), WORDS_KEY, words,
                              (GDestroyNotify)sw_todo_words_free);
      g_signal_connect_object (card, "pressed", G_CALLBACK (pressed_cb), self, 0);
      gtk_box_append (self->cards, card);
    }
  restore_focus (self, focus);
}

static GtkWidget *
make_done_row (SwVerdictKind mark, const char *words)
{
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *label = gtk_label_new (words);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_box_append (GTK_BOX (box), sw_verdict_new (mark, 12));
  gtk_box_append (GTK_BOX (box), label);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  return row;
}

/* Closed tests since midnight, newest first. */
static void
build_done (SwTodoPage *self, gint64 now_ms)
{
  SwStore *store = sw_context_get_store (self->context);
  gint64 from_ms = sw_day_start (sw_context_get_wording (self->context), now_ms);
  g_autoptr (GArray) ids = sw_titration_closed_ids (store, 0, from_ms, 0, MOST_DONE, NULL);
  GtkWidget *old;

  while ((old = GTK_WIDGET (gtk_list_box_get_row_at_index (self->done_list, 0))) != NULL)
    gtk_list_box_remove (self->done_list, old);
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      SwVerdictKind mark = SW_VERDICT_UNKNOWN;
      g_autofree char *words
          = sw_todo_words_done (self->context, g_array_index (ids, gint64, i), &mark);
      if (words != NULL)
        gtk_list_box_append (self->done_list, make_done_row (mark, words));
    }
  gtk_widget_set_visible (self->done, gtk_list_box_get_row_at_index (self->done_list, 0) != NULL);
}

/* Nothing to do is one thing when all is well and another when no machine is on file yet. */
static void
build_empty (SwTodoPage *self, gboolean nothing_now, gboolean nothing_next)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autoptr (GArray) machines
      = sw_record_ids (sw_context_get_store (self->context), SW_TABLE_MACHINE, NULL, 0, NULL);
  gboolean no_machine = machines == NULL || machines->len == 0;

  gtk_widget_set_visible (self->empty, nothing_now && (no_machine || nothing_next));
  gtk_widget_set_visible (GTK_WIDGET (self->empty_button), no_machine);
  gtk_label_set_text (
      self->empty_text,
      no_machine ? sw_tr (wording, "No machine is on file yet. Set one up, and its first test "
                                   "will stand here.")
                 : sw_tr (wording, "No test is planned. Give each machine a plan in Set-up, so "
                                   "that it says here when it is due."));
}

static void
show_next (SwTodoPage *self, const SwTodoWords *next, gboolean alone, gint64 now_ms)
{
  gtk_widget_set_visible (GTK_WIDGET (self->next), next != NULL);
  if (next == NULL)
    return;
  g_autofree char *words = sw_say_todo_next (sw_context_get_wording (self->context), next->subject,
                                             next->todo.due_ms, now_ms, alone);
  gtk_label_set_text (self->next, words);
}

static void
show_error (SwTodoPage *self, const GError *error)
{
  g_autofree char *words = sw_say_error (sw_context_get_wording (self->context), error);

  gtk_label_set_text (self->heading, words);
}

/* ---- reading ---- */

/* Splits the list into what is due now and the first that comes later. */
static void
split (SwTodoPage *self, GArray *todos, gint64 now_ms, GPtrArray *now, SwTodoWords **next)
{
  for (guint i = 0; i < todos->len && *next == NULL; i++)
    {
      const SwTodo *todo = &g_array_index (todos, SwTodo, i);
      SwTodoWords *words = sw_todo_words_new (self->context, todo, now_ms);

      if (todo->due)
        g_ptr_array_add (now, words);
      else
        *next = words;
    }
}

static char *
join_words (GPtrArray *now)
{
  GString *all = g_string_new (NULL);

  for (guint i = 0; i < now->len; i++)
    {
      const SwTodoWords *words = now->pdata[i];
      g_string_append_printf (all, "%d %s %s %s\n", (int)words->mark, words->title, words->text,
                              words->button);
    }
  return g_string_free (all, FALSE);
}

static void
set_count (SwTodoPage *self, guint count)
{
  g_autofree char *words = sw_say_todo_heading (sw_context_get_wording (self->context), count);

  gtk_label_set_text (self->heading, words);
  if (self->count == count)
    return;
  self->count = count;
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_COUNT]);
}

static void
remember_reviews (SwTodoPage *self, GArray *todos)
{
  self->reviews.kind = SW_N_TODO_KINDS;
  for (guint i = 0; i < todos->len; i++)
    if (g_array_index (todos, SwTodo, i).kind == SW_TODO_REVIEW_TESTS)
      self->reviews = g_array_index (todos, SwTodo, i);
}

/* It is the last of what is due. */
static void
insert_reviews (SwTodoPage *self, GArray *todos)
{
  guint place = 0;

  while (place < todos->len && g_array_index (todos, SwTodo, place).due)
    place++;
  if (self->reviews.kind != SW_N_TODO_KINDS)
    g_array_insert_val (todos, place, self->reviews);
}

/* What waits for a review is looked for in all tests there ever were: with 100,000 of them a third
 * of a second, which nobody at work on another page has to wait for. */
static gboolean
add_reviews (SwTodoPage *self, GArray *todos, GError **error)
{
  gint64 person = sw_context_get_person (self->context);

  if (person == self->reviewer && !gtk_widget_get_mapped (GTK_WIDGET (self)))
    {
      insert_reviews (self, todos);
      return TRUE;
    }
  if (!sw_todo_add_reviews (sw_context_get_store (self->context), person, todos, error))
    return FALSE;
  self->reviewer = person;
  remember_reviews (self, todos);
  return TRUE;
}

void
sw_todo_page_refresh (SwTodoPage *self)
{
  g_return_if_fail (SW_IS_TODO_PAGE (self));

  gint64 now_ms = sw_context_now (self->context);
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) todos = sw_todo_list (sw_context_get_store (self->context), now_ms, &error);
  g_autoptr (GPtrArray) now = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_todo_words_free);
  g_autoptr (SwTodoWords) next = NULL;

  if (todos == NULL || !add_reviews (self, todos, &error))
    {
      show_error (self, error);
      return;
    }
  split (self, todos, now_ms, now, &next);
  set_count (self, now->len);
  show_next (self, next, now->len == 0, now_ms);
  build_empty (self, now->len == 0, next == NULL);
  build_done (self, now_ms);

  g_autofree char *words = join_words (now);
  if (g_strcmp0 (words, self->shown) == 0)
    return;
  g_free (self->shown);
  self->shown = g_steal_pointer (&words);
  build_cards (self, now);
}

/* ---- class ---- */

/* The most urgent thing, so that Enter begins it. */
static gboolean
sw_todo_page_grab_focus (GtkWidget *widget)
{
  GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (SW_TODO_PAGE (widget)->cards));

  return card != NULL && gtk_widget_grab_focus (card);
}

static void
sw_todo_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  g_value_set_uint (value, SW_TODO_PAGE (object)->count);
}

static void
sw_todo_page_dispose (GObject *object)
{
  SwTodoPage *self = SW_TODO_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_pointer (&self->shown, g_free);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_todo_page_parent_class)->dispose (object);
}

static void
sw_todo_page_class_init (SwTodoPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = sw_todo_page_get_property;
  object_class->dispose = sw_todo_page_dispose;
  widget_class->grab_focus = sw_todo_page_grab_focus;
  props[PROP_COUNT] = g_param_spec_uint ("count", NULL, NULL, 0, G_MAXUINT, 0,
                                         G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/todo/todo-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwTodoPage, heading);
  gtk_widget_class_bind_template_child (widget_class, SwTodoPage, next);
  gtk_widget_class_bind_template_child (widget_class, SwTodoPage, cards);
  gtk_widget_class_bind_template_child (widget_class, SwTodoPage, empty);
  gtk_widget_class_bind_template_child (widget_class, SwTodoPage, empty_text);
  gtk_widget_class_bind_template_child (widget_class, SwTodoPage, empty_button);
  gtk_widget_class_bind_template_child (widget_class, SwTodoPage, done);
  gtk_widget_class_bind_template_child (widget_class, SwTodoPage, done_list);
  gtk_widget_class_bind_template_callback (widget_class, empty_pressed_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_todo_page_init (SwTodoPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->reviews.kind = SW_N_TODO_KINDS;
}

void
sw_todo_page_set_context (SwTodoPage *self, SwContext *context)
{
  g_return_if_fail (SW_IS_TODO_PAGE (self) && self->context == NULL);

  self->context = g_object_ref (context);
  g_signal_connect_object (context, "changed", G_CALLBACK (sw_todo_page_refresh), self,
                           G_CONNECT_SWAPPED);
  /* Who works has reviews of their own to do. */
  g_signal_connect_object (context, "person-changed", G_CALLBACK (sw_todo_page_refresh), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect (self, "map", G_CALLBACK (sw_todo_page_refresh), NULL);
  sw_todo_page_refresh (self);
}

guint
sw_todo_page_get_count (SwTodoPage *self)
{
  g_return_val_if_fail (SW_IS_TODO_PAGE (self), 0);
  return self->count;
}
