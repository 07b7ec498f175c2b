/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawing: the same bytes each time, the context left as it was, ink where marks are.
 *
 * With SW_TEST_PICTURES set to a folder the pictures are kept there, to be looked at. */
#include "chart-fixture.h"
#include "support/support.h"

#include <string.h>

typedef struct
{
  const char *name;
  guint n;
  int width, height;
  gboolean dark;
} DrawRow;

static const DrawRow draw_rows[] = {
  { "empty", 0, 1000, 300, FALSE },         { "one test", 1, 600, 200, FALSE },
  { "light", 120, 1000, 300, FALSE },       { "dark", 120, 1000, 300, TRUE },
  { "light small", 90, 600, 200, FALSE },   { "dark small", 90, 600, 200, TRUE },
  { "5000 tests", 5000, 1000, 300, FALSE },
};

static SwHistoryChart *
lay_out (const DrawRow *row)
{
  g_autoptr (SwHistory) history = chart_make_history (row->n);
  g_autoptr (SwWording) wording = sw_wording_new ("en", "Europe/Berlin");

  return sw_history_chart_new (history,
                               row->dark ? sw_chart_style_dark () : sw_chart_style_light (),
                               wording, row->width, row->height);
}

static cairo_surface_t *
draw (const DrawRow *row)
{
  g_autoptr (SwHistoryChart) chart = lay_out (row);
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_RGB24, row->width, row->height);
  cairo_t *cr = cairo_create (surface);

  sw_history_chart_draw (chart, cr);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static void
keep_picture (cairo_surface_t *surface, const char *name)
{
  const char *folder = g_getenv ("SW_TEST_PICTURES");
  g_autofree char *file = g_strconcat ("history ", name, ".png", NULL);
  g_autofree char *path = folder != NULL ? g_build_filename (folder, file, NULL) : NULL;

  if (path != NULL)
    cairo_surface_write_to_png (surface, path);
}

static void
test_same_bytes (gconstpointer data)
{
  const DrawRow *row = data;
  cairo_surface_t *first = draw (row), *second = draw (row);
  const gsize size = (gsize)cairo_image_surface_get_stride (first) * (gsize)row->height;

  g_assert_cmpmem (cairo_image_surface_get_data (first), size,
                   cairo_image_surface_get_data (second), size);
  keep_picture (first, row->name);
  cairo_surface_destroy (first);
  cairo_surface_destroy (second);
}

static guint32
get_pixel (cairo_surface_t *surface, double x, double y)
{
  const unsigned char *data = cairo_image_surface_get_data (surface);
  guint32 pixel;

  memcpy (&pixel, data + (gsize)y * (gsize)cairo_image_surface_get_stride (surface) + 4 * (gsize)x,
          sizeof pixel);
  return pixel & 0xffffff;
}

/* Colours at places that the geometry names: bluish green in a disc, vermillion in a bar, the
 * accent on the line of the next test. */
static void
test_ink (void)
{
  g_autoptr (SwHistory) history = sw_history_new ();
  g_autoptr (SwHistoryChart) chart = NULL;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 1000, 300);
  cairo_t *cr = cairo_create (surface);
  const SwChartMark *marks;

  chart_add_test (history, 0.0, SW_OUTCOME_PASSED, -INFINITY, 0.0);
  chart_add_test (history, 20.0, SW_OUTCOME_ACID_FOUND, 3.0, 4.0);
  history->due_ms = history->now_ms + 10 * CHART_DAY_MS;
  chart = chart_lay_out (history, 1000.0, 300.0);
  sw_history_chart_draw (chart, cr);
  cairo_surface_flush (surface);
  marks = (const SwChartMark *)(gpointer)chart->marks->data;
  g_assert_cmphex (get_pixel (surface, marks[0].x, marks[0].y_high), ==, 0x009e73);
  g_assert_cmphex (get_pixel (surface, marks[1].x, sw_history_chart_y (chart, 2.0)), ==, 0xd55e00);
  /* the step between the last acid and the first pass is hollow */
  g_assert_cmphex (get_pixel (surface, marks[1].x, sw_history_chart_y (chart, 3.5)), ==, 0xffffff);
  g_assert_cmphex (
      get_pixel (surface, sw_history_chart_x (chart, history->due_ms), chart->plot.y + 20.0), ==,
      0x6a3d7c);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

static void
test_context_untouched (void)
{
  const DrawRow row = { "untouched", 40, 600, 200, FALSE };
  g_autoptr (SwHistoryChart) chart = lay_out (&row);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 700, 300);
  cairo_t *cr = cairo_create (surface);
  cairo_matrix_t before, after;
  double x, y;

  cairo_translate (cr, 30.0, 40.0);
  cairo_set_line_width (cr, 7.25);
  cairo_move_to (cr, 11.0, 12.0);
  cairo_get_matrix (cr, &before);
  sw_history_chart_draw (chart, cr);
  cairo_get_matrix (cr, &after);
  g_assert_cmpmem (&before, sizeof before, &after, sizeof after);
  g_assert_cmpfloat (cairo_get_line_width (cr), ==, 7.25);
  g_assert_cmpint (cairo_get_dash_count (cr), ==, 0);
  g_assert_true (cairo_has_current_point (cr));
  cairo_get_current_point (cr, &x, &y);
  g_assert_cmpfloat (fabs (x - 11.0) + fabs (y - 12.0), <, 0.01);
  /* nothing left of the picture's own place */
  g_assert_cmphex (get_pixel (surface, 10.0, 10.0), ==, 0);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/charts/draw/same-bytes", draw_rows, test_same_bytes);
  g_test_add_func ("/charts/draw/ink", test_ink);
  g_test_add_func ("/charts/draw/context-untouched", test_context_untouched);
  return g_test_run ();
}
