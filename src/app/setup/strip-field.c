/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small field of colour, in a frame of the text's colour so that it shows on any ground. */
#include "app/setup/strip-field.h"

#include <math.h>

#define WIDTH 36
#define HEIGHT 24
#define RADIUS 4.0f

struct _SwStripField
{
  GtkWidget parent_instance;

  GdkRGBA colour; /* without alpha: none */
};

G_DEFINE_FINAL_TYPE (SwStripField, sw_strip_field, GTK_TYPE_WIDGET)

static void
sw_strip_field_measure (GtkWidget *widget,
                        GtkOrientation orientation,
                        int for_size,
                        int *minimum,
                        int *natural,
                        int *minimum_baseline,
                        int *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? WIDTH : HEIGHT;
}

static void
sw_strip_field_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  SwStripField *self = SW_STRIP_FIELD (widget);
  const float lines[4] = { 1, 1, 1, 1 };
  GskRoundedRect frame;
  GdkRGBA ink;

  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &ink);
  gsk_rounded_rect_init_from_rect (&frame,
                                   &GRAPHENE_RECT_INIT (0, 0, (float)gtk_widget_get_width (widget),
                                                        (float)gtk_widget_get_height (widget)),
                                   RADIUS);
  gtk_snapshot_push_rounded_clip (snapshot, &frame);
  gtk_snapshot_append_color (snapshot, &self->colour, &frame.bounds);
  gtk_snapshot_pop (snapshot);
  gtk_snapshot_append_border (snapshot, &frame, lines, (const GdkRGBA[4]){ ink, ink, ink, ink });
}

static void
sw_strip_field_class_init (SwStripFieldClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->measure = sw_strip_field_measure;
  widget_class->snapshot = sw_strip_field_snapshot;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
sw_strip_field_init (SwStripField *self)
{
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
}

GtkWidget *
sw_strip_field_new (const char *colour)
{
  SwStripField *self = g_object_new (SW_TYPE_STRIP_FIELD, NULL);

  sw_strip_field_set_colour (self, colour);
  return GTK_WIDGET (self);
}

void
sw_strip_field_set_colour (SwStripField *self, const char *colour)
{
  g_return_if_fail (SW_IS_STRIP_FIELD (self));
  if (colour == NULL || !gdk_rgba_parse (&self->colour, colour))
    self->colour = (GdkRGBA){ 0, 0, 0, 0 };
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static int
to_byte (float part)
{
  return (int)lrintf (CLAMP (part, 0.0f, 1.0f) * 255.0f);
}

char *
sw_strip_field_format (const GdkRGBA *colour)
{
  return g_strdup_printf ("#%02X%02X%02X", to_byte (colour->red), to_byte (colour->green),
                          to_byte (colour->blue));
}
