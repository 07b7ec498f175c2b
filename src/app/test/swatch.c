/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gives way on a small screen, but does not grow with a large one. */
#include "app/test/swatch.h"

#define LEAST_PX 24
#define USUAL_PX 220
#define CORNER_PX 6.0F

struct _SwSwatch
{
  GtkWidget parent_instance;

  GdkRGBA colour;
};

G_DEFINE_FINAL_TYPE (SwSwatch, sw_swatch, GTK_TYPE_WIDGET)

static void
sw_swatch_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  graphene_rect_t all = GRAPHENE_RECT_INIT (0, 0, (float)gtk_widget_get_width (widget),
                                            (float)gtk_widget_get_height (widget));
  GskRoundedRect rounded;

  gsk_rounded_rect_init_from_rect (&rounded, &all, CORNER_PX);
  gtk_snapshot_push_rounded_clip (snapshot, &rounded);
  gtk_snapshot_append_color (snapshot, &SW_SWATCH (widget)->colour, &all);
  gtk_snapshot_pop (snapshot);
}

static void
sw_swatch_measure (GtkWidget *widget,
                   GtkOrientation orientation,
                   int for_size,
                   int *minimum,
                   int *natural,
                   int *minimum_baseline,
                   int *natural_baseline)
{
  *minimum = LEAST_PX;
  *natural = orientation == GTK_ORIENTATION_VERTICAL ? USUAL_PX : LEAST_PX;
}

static void
sw_swatch_class_init (SwSwatchClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->snapshot = sw_swatch_snapshot;
  widget_class->measure = sw_swatch_measure;
  gtk_widget_class_set_css_name (widget_class, "swswatch");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
sw_swatch_init (SwSwatch *self)
{
}

void
sw_swatch_set (SwSwatch *self, const char *colour)
{
  gtk_widget_set_visible (GTK_WIDGET (self),
                          colour != NULL && gdk_rgba_parse (&self->colour, colour));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
