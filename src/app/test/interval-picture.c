/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line from 0 to one step beyond the last, a mark per reading in its shape, and a thick bar over
 * the interval (low, high]; an open end runs off the line with an arrow.
 *
 * Invariant: marks holds what counted of the readings, in their order; low <= high or both NAN.
 */
#include "app/test/interval-picture.h"

#include "app/widgets/verdict.h"
#include "wording/number.h"

#define HEIGHT_PX 84
#define MARGIN_PX 36.0
#define LINE_Y 52.0
#define BAR_Y 30.0
#define MARK_PX 7.0
#define MOST_TICKS 12

typedef struct
{
  double total;
  SwVerdictKind kind;
} Mark;

struct _SwIntervalPicture
{
  GtkWidget parent_instance;

  /* Owned */
  GArray *marks; /* Mark */
  SwWording *wording;

  double low;
  double high;
  double last; /* right end of the line, steps */
};

G_DEFINE_FINAL_TYPE (SwIntervalPicture, sw_interval_picture, GTK_TYPE_WIDGET)

static const char *const colours[SW_N_VERDICT_KINDS] = {
  [SW_VERDICT_UNKNOWN] = "sw_unknown", [SW_VERDICT_ACID] = "sw_acid",
  [SW_VERDICT_PASSED] = "sw_passed",   [SW_VERDICT_ALKALINE] = "sw_alkaline",
  [SW_VERDICT_OVER_RANGE] = "sw_acid", [SW_VERDICT_CAUTION] = "sw_acid",
  [SW_VERDICT_MISTAKE] = "sw_acid",
};

static void
set_colour (GtkWidget *widget, cairo_t *cr, const char *name)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  GdkRGBA colour;

  if (!gtk_style_context_lookup_color (style, name, &colour))
    gtk_style_context_get_color (style, &colour);
  gdk_cairo_set_source_rgba (cr, &colour);
}

static double
get_x (SwIntervalPicture *self, double steps)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self)) - 2.0 * MARGIN_PX;

  return MARGIN_PX + width * steps / self->last;
}

/* ---- parts ---- */

static void
draw_tick_text (SwIntervalPicture *self, cairo_t *cr, double steps)
{
  g_autofree char *text = sw_number_format (self->wording, steps, 4);
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), text);
  int width;

  pango_layout_get_pixel_size (layout, &width, NULL);
  cairo_move_to (cr, get_x (self, steps) - width / 2.0, LINE_Y + 11.0);
  pango_cairo_show_layout (cr, layout);
}

static void
draw_line (SwIntervalPicture *self, cairo_t *cr)
{
  double every = ceil (self->last / MOST_TICKS);
  int n = (int)(self->last / every);

  set_colour (GTK_WIDGET (self), cr, "sw_edge");
  cairo_set_line_width (cr, 1.0);
  cairo_move_to (cr, MARGIN_PX, LINE_Y + 0.5);
  cairo_line_to (cr, get_x (self, self->last), LINE_Y + 0.5);
  cairo_stroke (cr);
  set_colour (GTK_WIDGET (self), cr, "sw_dim");
  for (int i = 0; i <= n; i++)
    draw_tick_text (self, cr, i * every);
}

static void
draw_arrow (cairo_t *cr, double x, double direction)
{
  cairo_move_to (cr, x + direction * 12.0, BAR_Y);
  cairo_line_to (cr, x, BAR_Y - 9.0);
  cairo_line_to (cr, x, BAR_Y + 9.0);
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
draw_interval (SwIntervalPicture *self, cairo_t *cr)
{
  double left = isinf (self->low) ? MARGIN_PX : get_x (self, MAX (self->low, 0.0));
  double right = isinf (self->high) ? get_x (self, self->last) : get_x (self, self->high);

  if (isnan (self->low) || isnan (self->high))
    return;
  set_colour (GTK_WIDGET (self), cr, "sw_accent_ink");
  cairo_rectangle (cr, left, BAR_Y - 4.0, MAX (right - left, 2.0), 8.0);
  cairo_fill (cr);
  if (isinf (self->low))
    draw_arrow (cr, left, -1.0);
  if (isinf (self->high))
    draw_arrow (cr, right, 1.0);
}

static void
draw_mark (SwIntervalPicture *self, cairo_t *cr, const Mark *mark)
{
  double x = get_x (self, mark->total);

  set_colour (GTK_WIDGET (self), cr, colours[mark->kind]);
  cairo_new_path (cr);
  switch (mark->kind)
    {
    case SW_VERDICT_ACID:
      cairo_move_to (cr, x, LINE_Y - MARK_PX);
      cairo_line_to (cr, x + MARK_PX, LINE_Y + MARK_PX);
      cairo_line_to (cr, x - MARK_PX, LINE_Y + MARK_PX);
      cairo_close_path (cr);
      break;
    case SW_VERDICT_ALKALINE:
      cairo_rectangle (cr, x - MARK_PX, LINE_Y - MARK_PX, 2.0 * MARK_PX, 2.0 * MARK_PX);
      break;
    default:
      cairo_arc (cr, x, LINE_Y, MARK_PX, 0.0, 2.0 * G_PI);
    }
  if (mark->kind == SW_VERDICT_UNKNOWN)
    cairo_stroke (cr);
  else
    cairo_fill (cr);
}

static void
sw_interval_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  SwIntervalPicture *self = SW_INTERVAL_PICTURE (widget);
  graphene_rect_t all = GRAPHENE_RECT_INIT (0, 0, (float)gtk_widget_get_width (widget),
                                            (float)gtk_widget_get_height (widget));
  cairo_t *cr;

  if (self->wording == NULL)
    return;
  cr = gtk_snapshot_append_cairo (snapshot, &all);
  draw_line (self, cr);
  draw_interval (self, cr);
  for (guint i = 0; i < self->marks->len; i++)
    draw_mark (self, cr, &g_array_index (self->marks, Mark, i));
  cairo_destroy (cr);
}

static void
sw_interval_picture_measure (GtkWidget *widget,
                             GtkOrientation orientation,
                             int for_size,
                             int *minimum,
                             int *natural,
                             int *minimum_baseline,
                             int *natural_baseline)
{
  *minimum = HEIGHT_PX;
  *natural = orientation == GTK_ORIENTATION_VERTICAL ? HEIGHT_PX : 4 * HEIGHT_PX;
}

static void
sw_interval_picture_finalize (GObject *object)
{
  SwIntervalPicture *self = SW_INTERVAL_PICTURE (object);

  g_clear_pointer (&self->marks, g_array_unref);
  g_clear_pointer (&self->wording, sw_wording_unref);
  G_OBJECT_CLASS (sw_interval_picture_parent_class)->finalize (object);
}

static void
sw_interval_picture_class_init (SwIntervalPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = sw_interval_picture_finalize;
  widget_class->snapshot = sw_interval_picture_snapshot;
  widget_class->measure = sw_interval_picture_measure;
  gtk_widget_class_set_css_name (widget_class, "swinterval");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
sw_interval_picture_init (SwIntervalPicture *self)
{
  self->marks = g_array_new (FALSE, FALSE, sizeof (Mark));
}

void
sw_interval_picture_show (SwIntervalPicture *self,
                          const SwWording *wording,
                          const SwGuidedTest *test,
                          const char *words)
{
  const SwOutcome *outcome = sw_guided_test_get_outcome (test);
  GPtrArray *readings = sw_guided_test_get_readings (test);

  g_array_set_size (self->marks, 0);
  for (guint i = 0; i < readings->len; i++)
    {
      const SwReadingRow *row = g_ptr_array_index (readings, i);
      const Mark mark = { row->total, sw_verdict_of_field (row->meaning) };

      if (!row->struck)
        g_array_append_val (self->marks, mark);
    }
  self->low = outcome->net.low;
  self->high = outcome->net.high;
  self->last = MAX (1.0, sw_guided_test_get_total (test));
  if (!isinf (self->high) && !isnan (self->high))
    self->last = MAX (self->last, self->high);
  self->last = ceil (self->last) + 1.0;
  g_clear_pointer (&self->wording, sw_wording_unref);
  self->wording = sw_wording_ref ((SwWording *)wording);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
