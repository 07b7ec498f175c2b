/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Title of the lane, and a key to the marks that this history has: shape and word together. */
#include "charts/history-geometry.h"
#include "wording/sentence.h"

#define ROW_Y 4.0
#define KEY_WIDTH 14.0
#define GAP 12.0

static double
place_text (SwHistoryChart *chart,
            PangoContext *context,
            const char *text,
            double x,
            gboolean bold,
            const SwColour *colour)
{
  SwChartLabel *label = sw_chart_label_new (
      context, text, bold ? chart->style.text_pt : chart->style.small_pt, bold, colour);
  const double width = label->box.width;

  label->box.x = x;
  label->box.y = ROW_Y + (bold ? 0.0 : 0.5);
  return sw_chart_place_label (chart, label, 0.0) ? width : 0.0;
}

static gboolean
has_kind (const SwHistory *history, SwOutcomeKind kind)
{
  for (guint i = 0; i < history->tests->len; i++)
    if (g_array_index (history->tests, SwHistoryTest, i).kind == kind)
      return TRUE;
  return FALSE;
}

/* Returns where the next key begins; a key without room is left out. */
static double
add_key (
    SwHistoryChart *chart, PangoContext *context, const char *word, SwOutcomeKind kind, double x)
{
  const double width = place_text (chart, context, word, x + KEY_WIDTH, FALSE, &chart->style.faint);
  const SwChartKey key = { .kind = kind, .x = x + KEY_WIDTH / 2.0 - 1.5, .y = ROW_Y + 6.0 };

  if (width <= 0.0)
    return x;
  g_array_append_val (chart->keys, key);
  return x + KEY_WIDTH + width + GAP;
}

void
sw_history_chart_add_legend (SwHistoryChart *chart,
                             PangoContext *context,
                             const SwHistory *history,
                             const SwWording *wording)
{
  static const SwOutcomeKind kinds[]
      = { SW_OUTCOME_PASSED,        SW_OUTCOME_ACID_FOUND, SW_OUTCOME_OVER_RANGE,
          SW_OUTCOME_RESERVE_FOUND, SW_OUTCOME_NO_RESERVE, SW_OUTCOME_RESERVE_OVER_RANGE };
  /* Translators: title of a chart's axis, what was counted until the strip changed colour. */
  const char *title = history->burette ? sw_trc (wording, "axis", "Titrant, mL")
                                       : sw_trc (wording, "axis", "Drops");
  double x = 8.0;

  x += place_text (chart, context, title, x, TRUE, &chart->style.ink) + 1.5 * GAP;
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (has_kind (history, kinds[i]))
      x = add_key (chart, context, sw_say_outcome (wording, kinds[i]), kinds[i], x);
  if (history->tests->len == 0)
    place_text (chart, context, sw_trc (wording, "chart", "No test yet"), x, FALSE,
                &chart->style.faint);
}
