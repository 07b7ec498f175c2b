/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws one shape in the widget's CSS colour.
 *
 * The colour comes from the style sheet through a class per kind (sw-mark-acid, ...), so that dark
 * and high contrast need no code. The shape is drawn in a box of 16 x 16 units and scaled; it says
 * nothing to a screen reader, because the word beside it does.
 */
#include "app/widgets/verdict.h"

#include <math.h>

#define BOX 16.0 /* units of the drawing box */
/* gtk-xft-dpi of text that is not scaled; it counts in 1024ths, -1 = not known. */
#define PLAIN_DPI (96.0 * 1024.0)

struct _SwVerdict
{
  GtkWidget parent_instance;

  SwVerdictKind kind;
  int size_px;
};

enum
{
  PROP_KIND = 1,
  PROP_SIZE,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (SwVerdict, sw_verdict, GTK_TYPE_WIDGET)

static const char *const classes[SW_N_VERDICT_KINDS] = {
  [SW_VERDICT_UNKNOWN] = "sw-mark-unknown", [SW_VERDICT_ACID] = "sw-mark-acid",
  [SW_VERDICT_PASSED] = "sw-mark-passed",   [SW_VERDICT_ALKALINE] = "sw-mark-alkaline",
  [SW_VERDICT_OVER_RANGE] = "sw-mark-acid", [SW_VERDICT_CAUTION] = "sw-mark-acid",
  [SW_VERDICT_MISTAKE] = "sw-mark-acid",
};

static void
fill_triangle (cairo_t *cr)
{
  cairo_move_to (cr, 8, 1);
  cairo_line_to (cr, 15.5, 14.5);
  cairo_line_to (cr, 0.5, 14.5);
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
fill_disc (cairo_t *cr)
{
  cairo_arc (cr, 8, 8, 7, 0, 2 * G_PI);
  cairo_fill (cr);
}

static void
fill_square (cairo_t *cr)
{
  cairo_rectangle (cr, 1.5, 1.5, 13, 13);
  cairo_fill (cr);
}

static void
stroke_ring (cairo_t *cr)
{
  cairo_set_line_width (cr, 2);
  cairo_arc (cr, 8, 8, 6, 0, 2 * G_PI);
  cairo_stroke (cr);
}

/* The bar keeps it apart from the ring where both are small. */
static void
stroke_octagon (cairo_t *cr)
{
  cairo_set_line_width (cr, 2);
  for (int i = 0; i < 8; i++)
    {
      double angle = (i + 0.5) * G_PI / 4;
      cairo_line_to (cr, 8 + 6.8 * cos (angle), 8 + 6.8 * sin (angle));
    }
  cairo_close_path (cr);
  cairo_stroke (cr);
  cairo_move_to (cr, 4.6, 8);
  cairo_line_to (cr, 11.4, 8);
  cairo_stroke (cr);
}

/* The bar and dot of an exclamation mark, left out of the filled shape around it. */
static void
cut_exclamation (cairo_t *cr, double top, double dot)
{
  cairo_set_operator (cr, CAIRO_OPERATOR_DEST_OUT);
  cairo_set_line_width (cr, 1.8);
  cairo_move_to (cr, 8, top);
  cairo_line_to (cr, 8, dot - 2.2);
  cairo_stroke (cr);
  cairo_arc (cr, 8, dot, 1.1, 0, 2 * G_PI);
  cairo_fill (cr);
  cairo_set_operator (cr, CAIRO_OPERATOR_OVER);
}

static void
fill_caution (cairo_t *cr)
{
  fill_triangle (cr);
  cut_exclamation (cr, 5.5, 12.6);
}

static void
fill_diamond (cairo_t *cr)
{
  cairo_move_to (cr, 8, 0.5);
  cairo_line_to (cr, 15.5, 8);
  cairo_line_to (cr, 8, 15.5);
  cairo_line_to (cr, 0.5, 8);
  cairo_close_path (cr);
  cairo_fill (cr);
  cut_exclamation (cr, 4, 11.4);
}

static void (*const drawings[SW_N_VERDICT_KINDS]) (cairo_t *cr) = {
  [SW_VERDICT_UNKNOWN] = stroke_ring,       [SW_VERDICT_ACID] = fill_triangle,
  [SW_VERDICT_PASSED] = fill_disc,          [SW_VERDICT_ALKALINE] = fill_square,
  [SW_VERDICT_OVER_RANGE] = stroke_octagon, [SW_VERDICT_CAUTION] = fill_caution,
  [SW_VERDICT_MISTAKE] = fill_diamond,
};

static void
sw_verdict_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  SwVerdict *self = SW_VERDICT (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  double side = MIN (width, height);
  GdkRGBA colour;

  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &colour);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot,
                                           &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  /* A group of its own: cutting the exclamation mark must not reach what lies below. */
  cairo_push_group (cr);
  cairo_translate (cr, (width - side) / 2, (height - side) / 2);
  cairo_scale (cr, side / BOX, side / BOX);
  gdk_cairo_set_source_rgba (cr, &colour);
  drawings[self->kind](cr);
  cairo_pop_group_to_source (cr);
  cairo_paint (cr);
  cairo_destroy (cr);
}

static void
sw_verdict_measure (GtkWidget *widget,
                    GtkOrientation orientation,
                    int for_size,
                    int *minimum,
                    int *natural,
                    int *minimum_baseline,
                    int *natural_baseline)
{
  int dpi = -1;

  /* A mark is read like a letter: it grows with large text. */
  g_object_get (gtk_widget_get_settings (widget), "gtk-xft-dpi", &dpi, NULL);
  *minimum = *natural
      = (int)(SW_VERDICT (widget)->size_px * (dpi > 0 ? dpi / PLAIN_DPI : 1.0) + 0.5);
}

static void
sw_verdict_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  SwVerdict *self = SW_VERDICT (object);

  switch (id)
    {
    case PROP_KIND:
      sw_verdict_set_kind (self, g_value_get_int (value));
      break;
    case PROP_SIZE:
      self->size_px = g_value_get_int (value);
      gtk_widget_queue_resize (GTK_WIDGET (self));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
sw_verdict_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  SwVerdict *self = SW_VERDICT (object);

  switch (id)
    {
    case PROP_KIND:
      g_value_set_int (value, (int)self->kind);
      break;
    case PROP_SIZE:
      g_value_set_int (value, self->size_px);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
sw_verdict_class_init (SwVerdictClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->set_property = sw_verdict_set_property;
  object_class->get_property = sw_verdict_get_property;
  widget_class->snapshot = sw_verdict_snapshot;
  widget_class->measure = sw_verdict_measure;
  props[PROP_KIND] = g_param_spec_int ("kind", NULL, NULL, 0, SW_N_VERDICT_KINDS - 1, 0, flags);
  props[PROP_SIZE] = g_param_spec_int ("size", NULL, NULL, 8, 256, 16, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_css_name (widget_class, "swmark");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
sw_verdict_init (SwVerdict *self)
{
  self->size_px = 16;
  gtk_widget_add_css_class (GTK_WIDGET (self), classes[self->kind]);
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
}

GtkWidget *
sw_verdict_new (SwVerdictKind kind, int size_px)
{
  return g_object_new (SW_TYPE_VERDICT, "kind", (int)kind, "size", size_px, NULL);
}

void
sw_verdict_set_kind (SwVerdict *self, SwVerdictKind kind)
{
  g_return_if_fail (SW_IS_VERDICT (self) && kind < SW_N_VERDICT_KINDS);
  if (self->kind == kind)
    return;
  gtk_widget_remove_css_class (GTK_WIDGET (self), classes[self->kind]);
  self->kind = kind;
  gtk_widget_add_css_class (GTK_WIDGET (self), classes[kind]);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  g_object_notify_by_pspec (G_OBJECT (self), props[PROP_KIND]);
}

SwVerdictKind
sw_verdict_of_outcome (SwOutcomeKind kind)
{
  switch (kind)
    {
    case SW_OUTCOME_PASSED:
      return SW_VERDICT_PASSED;
    case SW_OUTCOME_ACID_FOUND:
      return SW_VERDICT_ACID;
    case SW_OUTCOME_OVER_RANGE:
      return SW_VERDICT_OVER_RANGE;
    case SW_OUTCOME_RESERVE_FOUND:
    case SW_OUTCOME_RESERVE_OVER_RANGE:
      return SW_VERDICT_ALKALINE;
    default:
      return SW_VERDICT_UNKNOWN;
    }
}

SwVerdictKind
sw_verdict_of_field (SwField field)
{
  switch (field)
    {
    case SW_FIELD_ACID:
      return SW_VERDICT_ACID;
    case SW_FIELD_NEUTRAL:
      return SW_VERDICT_PASSED;
    case SW_FIELD_ALKALINE:
      return SW_VERDICT_ALKALINE;
    default:
      return SW_VERDICT_UNKNOWN;
    }
}

SwVerdictKind
sw_verdict_of_state (SwFactCode state)
{
  switch (state)
    {
    case SW_FACT_STATE_PASSED:
      return SW_VERDICT_PASSED;
    case SW_FACT_STATE_ACID:
    case SW_FACT_STATE_DOSE_DUE:
    case SW_FACT_STATE_DOSE_UNKNOWN:
    case SW_FACT_STATE_RETEST_DUE:
      return SW_VERDICT_ACID;
    case SW_FACT_STATE_OVER_RANGE:
      return SW_VERDICT_OVER_RANGE;
    case SW_FACT_STATE_RESERVE:
      return SW_VERDICT_ALKALINE;
    default:
      return SW_VERDICT_UNKNOWN;
    }
}
