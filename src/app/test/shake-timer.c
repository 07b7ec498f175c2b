/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Looks at the clock four times a second while it is on screen and time is left.
 *
 * Invariant: source is not 0 only while the timer runs, is not over, and the widget is mapped.
 */
#include "app/test/shake-timer.h"

#include "wording/sentence-test.h"

#define TICK_MS 250

struct _SwShakeTimer
{
  GtkWidget parent_instance;

  /* Borrowed */
  SwContext *context;

  gint64 started_ms;
  double shake_s;
  guint source;

  /* Template children */
  GtkWidget *layout;
  GtkLabel *elapsed;
  GtkLabel *of;
  GtkProgressBar *bar;
  GtkLabel *done;
  GtkButton *shake;
};

static guint signal_shake;

G_DEFINE_FINAL_TYPE (SwShakeTimer, sw_shake_timer, GTK_TYPE_WIDGET)

static void
shake_cb (GtkButton *button, SwShakeTimer *self)
{
  g_signal_emit (self, signal_shake, 0);
}

/* Shows the time as it is now; FALSE when it is over or does not run. */
static gboolean
show_time (SwShakeTimer *self)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_auto (SwShakeText) text = { 0 };

  sw_say_shake (wording, self->started_ms, sw_context_now (self->context), self->shake_s, &text);
  gtk_label_set_text (self->elapsed, text.elapsed);
  gtk_label_set_text (self->of, text.of);
  gtk_progress_bar_set_fraction (self->bar, text.fraction);
  gtk_label_set_text (self->done, sw_say_test_word (wording, SW_TEST_WORD_SHAKE_DONE));
  gtk_widget_set_visible (GTK_WIDGET (self->done), text.done);
  return text.running && !text.done;
}

static gboolean
tick_cb (gpointer data)
{
  SwShakeTimer *self = SW_SHAKE_TIMER (data);

  if (show_time (self))
    return G_SOURCE_CONTINUE;
  self->source = 0;
  gtk_widget_error_bell (GTK_WIDGET (self));
  return G_SOURCE_REMOVE;
}

static void
stop_ticking (SwShakeTimer *self)
{
  if (self->source != 0)
    g_source_remove (self->source);
  self->source = 0;
}

static void
start_ticking (SwShakeTimer *self)
{
  stop_ticking (self);
  if (self->context != NULL && show_time (self) && gtk_widget_get_mapped (GTK_WIDGET (self)))
    self->source = g_timeout_add (TICK_MS, tick_cb, self);
}

static void
sw_shake_timer_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (sw_shake_timer_parent_class)->map (widget);
  start_ticking (SW_SHAKE_TIMER (widget));
}

static void
sw_shake_timer_unmap (GtkWidget *widget)
{
  stop_ticking (SW_SHAKE_TIMER (widget));
  GTK_WIDGET_CLASS (sw_shake_timer_parent_class)->unmap (widget);
}

static gboolean
sw_shake_timer_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_SHAKE_TIMER (widget)->shake));
}

static void
sw_shake_timer_dispose (GObject *object)
{
  SwShakeTimer *self = SW_SHAKE_TIMER (object);

  stop_ticking (self);
  g_clear_pointer (&self->layout, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_shake_timer_parent_class)->dispose (object);
}

static void
sw_shake_timer_class_init (SwShakeTimerClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_shake_timer_dispose;
  widget_class->map = sw_shake_timer_map;
  widget_class->unmap = sw_shake_timer_unmap;
  widget_class->grab_focus = sw_shake_timer_grab_focus;
  signal_shake = g_signal_new ("shake", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                               NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/test/shake-timer.ui");
  gtk_widget_class_bind_template_child (widget_class, SwShakeTimer, layout);
  gtk_widget_class_bind_template_child (widget_class, SwShakeTimer, elapsed);
  gtk_widget_class_bind_template_child (widget_class, SwShakeTimer, of);
  gtk_widget_class_bind_template_child (widget_class, SwShakeTimer, bar);
  gtk_widget_class_bind_template_child (widget_class, SwShakeTimer, done);
  gtk_widget_class_bind_template_child (widget_class, SwShakeTimer, shake);
  gtk_widget_class_bind_template_callback (widget_class, shake_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swshaketimer");
}

static void
sw_shake_timer_init (SwShakeTimer *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_shake_timer_show (SwShakeTimer *self, SwContext *context, gint64 started_ms, double shake_s)
{
  self->context = context;
  self->started_ms = started_ms;
  self->shake_s = shake_s;
  start_ticking (self);
}

void
sw_shake_timer_stop (SwShakeTimer *self)
{
  stop_ticking (self);
  self->context = NULL;
}

void
sw_shake_timer_set_sensitive (SwShakeTimer *self, gboolean sensitive)
{
  gtk_widget_set_sensitive (GTK_WIDGET (self->shake), sensitive);
}
