/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Colours and type of charts on light and dark ground.
 *
 * Marks use the set of M. Okabe and K. Ito, "Color Universal Design" (2008): vermillion, bluish
 * green, blue (sky blue on dark). The accent is the program's own purple. tests/charts computes the
 * contrast of each colour with its ground: marks at least 3:1, text at least 4.5:1 (WCAG 2.2, 1.4.3
 * and 1.4.11).
 */
#include "charts/chart-style.h"

#include <math.h>

#define RGB(hex)                                                                                   \
  {                                                                                                \
    (((hex) >> 16) & 0xff) / 255.0, (((hex) >> 8) & 0xff) / 255.0, ((hex)&0xff) / 255.0            \
  }

/* Digits of one width, so that amounts line up; the rest is the desktop's own. */
#define FAMILIES "Inter, Cantarell, DejaVu Sans, sans-serif"

static const SwChartStyle light = {
  .ground = RGB (0xffffff),
  .ink = RGB (0x1f2226),
  .faint = RGB (0x5d636b),
  .grid = RGB (0xe6e2da),
  .acid = RGB (0xd55e00),     /* vermillion */
  .passed = RGB (0x009e73),   /* bluish green */
  .alkaline = RGB (0x0072b2), /* blue */
  .unknown = RGB (0x767b82),
  .accent = RGB (0x6a3d7c),
  .dose = RGB (0x8a6a99),
  .font = FAMILIES,
  .text_pt = 9.0,
  .small_pt = 8.0,
};

static const SwChartStyle dark = {
  .ground = RGB (0x242424),
  .ink = RGB (0xf2f0ec),
  .faint = RGB (0xb4b7bc),
  .grid = RGB (0x3d3d3f),
  .acid = RGB (0xd55e00),     /* vermillion */
  .passed = RGB (0x009e73),   /* bluish green */
  .alkaline = RGB (0x56b4e9), /* sky blue */
  .unknown = RGB (0x9aa0a6),
  .accent = RGB (0xcfa5e0),
  .dose = RGB (0xa98bb8),
  .font = FAMILIES,
  .text_pt = 9.0,
  .small_pt = 8.0,
};

/* WCAG 2.2, "relative luminance", with the threshold of IEC 61966-2-1. */
static double
linearise (double channel)
{
  return channel <= 0.04045 ? channel / 12.92 : pow ((channel + 0.055) / 1.055, 2.4);
}

static double
compute_luminance (SwColour colour)
{
  return 0.2126 * linearise (colour.red) + 0.7152 * linearise (colour.green)
         + 0.0722 * linearise (colour.blue);
}

const SwChartStyle *
sw_chart_style_light (void)
{
  return &light;
}

const SwChartStyle *
sw_chart_style_dark (void)
{
  return &dark;
}

double
sw_colour_contrast (SwColour a, SwColour b)
{
  const double first = compute_luminance (a), second = compute_luminance (b);

  return (MAX (first, second) + 0.05) / (MIN (first, second) + 0.05);
}
