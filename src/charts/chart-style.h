/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Colours, type and background of a chart. Charts own their ground: the desktop's dark ground is
 * too light for 3:1. Colours from the Okabe-Ito set. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  double red, green, blue; /* 0..1 sRGB */
} SwColour;

typedef struct
{
  SwColour ground, ink, faint, grid;
  SwColour acid, passed, alkaline, unknown, accent, dose;
  const char *font; /* family list for Pango */
  double text_pt, small_pt;
} SwChartStyle;

/* (transfer none) */
const SwChartStyle *sw_chart_style_light (void);
const SwChartStyle *sw_chart_style_dark (void);

/* WCAG 2.2 contrast ratio of two colours, 1..21. */
double sw_colour_contrast (SwColour a, SwColour b);

G_END_DECLS
