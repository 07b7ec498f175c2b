/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws the marks in the colour of the text, each in a box of 16 x 16 units. A screen reader reads
 * the words beside them instead. */
#include "app/records/mark-shapes.h"

#define BOX 16.0   /* units of a drawing box */
#define SIDE_PX 14 /* of a shape at plain text */
#define GAP_PX 4   /* between two */
#define LINE 1.8   /* width of a stroke, units */
/* gtk-xft-dpi of text that is not scaled; it counts in 1024ths, -1 = not known. */
#define PLAIN_DPI (96.0 * 1024.0)

struct _SwMarkShapes
{
  GtkWidget parent_instance;
  guint marks;
};

G_DEFINE_FINAL_TYPE (SwMarkShapes, sw_mark_shapes, GTK_TYPE_WIDGET)

/* ---- shapes ---- */

static void
stroke_ring (cairo_t *cr)
{
  cairo_arc (cr, 8, 8, 6.4, 0, 2 * G_PI);
  cairo_stroke (cr);
}

static void
stroke_line (cairo_t *cr, double x1, double y1, double x2, double y2)
{
  cairo_move_to (cr, x1, y1);
  cairo_line_to (cr, x2, y2);
  cairo_stroke (cr);
}

static void
draw_voided (cairo_t *cr)
{
  stroke_ring (cr);
  stroke_line (cr, 3.5, 12.5, 12.5, 3.5);
}

static void
draw_lost (cairo_t *cr)
{
  cairo_set_line_width (cr, 2.6);
  stroke_line (cr, 3, 3, 13, 13);
  stroke_line (cr, 3, 13, 13, 3);
}

/* A pencil over its line. */
static void
draw_amended (cairo_t *cr)
{
  cairo_set_line_width (cr, 3.4);
  stroke_line (cr, 5, 9.5, 12.5, 2);
  cairo_set_line_width (cr, LINE);
  stroke_line (cr, 2.6, 12, 5, 9.5);
  stroke_line (cr, 2, 14.6, 14, 14.6);
}

static void
draw_late (cairo_t *cr)
{
  stroke_ring (cr);
  stroke_line (cr, 8, 8, 8, 3.6);
  stroke_line (cr, 8, 8, 11.4, 9.8);
}

static void
draw_reviewed (cairo_t *cr)
{
  cairo_set_line_width (cr, 2.6);
  cairo_move_to (cr, 2, 8.6);
  cairo_line_to (cr, 6.4, 13);
  cairo_line_to (cr, 14, 3.4);
  cairo_stroke (cr);
}

static void
draw_to_review (cairo_t *cr)
{
  cairo_rectangle (cr, 2.2, 2.2, 11.6, 11.6);
  cairo_stroke (cr);
}

static void
draw_unsigned (cairo_t *cr)
{
  cairo_set_line_width (cr, 2.6);
  stroke_line (cr, 3, 8, 13, 8);
}

/* In the order in which they are drawn, and said. */
static const struct
{
  SwMark mark;
  void (*draw) (cairo_t *cr);
} shapes[SW_N_MARKS] = {
  { SW_MARK_VOIDED, draw_voided },     { SW_MARK_REVIEW_LOST, draw_lost },
  { SW_MARK_AMENDED, draw_amended },   { SW_MARK_LATE, draw_late },
  { SW_MARK_REVIEWED, draw_reviewed }, { SW_MARK_TO_REVIEW, draw_to_review },
  { SW_MARK_UNSIGNED, draw_unsigned },
};

static guint
count_shapes (const SwMarkShapes *self)
{
  guint n = 0;

  for (guint i = 0; i < SW_N_MARKS; i++)
    n += (self->marks & shapes[i].mark) != 0;
  return n;
}

/* ---- widget ---- */

/* A shape is read like a letter: it grows with large text. */
static double
get_scale (GtkWidget *widget)
{
  int dpi = -1;

  g_object_get (gtk_widget_get_settings (widget), "gtk-xft-dpi", &dpi, NULL);
  return dpi > 0 ? dpi / PLAIN_DPI : 1.0;
}

static void
draw_shapes (SwMarkShapes *self, cairo_t *cr, double scale, double width)
{
  gboolean mirrored = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  double step = (SIDE_PX + GAP_PX) * scale;
  double x = mirrored ? width - SIDE_PX * scale : 0;

  for (guint i = 0; i < SW_N_MARKS; i++)
    {
      if ((self->marks & shapes[i].mark) == 0)
        continue;
      cairo_save (cr);
      cairo_translate (cr, x, 0);
      cairo_scale (cr, SIDE_PX * scale / BOX, SIDE_PX * scale / BOX);
      cairo_set_line_width (cr, LINE);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
      shapes[i].draw (cr);
      cairo_restore (cr);
      x += mirrored ? -step : step;
    }
}

static void
sw_mark_shapes_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  float width = (float)gtk_widget_get_width (widget);
  float height = (float)gtk_widget_get_height (widget);
  GdkRGBA colour;

  if (SW_MARK_SHAPES (widget)->marks == 0)
    return;
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &colour);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, width, height));
  gdk_cairo_set_source_rgba (cr, &colour);
  draw_shapes (SW_MARK_SHAPES (widget), cr, get_scale (widget), width);
  cairo_destroy (cr);
}

static void
sw_mark_shapes_measure (GtkWidget *widget,
                        GtkOrientation orientation,
                        int for_size,
                        int *minimum,
                        int *natural,
                        int *minimum_baseline,
                        int *natural_baseline)
{
  guint n = count_shapes (SW_MARK_SHAPES (widget));
  double plain = orientation == GTK_ORIENTATION_VERTICAL ? SIDE_PX
                 : n > 0                                 ? n * (SIDE_PX + GAP_PX) - GAP_PX
                                                         : 0;

  *minimum = *natural = (int)(plain * get_scale (widget) + 0.5);
}

static void
sw_mark_shapes_class_init (SwMarkShapesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->snapshot = sw_mark_shapes_snapshot;
  widget_class->measure = sw_mark_shapes_measure;
  gtk_widget_class_set_css_name (widget_class, "swmarks");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
sw_mark_shapes_init (SwMarkShapes *self)
{
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
}

GtkWidget *
sw_mark_shapes_new (void)
{
  return g_object_new (SW_TYPE_MARK_SHAPES, NULL);
}

void
sw_mark_shapes_set (SwMarkShapes *self, guint marks)
{
  g_return_if_fail (SW_IS_MARK_SHAPES (self));
  if (self->marks == marks)
    return;
  self->marks = marks;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}
