/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long nobody has touched a window.
 *
 * GTK makes pointer events of its own after a change of layout, at the same place: only one that
 * moved is somebody's.
 */
#include "app/sign/idle-lock.h"

#define IDLE_KEY "sw-idle"

typedef struct
{
  gint64 monotonic_us;
  gint64 real_us;
  double x, y; /* of the pointer, on its surface */
} Idle;

static Idle *
get_idle (GtkWidget *widget)
{
  return g_object_get_data (G_OBJECT (widget), IDLE_KEY);
}

void
sw_idle_touch (GtkWidget *widget)
{
  Idle *idle = get_idle (widget);

  g_return_if_fail (idle != NULL);
  idle->monotonic_us = g_get_monotonic_time ();
  idle->real_us = g_get_real_time ();
}

static gboolean
has_moved (Idle *idle, GdkEvent *event)
{
  double x = idle->x;
  double y = idle->y;

  gdk_event_get_position (event, &idle->x, &idle->y);
  return ABS (x - idle->x) >= 1.0 || ABS (y - idle->y) >= 1.0;
}

static gboolean
is_input (Idle *idle, GdkEvent *event)
{
  switch ((int)gdk_event_get_event_type (event))
    {
    case GDK_KEY_PRESS:
    case GDK_BUTTON_PRESS:
    case GDK_BUTTON_RELEASE:
    case GDK_SCROLL:
    case GDK_TOUCH_BEGIN:
    case GDK_TOUCH_UPDATE:
    case GDK_PAD_BUTTON_PRESS:
      return TRUE;
    case GDK_MOTION_NOTIFY:
      return has_moved (idle, event);
    default:
      return FALSE;
    }
}

static gboolean
event_cb (GtkEventControllerLegacy *events, GdkEvent *event, GtkWidget *widget)
{
  if (is_input (get_idle (widget), event))
    sw_idle_touch (widget);
  return FALSE;
}

void
sw_idle_watch (GtkWidget *widget)
{
  GtkEventController *events = gtk_event_controller_legacy_new ();

  g_return_if_fail (GTK_IS_WIDGET (widget) && get_idle (widget) == NULL);
  g_object_set_data_full (G_OBJECT (widget), IDLE_KEY, g_new0 (Idle, 1), g_free);
  gtk_event_controller_set_propagation_phase (events, GTK_PHASE_CAPTURE);
  g_signal_connect (events, "event", G_CALLBACK (event_cb), widget);
  gtk_widget_add_controller (widget, events);
  sw_idle_touch (widget);
}

gint64
sw_idle_get_us (GtkWidget *widget, gint64 monotonic_us, gint64 real_us)
{
  const Idle *idle = get_idle (widget);

  g_return_val_if_fail (idle != NULL, 0);
  return MAX (monotonic_us - idle->monotonic_us, real_us - idle->real_us);
}
