/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame: one page per step of the test, and nothing that the file does not know.
 *
 *   open ----> page of the step <---- moved ----+
 *                | Back, a page's button        |
 *                +------------------------------+
 *                | asks for a reason: ask page, then moved or cancelled
 *                | Leave, Escape: closed; the file keeps the test where it stands
 *
 * Invariants:
 *   1. test is NULL exactly while nothing is shown.
 *   2. The page shown is that of sw_guided_test_get_step, or the ask page above it.
 *   3. Nothing is written here; every move is one act of workflow.
 */
#include "app/test/test-page.h"

#include "app/test/added-page.h"
#include "app/test/ask-page.h"
#include "app/test/check-page.h"
#include "app/test/done-page.h"
#include "app/test/dose-page.h"
#include "app/test/draw-page.h"
#include "app/test/prepare-page.h"
#include "app/test/read-page.h"
#include "app/test/result-page.h"
#include "app/test/test-head.h"
#include "app/window.h"

struct _SwTestPage
{
  GtkWidget parent_instance;

  /* Owned */
  SwContext *context;
  SwGuidedTest *test;

  /* Borrowed: children of the stack, made when first needed */
  SwStepPage *step_pages[SW_N_STEPS];
  SwStepPage *ask_page;
  SwStepPage *current; /* the step page that shows the test; the ask page may lie above it */
  gint64 titration;    /* the portion that current was filled for */

  /* Template children */
  GtkWidget *layout;
  SwTestHead *head;
  GtkStack *pages;
};

/* An abandoned test has no page: the frame is left. */
static GType (*const types[SW_N_STEPS]) (void) = {
  [SW_STEP_DRAW] = sw_draw_page_get_type,
  [SW_STEP_PREPARE] = sw_prepare_page_get_type,
  [SW_STEP_READ] = sw_read_page_get_type,
  [SW_STEP_RESULT] = sw_result_page_get_type,
  [SW_STEP_CHECK] = sw_check_page_get_type,
  [SW_STEP_DOSE] = sw_dose_page_get_type,
  [SW_STEP_ADDED] = sw_added_page_get_type,
  [SW_STEP_DONE] = sw_done_page_get_type,
  [SW_STEP_ABANDONED] = NULL,
};

static void show_step (SwTestPage *self);

G_DEFINE_FINAL_TYPE (SwTestPage, sw_test_page, GTK_TYPE_WIDGET)

/* ---- head ---- */

static SwStepPage *
get_shown (SwTestPage *self)
{
  return (SwStepPage *)gtk_stack_get_visible_child (self->pages);
}

static void
head_changed_cb (SwStepPage *page, GParamSpec *pspec, SwTestPage *self)
{
  if (page == get_shown (self))
    sw_test_head_show_page (self->head, page);
}

static void
show_actions (SwTestPage *self)
{
  gint64 now_ms = sw_context_now (self->context);
  GtkWidget *widget = GTK_WIDGET (self);
  gboolean asking = self->ask_page != NULL && get_shown (self) == self->ask_page;
  gboolean fresh = sw_guided_test_can (self->test, SW_MOVE_FRESH_PORTION, now_ms, NULL);
  gboolean abandon = sw_guided_test_can (self->test, SW_MOVE_ABANDON, now_ms, NULL);

  gtk_widget_action_set_enabled (
      widget, "test.back", asking || sw_guided_test_can (self->test, SW_MOVE_BACK, now_ms, NULL));
  gtk_widget_action_set_enabled (widget, "test.fresh", fresh && !asking);
  gtk_widget_action_set_enabled (widget, "test.abandon", abandon && !asking);
  sw_test_head_show_ways (self->head, fresh || abandon,
                          sw_guided_test_get_step (self->test) != SW_STEP_DONE);
}

/* ---- pages ---- */

static void
leave (SwTestPage *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  if (window != NULL)
    sw_window_leave_test (window);
  else
    sw_test_page_close (self);
}

static void
moved_cb (SwStepPage *page, SwTestPage *self)
{
  sw_context_changed (self->context);
  if (self->test == NULL)
    return;
  if (sw_guided_test_get_step (self->test) == SW_STEP_ABANDONED)
    leave (self);
  else
    show_step (self);
}

static void
cancelled_cb (SwStepPage *page, SwTestPage *self)
{
  show_step (self);
}

static void
leave_cb (SwStepPage *page, SwTestPage *self)
{
  leave (self);
}

static void
ask (SwTestPage *self, SwAsk what)
{
  if (self->ask_page == NULL)
    {
      self->ask_page = g_object_new (SW_TYPE_ASK_PAGE, NULL);
      g_signal_connect (self->ask_page, "moved", G_CALLBACK (moved_cb), self);
      g_signal_connect (self->ask_page, "cancelled", G_CALLBACK (cancelled_cb), self);
      g_signal_connect (self->ask_page, "notify", G_CALLBACK (head_changed_cb), self);
      gtk_stack_add_child (self->pages, GTK_WIDGET (self->ask_page));
    }
  gtk_stack_set_visible_child (self->pages, GTK_WIDGET (self->ask_page));
  sw_ask_page_set (SW_ASK_PAGE (self->ask_page), what);
  sw_step_page_open (self->ask_page, self->context, self->test);
  sw_test_head_show_page (self->head, get_shown (self));
  show_actions (self);
}

static void
ask_cb (SwStepPage *page, int what, SwTestPage *self)
{
  ask (self, (SwAsk)what);
}

static SwStepPage *
get_step_page (SwTestPage *self, SwStep step)
{
  SwStepPage *page = self->step_pages[step];

  if (page != NULL)
    return page;
  page = g_object_new (types[step](), NULL);
  g_signal_connect (page, "moved", G_CALLBACK (moved_cb), self);
  g_signal_connect (page, "ask", G_CALLBACK (ask_cb), self);
  g_signal_connect (page, "leave", G_CALLBACK (leave_cb), self);
  g_signal_connect (page, "notify", G_CALLBACK (head_changed_cb), self);
  gtk_stack_add_child (self->pages, GTK_WIDGET (page));
  self->step_pages[step] = page;
  return page;
}

/* The page of the step; a page that already shows this portion keeps what was typed on it. */
static void
show_step (SwTestPage *self)
{
  SwStep step = sw_guided_test_get_step (self->test);
  gint64 titration = sw_guided_test_get_titration (self->test)->record.id;
  SwStepPage *page;

  g_return_if_fail (step < SW_N_STEPS && types[step] != NULL);
  page = get_step_page (self, step);
  sw_test_head_show_test (self->head, sw_context_get_wording (self->context), self->test);
  gtk_stack_set_visible_child (self->pages, GTK_WIDGET (page));
  if (page == self->current && titration == self->titration)
    sw_step_page_refresh (page);
  else
    {
      if (self->current != NULL)
        sw_step_page_close (self->current);
      self->current = page;
      self->titration = titration;
      sw_step_page_open (page, self->context, self->test);
    }
  sw_test_head_show_page (self->head, get_shown (self));
  show_actions (self);
}

/* Every move is made by who is at the bench when it is made. */
static void
person_changed_cb (SwContext *context, SwTestPage *self)
{
  SwGuidedTest *test;
  GError *error = NULL;

  if (self->test == NULL)
    return;
  if (sw_context_get_person (context) == 0)
    {
      sw_step_page_refresh (self->current);
      return;
    }
  test = sw_guided_test_resume (sw_context_get_store (context), sw_context_get_actor (context),
                                self->titration, &error);
  if (test == NULL)
    {
      sw_step_page_settle (self->current, FALSE, error);
      return;
    }
  sw_step_page_swap (self->current, test);
  if (self->ask_page != NULL && get_shown (self) == self->ask_page)
    sw_step_page_swap (self->ask_page, test);
  sw_guided_test_free (self->test);
  self->test = test;
  show_actions (self);
}

/* ---- actions ---- */

static void
back_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwTestPage *self = SW_TEST_PAGE (widget);
  GError *error = NULL;
  gboolean moved;

  if (self->test == NULL)
    return;
  if (get_shown (self) == self->ask_page)
    {
      show_step (self);
      return;
    }
  moved = sw_guided_test_back (self->test, &error);
  sw_step_page_settle (self->current, moved, error);
}

static void
leave_action_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  leave (SW_TEST_PAGE (widget));
}

static void
fresh_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  ask (SW_TEST_PAGE (widget), SW_ASK_FRESH_PORTION);
}

static void
abandon_cb (GtkWidget *widget, const char *name, GVariant *parameter)
{
  ask (SW_TEST_PAGE (widget), SW_ASK_ABANDON);
}

/* Escape takes back a question, else leaves the test. */
static gboolean
escape_cb (GtkWidget *widget, GVariant *args, gpointer data)
{
  SwTestPage *self = SW_TEST_PAGE (widget);

  if (self->test == NULL || !gtk_widget_get_mapped (widget))
    return FALSE;
  if (get_shown (self) == self->ask_page)
    show_step (self);
  else
    leave (self);
  return TRUE;
}

static void
add_escape (SwTestPage *self)
{
  GtkEventController *controller = gtk_shortcut_controller_new ();

  /* Global: also when no control of the page has the focus. */
  gtk_shortcut_controller_set_scope (GTK_SHORTCUT_CONTROLLER (controller),
                                     GTK_SHORTCUT_SCOPE_GLOBAL);
  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (controller),
      gtk_shortcut_new (gtk_keyval_trigger_new (GDK_KEY_Escape, 0),
                        gtk_callback_action_new (escape_cb, NULL, NULL)));
  gtk_widget_add_controller (GTK_WIDGET (self), controller);
}

/* ---- class ---- */

static void
sw_test_page_dispose (GObject *object)
{
  SwTestPage *self = SW_TEST_PAGE (object);

  sw_test_page_close (self);
  g_clear_pointer (&self->layout, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_test_page_parent_class)->dispose (object);
}

static void
sw_test_page_class_init (SwTestPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_test_page_dispose;
  g_type_ensure (SW_TYPE_TEST_HEAD);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/test/test-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwTestPage, layout);
  gtk_widget_class_bind_template_child (widget_class, SwTestPage, head);
  gtk_widget_class_bind_template_child (widget_class, SwTestPage, pages);
  gtk_widget_class_install_action (widget_class, "test.back", NULL, back_cb);
  gtk_widget_class_install_action (widget_class, "test.leave", NULL, leave_action_cb);
  gtk_widget_class_install_action (widget_class, "test.fresh", NULL, fresh_cb);
  gtk_widget_class_install_action (widget_class, "test.abandon", NULL, abandon_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swtestpage");
}

static void
sw_test_page_init (SwTestPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  add_escape (self);
}

GtkWidget *
sw_test_page_new (SwContext *context)
{
  SwTestPage *self = g_object_new (SW_TYPE_TEST_PAGE, NULL);

  self->context = g_object_ref (context);
  g_signal_connect_object (context, "person-changed", G_CALLBACK (person_changed_cb), self, 0);
  return GTK_WIDGET (self);
}

void
sw_test_page_open (SwTestPage *self, SwGuidedTest *test)
{
  g_return_if_fail (SW_IS_TEST_PAGE (self) && test != NULL);
  sw_test_page_close (self);
  self->test = test;
  show_step (self);
}

void
sw_test_page_close (SwTestPage *self)
{
  g_return_if_fail (SW_IS_TEST_PAGE (self));
  if (self->current != NULL)
    sw_step_page_close (self->current);
  if (self->ask_page != NULL)
    sw_step_page_close (self->ask_page);
  self->current = NULL;
  self->titration = 0;
  g_clear_pointer (&self->test, sw_guided_test_free);
}
