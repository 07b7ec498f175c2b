/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window.
 *
 *   frame: "plant" ----begin, resume----> "test"        the test covers the sidebar
 *            ^  pages: todo, machine,        |
 *            |  records, setup                |
 *            +-----leave, or any show_...-----+
 *
 * Invariants:
 *   1. The test page holds a test exactly while the frame shows "test".
 *   2. The sidebar's selection is the page shown: To Do, Records, a machine, or nothing for set-up.
 *   3. Records, set-up and test pages are made when first asked for.
 */
#include "app/window-private.h"

#include "app/setup/setup-page.h"
#include "app/plant-words.h"
#include "app/verify/verify-page.h"
#include "workflow/guided.h"

/* What a minute changes: how late things are, what is due today. */
#define REFRESH_S 60

G_DEFINE_FINAL_TYPE (SwWindow, sw_window, GTK_TYPE_APPLICATION_WINDOW)

/* ---- where one is ---- */

void
sw_window_set_place (SwWindow *self, const char *title)
{
  gtk_label_set_text (self->title, title);
  gtk_window_set_title (GTK_WINDOW (self), title);
}

gboolean
sw_window_shows_test (SwWindow *self)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (self->frame), "test") == 0;
}

gboolean
sw_window_shows_page (SwWindow *self, const char *name)
{
  return g_strcmp0 (gtk_stack_get_visible_child_name (self->pages), name) == 0;
}

/* Title and selection of the page that the sidebar's side shows. */
void
sw_window_show_place (SwWindow *self)
{
  gint64 machine = sw_machine_page_get_machine (self->machine);

  if (sw_window_shows_page (self, "machine"))
    {
      g_autofree char *name = sw_plant_machine_name (self->context, machine);
      sw_window_set_place (self, name);
      sw_sidebar_select (self->sidebar, machine);
    }
  else if (sw_window_shows_page (self, "setup"))
    {
      sw_window_set_place (self, sw_trc (sw_context_get_wording (self->context), "page", "Set-up"));
      sw_sidebar_select (self->sidebar, SW_SIDEBAR_NOTHING);
    }
  else if (sw_window_shows_page (self, "verify"))
    {
      sw_window_set_place (
          self, sw_trc (sw_context_get_wording (self->context), "page", "Verify Records"));
      sw_sidebar_select (self->sidebar, SW_SIDEBAR_NOTHING);
    }
  else if (sw_window_shows_page (self, "records"))
    {
      sw_window_set_place (self,
                           sw_trc (sw_context_get_wording (self->context), "page", "Records"));
      sw_sidebar_select (self->sidebar, SW_SIDEBAR_RECORDS);
    }
  else
    {
      sw_window_set_place (self, "Stillwarden");
      sw_sidebar_select (self->sidebar, 0);
    }
}

/* Away from a test that may be open: the file keeps it where it stands. */
void
sw_window_show_plant (SwWindow *self)
{
  if (!sw_window_shows_test (self))
    return;
  gtk_stack_set_visible_child_name (self->frame, "plant");
  sw_test_page_close (SW_TEST_PAGE (self->test));
  sw_context_changed (self->context);
}

void
sw_window_show_page (SwWindow *self, const char *name)
{
  sw_window_show_plant (self);
  gtk_stack_set_visible_child_name (self->pages, name);
  sw_window_show_place (self);
}

void
sw_window_show_todo (SwWindow *self)
{
  g_return_if_fail (SW_IS_WINDOW (self));
  sw_window_show_page (self, "todo");
}

void
sw_window_show_machine (SwWindow *self, gint64 machine)
{
  g_return_if_fail (SW_IS_WINDOW (self));
  sw_machine_page_show (self->machine, machine);
  sw_window_show_page (self, "machine");
}

void
sw_window_show_setup (SwWindow *self, const char *section)
{
  g_return_if_fail (SW_IS_WINDOW (self));

  if (self->setup == NULL)
    {
      self->setup = sw_setup_page_new (self->context);
      gtk_stack_add_named (self->pages, self->setup, "setup");
    }
  sw_setup_page_show (SW_SETUP_PAGE (self->setup), section);
  sw_window_show_page (self, "setup");
}

void
sw_window_show_verify (SwWindow *self)
{
  g_return_if_fail (SW_IS_WINDOW (self));

  if (self->verify == NULL)
    {
      self->verify = sw_verify_page_new (self->context);
      gtk_stack_add_named (self->pages, self->verify, "verify");
    }
  sw_window_show_page (self, "verify");
}

/* ---- messages ---- */

void
sw_window_toast (SwWindow *self, const char *text)
{
  g_return_if_fail (SW_IS_WINDOW (self));
  sw_toast_show (self->toast, text, FALSE);
}

void
sw_window_toast_error (SwWindow *self, const GError *error)
{
  g_return_if_fail (SW_IS_WINDOW (self) && error != NULL);

  g_autofree char *words = sw_plant_say_error (sw_context_get_wording (self->context), error);
  sw_toast_show (self->toast, words, TRUE);
}

/* ---- the sidebar and time ---- */

static void
chosen_cb (SwSidebar *sidebar, gint64 machine, SwWindow *self)
{
  if (machine == 0)
    sw_window_show_todo (self);
  else if (machine == SW_SIDEBAR_RECORDS)
    sw_window_show_records (self, NULL);
  else
    sw_window_show_machine (self, machine);
}

static void
lot_chosen_cb (SwSidebar *sidebar, gint64 lot, SwWindow *self)
{
  sw_window_show_setup (self, "lots");
}

static void
backups_cb (SwWindow *self)
{
  sw_window_show_setup (self, "backups");
}

/* The list of people closed; what was picked has been gone on with by now. */
static void
closed_cb (SwPersonButton *person, SwWindow *self)
{
  sw_window_give_up (self);
}

static void
count_changed_cb (SwTodoPage *todo, GParamSpec *pspec, SwWindow *self)
{
  sw_sidebar_set_todo_count (self->sidebar, sw_todo_page_get_count (todo));
}

void
sw_window_refresh (SwWindow *self)
{
  g_return_if_fail (SW_IS_WINDOW (self));

  sw_todo_page_refresh (self->todo);
  sw_sidebar_refresh (self->sidebar);
  sw_machine_page_refresh (self->machine);
}

static gboolean
refresh_cb (gpointer data)
{
  sw_window_refresh (SW_WINDOW (data));
  return G_SOURCE_CONTINUE;
}

/* ---- actions ---- */

static void
todo_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_window_show_todo (SW_WINDOW (widget));
}

static void
records_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_window_show_records (SW_WINDOW (widget), NULL);
  /* Whoever walks down the sidebar stays in it; who asks for the page goes to it. */
  gtk_widget_grab_focus (SW_WINDOW (widget)->records);
}

static void
setup_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_window_show_setup (SW_WINDOW (widget), NULL);
}

static void
verify_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_window_show_verify (SW_WINDOW (widget));
}

static void
find_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_window_find (SW_WINDOW (widget));
}

static void
who_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_person_button_ask (SW_WINDOW (widget)->person);
}

/* Up and down the sidebar, from wherever the focus is. */
static void
move_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (!sw_window_shows_test (SW_WINDOW (widget)))
    sw_sidebar_move (SW_WINDOW (widget)->sidebar, g_variant_get_int32 (parameter));
}

/* ---- class ---- */

static void
sw_window_dispose (GObject *object)
{
  SwWindow *self = SW_WINDOW (object);

  g_clear_handle_id (&self->timer, g_source_remove);
  g_clear_handle_id (&self->idle_timer, g_source_remove);
  /* The test may hold the store: it goes before the context does. */
  if (self->test != NULL && sw_window_shows_test (self))
    sw_test_page_close (SW_TEST_PAGE (self->test));
  self->test = NULL;
  self->setup = NULL;
  self->verify = NULL;
  self->records = NULL;
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_window_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, SwWindow, menu);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, title);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, person);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, demo_banner);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, read_only_banner);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, read_only_text);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, secret_banner);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, trust_banner);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, trust_text);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, backup_banner);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, backup_text);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, frame);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, sidebar);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, pages);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, todo);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, machine);
  gtk_widget_class_bind_template_child (widget_class, SwWindow, toast);
}

static void
sw_window_class_init (SwWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_window_dispose;
  g_type_ensure (SW_TYPE_MACHINE_PAGE);
  g_type_ensure (SW_TYPE_PERSON_BUTTON);
  g_type_ensure (SW_TYPE_SIDEBAR);
  g_type_ensure (SW_TYPE_TOAST);
  g_type_ensure (SW_TYPE_TODO_PAGE);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/window.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, lot_chosen_cb);
  gtk_widget_class_bind_template_callback (widget_class, closed_cb);
  gtk_widget_class_bind_template_callback (widget_class, backups_cb);
  gtk_widget_class_bind_template_callback (widget_class, sw_window_ask_first_secret);
  gtk_widget_class_bind_template_callback (widget_class, count_changed_cb);
  gtk_widget_class_install_action (widget_class, "win.todo", NULL, todo_cb);
  gtk_widget_class_install_action (widget_class, "win.records", NULL, records_cb);
  gtk_widget_class_install_action (widget_class, "win.setup", NULL, setup_cb);
  gtk_widget_class_install_action (widget_class, "win.verify", NULL, verify_cb);
  gtk_widget_class_install_action (widget_class, "win.find", NULL, find_cb);
  gtk_widget_class_install_action (widget_class, "win.who", NULL, who_cb);
  gtk_widget_class_install_action (widget_class, "win.move", "i", move_cb);
}

static void
sw_window_init (SwWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
show_banners (SwWindow *self)
{
  SwStore *store = sw_context_get_store (self->context);
  g_autofree char *owner = sw_store_dup_owner (sw_store_get_path (store));
  SwFact fact = sw_fact_with_text (SW_FACT_READ_ONLY, owner != NULL ? owner : "");
  g_autofree char *words = sw_say_fact (sw_context_get_wording (self->context), &fact);

  gtk_widget_set_visible (self->demo_banner, sw_context_is_demo (self->context));
  gtk_widget_set_visible (self->read_only_banner, sw_store_is_read_only (store));
  gtk_label_set_text (self->read_only_text, words);
}

SwWindow *
sw_window_new (GtkApplication *application, SwContext *context)
{
  SwWindow *self = g_object_new (SW_TYPE_WINDOW, "application", application, NULL);

  self->context = g_object_ref (context);
  sw_person_button_set_context (self->person, context);
  sw_sidebar_set_context (self->sidebar, context);
  sw_todo_page_set_context (self->todo, context);
  sw_machine_page_set_context (self->machine, context);
  g_signal_connect_object (context, "person-changed", G_CALLBACK (sw_window_go_on), self,
                           G_CONNECT_SWAPPED);
  show_banners (self);
  sw_window_watch_backups (self);
  sw_window_watch_people (self);
  sw_window_watch_trust (self);
  sw_window_watch_undo (self);
  sw_window_show_todo (self);
  gtk_widget_grab_focus (GTK_WIDGET (self->todo));
  self->timer = g_timeout_add_seconds (REFRESH_S, refresh_cb, self);
  return self;
}

SwContext *
sw_window_get_context (SwWindow *self)
{
  g_return_val_if_fail (SW_IS_WINDOW (self), NULL);
  return self->context;
}

SwWindow *
sw_window_of (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);

  return SW_IS_WINDOW (root) ? SW_WINDOW (root) : NULL;
}
