/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Labels that keep clear of one another. */
#include "charts/history-geometry.h"

#include <pango/pangocairo.h>

void
sw_chart_label_free (SwChartLabel *label)
{
  if (label == NULL)
    return;
  g_object_unref (label->layout);
  g_free (label);
}

PangoContext *
sw_chart_context_new (const SwChartStyle *style)
{
  PangoContext *context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  cairo_font_options_t *options = cairo_font_options_create ();
  PangoFontDescription *font = pango_font_description_from_string (style->font);

  /* one unit of the picture is one point, whatever the screen is */
  pango_cairo_context_set_resolution (context, 72.0);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options (context, options);
  pango_context_set_round_glyph_positions (context, FALSE);
  pango_context_set_font_description (context, font);
  pango_font_description_free (font);
  cairo_font_options_destroy (options);
  return context;
}

SwChartLabel *
sw_chart_label_new (
    PangoContext *context, const char *text, double size_pt, gboolean bold, const SwColour *colour)
{
  SwChartLabel *label = g_new0 (SwChartLabel, 1);
  PangoAttrList *attributes = pango_attr_list_new ();
  PangoRectangle logical;

  label->layout = pango_layout_new (context);
  label->colour = colour;
  pango_attr_list_insert (attributes, pango_attr_size_new ((int)(size_pt * PANGO_SCALE)));
  if (bold)
    pango_attr_list_insert (attributes, pango_attr_weight_new (PANGO_WEIGHT_SEMIBOLD));
  pango_layout_set_attributes (label->layout, attributes);
  pango_attr_list_unref (attributes);
  pango_layout_set_single_paragraph_mode (label->layout, TRUE);
  pango_layout_set_text (label->layout, text, -1);
  pango_layout_get_extents (label->layout, NULL, &logical);
  label->box.width = (double)logical.width / PANGO_SCALE;
  label->box.height = (double)logical.height / PANGO_SCALE;
  return label;
}

static gboolean
overlap (const SwChartBox *a, const SwChartBox *b, double gap)
{
  return a->x < b->x + b->width + gap && b->x < a->x + a->width + gap && a->y < b->y + b->height
         && b->y < a->y + a->height;
}

gboolean
sw_chart_place_label (SwHistoryChart *chart, SwChartLabel *label, double gap)
{
  const SwChartBox *box = &label->box;
  gboolean fits = box->x >= 0.0 && box->y >= 0.0 && box->x + box->width <= chart->width
                  && box->y + box->height <= chart->height;

  for (guint i = 0; fits && i < chart->labels->len; i++)
    fits = !overlap (box, &((const SwChartLabel *)chart->labels->pdata[i])->box, gap);
  if (fits)
    g_ptr_array_add (chart->labels, label);
  else
    sw_chart_label_free (label);
  return fits;
}
