/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Verify page.
 *
 *             Verify                 done, failed
 *   [ idle ] --------> [ running ] ---------------> [ idle ], with a result
 *                          |   Stop, page closed
 *                          +---------------------> [ idle ], the result before is gone
 *
 * Invariants:
 *   1. There is a job exactly while one is running; what an older job brings is dropped.
 *   2. A result stays until the next Verify: it says of which state of the file it is by its head.
 */
#include "app/verify/verify-page.h"

#include "app/plant-words.h"
#include "app/verify/verify-lines.h"
#include "app/verify/verify-run.h"
#include "app/widgets/form-row.h"
#include "app/window.h"
#include "wording/sentence-verify.h"

#include <glib/gi18n.h>

#define TICK_MS 100

struct _SwVerifyPage
{
  GtkWidget parent_instance;

  /* Owned */
  SwContext *context;
  SwVerifyJob *job;

  /* Template children */
  GtkWidget *head;
  GtkCheckButton *quick;
  GtkWidget *start;
  GtkWidget *stop;
  GtkProgressBar *progress;
  GtkWidget *result;
  GtkImage *mark;
  GtkLabel *headline;
  GtkLabel *scope;
  GtkBox *findings;
  GtkWidget *notes_part;
  GtkBox *notes;
  GtkLabel *journal_head;
  GtkBox *limits;

  guint tick;
};

G_DEFINE_FINAL_TYPE (SwVerifyPage, sw_verify_page, GTK_TYPE_WIDGET)

/* ---- showing ---- */

static void
show_headline (SwVerifyPage *self, const char *words, gboolean good)
{
  gtk_image_set_from_icon_name (self->mark,
                                good ? "object-select-symbolic" : "dialog-warning-symbolic");
  gtk_label_set_text (self->headline, words);
  if (good)
    gtk_widget_remove_css_class (GTK_WIDGET (self->headline), "sw-wrong");
  else
    gtk_widget_add_css_class (GTK_WIDGET (self->headline), "sw-wrong");
  gtk_widget_set_visible (self->result, TRUE);
}

static void
show_report (SwVerifyPage *self, const SwVerifyReport *report)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autofree char *headline = sw_say_verify_headline (wording, report->findings->len);
  g_autofree char *scope = sw_say_verify_scope (wording, report->journal_rows, report->record_rows,
                                                report->chain_from, report->outside);

  show_headline (self, headline, report->findings->len == 0);
  gtk_label_set_text (self->scope, scope);
  gtk_widget_set_visible (GTK_WIDGET (self->scope), TRUE);
  sw_verify_lines_findings (self->findings, self->context, report->findings);
  sw_verify_lines_notes (self->notes, self->context, report->notes);
  gtk_widget_set_visible (GTK_WIDGET (self->findings), report->findings->len > 0);
  gtk_widget_set_visible (self->notes_part, report->notes->len > 0);
  gtk_label_set_text (self->journal_head, report->head);
}

static void
show_failure (SwVerifyPage *self, const GError *error)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autofree char *words = sw_plant_say_error (wording, error);

  show_headline (self, sw_tr (wording, "Verify could not be finished"), FALSE);
  gtk_label_set_text (self->scope, words);
  gtk_widget_set_visible (GTK_WIDGET (self->scope), TRUE);
  gtk_widget_set_visible (GTK_WIDGET (self->findings), FALSE);
}

/* ---- running ---- */

/* The focus goes from the button that has done its part to the other one. */
static void
show_running (SwVerifyPage *self, gboolean running)
{
  GtkWidget *before = running ? self->start : self->stop;
  gboolean focused = gtk_widget_has_focus (before);

  gtk_widget_set_sensitive (self->start, !running);
  gtk_widget_set_sensitive (self->stop, running);
  if (focused)
    gtk_widget_grab_focus (running ? self->stop : self->start);
  gtk_widget_set_visible (GTK_WIDGET (self->progress), running);
  gtk_progress_bar_set_fraction (self->progress, 0);
}

static gboolean
tick_cb (gpointer data)
{
  SwVerifyPage *self = data;

  gtk_progress_bar_set_fraction (self->progress, sw_verify_job_get_permille (self->job) / 1000.0);
  return G_SOURCE_CONTINUE;
}

static void
end_job (SwVerifyPage *self)
{
  if (self->job != NULL)
    g_cancellable_cancel (self->job->cancellable);
  g_clear_handle_id (&self->tick, g_source_remove);
  g_clear_pointer (&self->job, sw_verify_job_unref);
}

/* The page is not kept: a window that closes closes its file, whatever a worker still does. */
typedef struct
{
  GWeakRef page;
  SwVerifyJob *job; /* Owned: to tell it from a later one */
} Answer;

static void
free_answer (Answer *answer)
{
  g_weak_ref_clear (&answer->page);
  sw_verify_job_unref (answer->job);
  g_free (answer);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Answer, free_answer)

static void
done_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (Answer) answer = data;
  g_autoptr (SwVerifyPage) self = g_weak_ref_get (&answer->page);
  g_autoptr (GError) error = NULL;
  g_autoptr (SwVerifyReport) report = sw_verify_run_finish (result, &error);

  if (self == NULL || self->job != answer->job)
    return;
  end_job (self);
  show_running (self, FALSE);
  if (report != NULL)
    show_report (self, report);
  else
    show_failure (self, error);
}

/* The head typed, in small letters and without spaces; FALSE with the error shown. */
static gboolean
read_head (SwVerifyPage *self, char **head)
{
  SwFormRow *row = SW_FORM_ROW (self->head);
  g_auto (GStrv) parts = g_strsplit_set (sw_form_row_get_text (row), " \t\n", -1);
  g_autofree char *joined = g_strjoinv ("", parts);
  g_autofree char *small = g_ascii_strdown (joined, -1);
  g_autofree char *words = NULL;

  sw_form_row_set_error (row, NULL);
  *head = NULL;
  if (*small == '\0')
    return TRUE;
  if (sw_head_is_valid (small))
    {
      *head = g_steal_pointer (&small);
      return TRUE;
    }
  words = g_strdup_printf (
      sw_trn (sw_context_get_wording (self->context),
              "A head has 64 digits, 0 to 9 and a to f; %lu character stands here.",
              "A head has 64 digits, 0 to 9 and a to f; %lu characters stand here.",
              (gulong)g_utf8_strlen (small, -1)),
      (gulong)g_utf8_strlen (small, -1));
  sw_form_row_set_error (row, words);
  gtk_widget_grab_focus (self->head);
  return FALSE;
}

static void
start_cb (GtkButton *button, SwVerifyPage *self)
{
  SwStore *store = sw_context_get_store (self->context);
  Answer *answer;
  char *head;

  if (self->job != NULL || !read_head (self, &head))
    return;
  self->job
      = sw_verify_job_new (sw_store_get_path (store), sw_context_get_trust_folder (self->context));
  self->job->quick = gtk_check_button_get_active (self->quick);
  if (head != NULL)
    {
      self->job->heads = g_new0 (char *, 2);
      self->job->heads[0] = head;
    }
  gtk_widget_set_visible (self->result, FALSE);
  gtk_widget_set_visible (self->notes_part, FALSE);
  show_running (self, TRUE);
  self->tick = g_timeout_add (TICK_MS, tick_cb, self);
  answer = g_new0 (Answer, 1);
  g_weak_ref_init (&answer->page, self);
  answer->job = g_atomic_rc_box_acquire (self->job);
  sw_verify_run_async (self->job, done_cb, answer);
}

static void
stop_cb (GtkButton *button, SwVerifyPage *self)
{
  end_job (self);
  show_running (self, FALSE);
}

static void
copy_cb (GtkButton *button, SwVerifyPage *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)),
                          gtk_label_get_text (self->journal_head));
  if (window != NULL)
    sw_window_toast (window, sw_tr (sw_context_get_wording (self->context), "Head copied."));
}

gboolean
sw_verify_page_is_running (SwVerifyPage *self)
{
  g_return_val_if_fail (SW_IS_VERIFY_PAGE (self), FALSE);
  return self->job != NULL;
}

/* ---- class ---- */

static void
sw_verify_page_dispose (GObject *object)
{
  SwVerifyPage *self = SW_VERIFY_PAGE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  end_job (self);
  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_verify_page_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, head);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, quick);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, start);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, stop);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, progress);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, result);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, mark);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, headline);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, scope);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, findings);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, notes_part);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, notes);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, journal_head);
  gtk_widget_class_bind_template_child (widget_class, SwVerifyPage, limits);
}

/* Enter in the head's field verifies. */
static void
sw_verify_page_map (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);

  GTK_WIDGET_CLASS (sw_verify_page_parent_class)->map (widget);
  if (GTK_IS_WINDOW (root))
    gtk_window_set_default_widget (GTK_WINDOW (root), SW_VERIFY_PAGE (widget)->start);
}

static void
sw_verify_page_unmap (GtkWidget *widget)
{
  GtkRoot *root = gtk_widget_get_root (widget);

  if (GTK_IS_WINDOW (root)
      && gtk_window_get_default_widget (GTK_WINDOW (root)) == SW_VERIFY_PAGE (widget)->start)
    gtk_window_set_default_widget (GTK_WINDOW (root), NULL);
  GTK_WIDGET_CLASS (sw_verify_page_parent_class)->unmap (widget);
}

static void
sw_verify_page_class_init (SwVerifyPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_verify_page_dispose;
  widget_class->map = sw_verify_page_map;
  widget_class->unmap = sw_verify_page_unmap;
  g_type_ensure (SW_TYPE_FORM_ROW);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/verify/verify-page.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, start_cb);
  gtk_widget_class_bind_template_callback (widget_class, stop_cb);
  gtk_widget_class_bind_template_callback (widget_class, copy_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_verify_page_init (SwVerifyPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* While nothing was verified yet, and after each change, it is the file's own word. */
static void
show_head (SwVerifyPage *self)
{
  g_autofree char *head = sw_journal_head (sw_context_get_store (self->context), NULL);

  gtk_label_set_text (self->journal_head, head != NULL ? head : "");
}

GtkWidget *
sw_verify_page_new (SwContext *context)
{
  SwVerifyPage *self = g_object_new (SW_TYPE_VERIFY_PAGE, NULL);

  self->context = g_object_ref (context);
  sw_verify_lines_limits (self->limits, context);
  sw_verify_lines_keep_digits (self->journal_head);
  show_head (self);
  g_signal_connect_object (context, "changed", G_CALLBACK (show_head), self, G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}
