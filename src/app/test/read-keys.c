/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From key values to what they mean; the keypad counts like the row above the letters. */
#include "app/test/read-keys.h"

typedef struct
{
  SwReadKeyFunc func;
  gpointer data;
} Receiver;

/* 1 .. 9 on the row or the keypad; 0 = another key. */
static guint
get_digit (guint keyval)
{
  if (keyval >= GDK_KEY_1 && keyval <= GDK_KEY_9)
    return keyval - GDK_KEY_0;
  if (keyval >= GDK_KEY_KP_1 && keyval <= GDK_KEY_KP_9)
    return keyval - GDK_KEY_KP_0;
  return 0;
}

static gboolean
pass_on (const Receiver *receiver, guint keyval)
{
  guint digit = get_digit (keyval);

  switch (keyval)
    {
    case GDK_KEY_plus:
    case GDK_KEY_KP_Add:
    case GDK_KEY_Insert:
    case GDK_KEY_KP_Insert:
      return receiver->func (SW_READ_KEY_ADD, 0, receiver->data);
    case GDK_KEY_s:
    case GDK_KEY_S:
      return receiver->func (SW_READ_KEY_SHAKE, 0, receiver->data);
    case GDK_KEY_BackSpace:
      return receiver->func (SW_READ_KEY_TAKE_BACK, 0, receiver->data);
    default:
      return digit != 0 && receiver->func (SW_READ_KEY_TILE, digit, receiver->data);
    }
}

static gboolean
key_cb (GtkEventControllerKey *controller,
        guint keyval,
        guint keycode,
        GdkModifierType state,
        Receiver *receiver)
{
  GtkWidget *root = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (controller));
  GtkWidget *focus = gtk_root_get_focus (GTK_ROOT (root));
  gboolean typing = focus != NULL && GTK_IS_EDITABLE (focus);
  gboolean chord = (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0;

  return !typing && !chord && pass_on (receiver, keyval);
}

static void
free_receiver (gpointer data, GClosure *closure)
{
  g_free (data);
}

GtkEventController *
sw_read_keys_new (SwReadKeyFunc func, gpointer data)
{
  GtkEventController *controller = gtk_event_controller_key_new ();
  Receiver *receiver = g_new (Receiver, 1);

  *receiver = (Receiver){ func, data };
  g_signal_connect_data (controller, "key-pressed", G_CALLBACK (key_cb), receiver, free_receiver,
                         0);
  return controller;
}
