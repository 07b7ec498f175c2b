/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tick callback comes before the layout of its frame: on the first one what changed has no place
 * yet, on the second it has. */
#include "app/test/reveal.h"

/* The tick callback that waits on a scroller; a later target takes its place. */
#define PENDING "sw-reveal"

typedef struct
{
  GWeakRef widget;
  gboolean to_end;
  gboolean laid_out;
} Target;

static void
free_target (gpointer data)
{
  Target *target = data;

  g_weak_ref_clear (&target->widget);
  g_free (target);
}

static void
scroll_to (GtkScrolledWindow *scroller, GtkWidget *widget)
{
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (scroller);
  double top = gtk_adjustment_get_value (adjustment);
  double height = gtk_adjustment_get_page_size (adjustment);
  graphene_rect_t bounds;

  /* Bounds in the scroller are those on screen: add what is scrolled away. */
  if (!gtk_widget_compute_bounds (widget, GTK_WIDGET (scroller), &bounds))
    return;
  gtk_adjustment_clamp_page (
      adjustment, top + bounds.origin.y,
      top + MIN (bounds.origin.y + bounds.size.height, bounds.origin.y + height));
}

static gboolean
tick_cb (GtkWidget *scroller, GdkFrameClock *clock, gpointer data)
{
  Target *target = data;
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (scroller));
  g_autoptr (GtkWidget) widget = NULL;

  if (!target->laid_out)
    {
      target->laid_out = TRUE;
      return G_SOURCE_CONTINUE;
    }
  widget = g_weak_ref_get (&target->widget);
  if (target->to_end)
    gtk_adjustment_set_value (adjustment, gtk_adjustment_get_upper (adjustment));
  else if (widget != NULL && gtk_widget_is_ancestor (widget, scroller))
    scroll_to (GTK_SCROLLED_WINDOW (scroller), widget);
  g_object_set_data (G_OBJECT (scroller), PENDING, NULL);
  return G_SOURCE_REMOVE;
}

void
sw_reveal (GtkScrolledWindow *scroller, GtkWidget *widget)
{
  GObject *object = G_OBJECT (scroller);
  guint before = GPOINTER_TO_UINT (g_object_get_data (object, PENDING));
  Target *target = g_new0 (Target, 1);
  guint id;

  g_weak_ref_init (&target->widget, widget);
  target->to_end = widget == NULL;
  if (before != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (scroller), before);
  id = gtk_widget_add_tick_callback (GTK_WIDGET (scroller), tick_cb, target, free_target);
  g_object_set_data (object, PENDING, GUINT_TO_POINTER (id));
}
