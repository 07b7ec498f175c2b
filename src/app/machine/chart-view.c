/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The history chart on screen.
 *
 * The chart is laid out in points for the present size, theme and text size, and kept until one of
 * them changes. What it says is also this widget's accessible label; each mark says itself in a
 * tooltip, and the list below the chart holds the same tests for the keyboard.
 */
#include "app/machine/chart-view.h"

#include "app/theme.h"
#include "charts/history-chart.h"
#include "wording/sentence-todo.h"

/* High enough for lane, labels and axis; it grows with the text. */
#define HEIGHT_PT 180.0
#define WIDTH_PT 200.0
#define POINTS_PER_INCH 72.0
/* gtk-xft-dpi counts in 1024ths; -1 = not known. */
#define DPI_UNITS 1024.0
#define DPI_DEFAULT 96.0

struct _SwChartView
{
  GtkWidget parent_instance;

  /* Owned */
  SwHistory *history;
  SwWording *wording;
  SwHistoryChart *chart;

  int chart_width, chart_height; /* px that `chart` was laid out for */
  double px_per_point;
};

enum
{
  SIGNAL_TEST_CHOSEN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwChartView, sw_chart_view, GTK_TYPE_WIDGET)

static void
forget_layout (SwChartView *self)
{
  g_clear_pointer (&self->chart, sw_history_chart_free);
  gtk_widget_queue_resize (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static double
get_px_per_point (GtkWidget *widget)
{
  int dpi = -1;

  g_object_get (gtk_widget_get_settings (widget), "gtk-xft-dpi", &dpi, NULL);
  return (dpi > 0 ? dpi / DPI_UNITS : DPI_DEFAULT) / POINTS_PER_INCH;
}

/* One colour of the style sheet; left as it is where the sheet does not name it. */
static void
take_colour (GtkStyleContext *sheet, const char *name, SwColour *colour)
{
  GdkRGBA rgba;

  if (gtk_style_context_lookup_color (sheet, name, &rgba))
    *colour = (SwColour){ .red = rgba.red, .green = rgba.green, .blue = rgba.blue };
}

/* The chart's own style in the colours of the window, so that it sits on its card in every theme,
 * high contrast included. tests/app/test-colours.c computes the contrasts. */
static SwChartStyle
make_style (SwChartView *self)
{
  gboolean dark = sw_theme_is_dark (sw_theme_get_default ());
  GtkStyleContext *sheet = gtk_widget_get_style_context (GTK_WIDGET (self));
  SwChartStyle style = dark ? *sw_chart_style_dark () : *sw_chart_style_light ();

  take_colour (sheet, "sw_card", &style.ground);
  take_colour (sheet, "sw_ink", &style.ink);
  take_colour (sheet, "sw_dim", &style.faint);
  take_colour (sheet, "sw_acid", &style.acid);
  take_colour (sheet, "sw_passed", &style.passed);
  take_colour (sheet, "sw_alkaline", &style.alkaline);
  take_colour (sheet, "sw_unknown", &style.unknown);
  take_colour (sheet, "sw_accent_ink", &style.accent);
  take_colour (sheet, "sw_accent_ink", &style.dose);
  return style;
}

/* The chart for the present size, or NULL when there is nothing to show. */
static SwHistoryChart *
ensure_chart (SwChartView *self)
{
  int width = gtk_widget_get_width (GTK_WIDGET (self));
  int height = gtk_widget_get_height (GTK_WIDGET (self));

  if (self->history == NULL || width <= 0 || height <= 0)
    return NULL;
  if (self->chart != NULL && self->chart_width == width && self->chart_height == height)
    return self->chart;
  const SwChartStyle style = make_style (self);
  g_clear_pointer (&self->chart, sw_history_chart_free);
  self->px_per_point = get_px_per_point (GTK_WIDGET (self));
  self->chart = sw_history_chart_new (self->history, &style, self->wording,
                                      width / self->px_per_point, height / self->px_per_point);
  self->chart_width = width;
  self->chart_height = height;
  return self->chart;
}

static void
sw_chart_view_measure (GtkWidget *widget,
                       GtkOrientation orientation,
                       int for_size,
                       int *minimum,
                       int *natural,
                       int *minimum_baseline,
                       int *natural_baseline)
{
  double points = orientation == GTK_ORIENTATION_VERTICAL ? HEIGHT_PT : WIDTH_PT;

  *minimum = *natural = (int)(points * get_px_per_point (widget));
}

static void
sw_chart_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  SwChartView *self = SW_CHART_VIEW (widget);
  SwHistoryChart *chart = ensure_chart (self);

  if (chart == NULL)
    return;
  cairo_t *cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)self->chart_width, (float)self->chart_height));
  cairo_scale (cr, self->px_per_point, self->px_per_point);
  sw_history_chart_draw (chart, cr);
  cairo_destroy (cr);
}

/* ---- marks under the pointer ---- */

static gboolean
find_mark (SwChartView *self, double x, double y, SwChartHit *hit)
{
  SwHistoryChart *chart = ensure_chart (self);

  return chart != NULL
         && sw_history_chart_hit (chart, x / self->px_per_point, y / self->px_per_point, hit);
}

static char *
dup_mark_words (SwChartView *self, const SwChartHit *hit)
{
  for (guint i = 0; hit->titration != 0 && i < self->history->tests->len; i++)
    {
      const SwHistoryTest *test = &g_array_index (self->history->tests, SwHistoryTest, i);
      if (test->titration == hit->titration)
        return sw_say_test_at (self->wording, test->at_ms, test->kind, test->net.low,
                               test->net.high, self->history->burette);
    }
  for (guint i = 0; hit->dose != 0 && i < self->history->doses->len; i++)
    {
      const SwHistoryDose *dose = &g_array_index (self->history->doses, SwHistoryDose, i);
      if (dose->dose == hit->dose)
        return sw_say_dose_at (self->wording, dose->at_ms, dose->added_ml);
    }
  return NULL;
}

static gboolean
sw_chart_view_query_tooltip (
    GtkWidget *widget, int x, int y, gboolean by_keyboard, GtkTooltip *tooltip)
{
  SwChartView *self = SW_CHART_VIEW (widget);
  SwChartHit hit;

  if (by_keyboard || !find_mark (self, x, y, &hit))
    return FALSE;
  g_autofree char *words = dup_mark_words (self, &hit);
  if (words == NULL)
    return FALSE;
  gtk_tooltip_set_text (tooltip, words);
  return TRUE;
}

static void
pressed_cb (GtkGestureClick *gesture, int n, double x, double y, SwChartView *self)
{
  SwChartHit hit;

  if (find_mark (self, x, y, &hit) && hit.titration != 0)
    g_signal_emit (self, signals[SIGNAL_TEST_CHOSEN], 0, hit.titration);
}

/* ---- class ---- */

static void
sw_chart_view_dispose (GObject *object)
{
  SwChartView *self = SW_CHART_VIEW (object);

  g_clear_pointer (&self->chart, sw_history_chart_free);
  g_clear_pointer (&self->history, sw_history_free);
  g_clear_pointer (&self->wording, sw_wording_unref);
  G_OBJECT_CLASS (sw_chart_view_parent_class)->dispose (object);
}

static void
sw_chart_view_class_init (SwChartViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_chart_view_dispose;
  widget_class->measure = sw_chart_view_measure;
  widget_class->snapshot = sw_chart_view_snapshot;
  widget_class->query_tooltip = sw_chart_view_query_tooltip;
  signals[SIGNAL_TEST_CHOSEN]
      = g_signal_new ("test-chosen", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                      NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
sw_chart_view_init (SwChartView *self)
{
  GtkGesture *press = gtk_gesture_click_new ();

  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
  g_signal_connect (press, "pressed", G_CALLBACK (pressed_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (press));
  g_signal_connect_object (sw_theme_get_default (), "notify::dark", G_CALLBACK (forget_layout),
                           self, G_CONNECT_SWAPPED);
  g_signal_connect_object (gtk_settings_get_default (), "notify::gtk-xft-dpi",
                           G_CALLBACK (forget_layout), self, G_CONNECT_SWAPPED);
}

void
sw_chart_view_set_history (SwChartView *self, SwHistory *history, SwWording *wording)
{
  g_return_if_fail (SW_IS_CHART_VIEW (self) && wording != NULL);

  sw_wording_ref (wording);
  g_clear_pointer (&self->wording, sw_wording_unref);
  g_clear_pointer (&self->history, sw_history_free);
  self->wording = wording;
  self->history = history;
  forget_layout (self);
  if (history == NULL)
    return;
  g_autofree char *words = sw_history_chart_describe (history, wording);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
}
