/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contrast of chart colours with their ground.
 *
 * Limits: WCAG 2.2, 1.4.3 (text 4.5:1) and 1.4.11 (graphics 3:1). The formula is checked against
 * values that WCAG itself states (black on white 21:1) and that its "Understanding" page gives for
 * #777777 on white (4.48:1, just too little).
 */
#include "charts/chart-style.h"
#include "support/support.h"

#include <math.h>

typedef struct
{
  const char *name;
  gboolean dark;
  gsize offset;
  double least;
} Row;

#define ROWS(member, least)                                                                        \
  { "light " #member, FALSE, G_STRUCT_OFFSET (SwChartStyle, member), least },                      \
  {                                                                                                \
    "dark " #member, TRUE, G_STRUCT_OFFSET (SwChartStyle, member), least                           \
  }

static const Row rows[] = {
  ROWS (ink, 4.5),    ROWS (faint, 4.5),    ROWS (accent, 4.5),  ROWS (acid, 3.0),
  ROWS (passed, 3.0), ROWS (alkaline, 3.0), ROWS (unknown, 3.0), ROWS (dose, 3.0),
};

static SwColour
grey (double level)
{
  return (SwColour){ level, level, level };
}

static void
test_contrast (gconstpointer data)
{
  const Row *row = data;
  const SwChartStyle *style = row->dark ? sw_chart_style_dark () : sw_chart_style_light ();
  const SwColour *colour = G_STRUCT_MEMBER_P (style, row->offset);

  g_assert_cmpfloat (sw_colour_contrast (*colour, style->ground), >=, row->least);
}

static void
test_formula (void)
{
  sw_assert_close (sw_colour_contrast (grey (0.0), grey (1.0)), 21.0, 1e-12);
  sw_assert_close (sw_colour_contrast (grey (1.0), grey (0.0)), 21.0, 1e-12);
  sw_assert_close (sw_colour_contrast (grey (0.3), grey (0.3)), 1.0, 1e-12);
  g_assert_cmpfloat (fabs (sw_colour_contrast (grey (0x77 / 255.0), grey (1.0)) - 4.48), <, 0.005);
}

static void
test_grounds (void)
{
  const SwColour light = sw_chart_style_light ()->ground, dark = sw_chart_style_dark ()->ground;

  g_assert_cmpfloat (sw_colour_contrast (light, grey (1.0)), <, 1.05);
  g_assert_cmpfloat (sw_colour_contrast (dark, grey (0x24 / 255.0)), <, 1.05);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/charts/style/formula", test_formula);
  g_test_add_func ("/charts/style/grounds", test_grounds);
  SW_TEST_ROWS ("/charts/style/contrast", rows, test_contrast);
  return g_test_run ();
}
