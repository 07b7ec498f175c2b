/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Doses, changes of solvent, incidents and the next test: lines across the lane, each with a label
 * in one of two rows above it where there is room.
 *
 * Room is given to the next test first, then to changes of solvent, then to doses, newest first:
 * a person looks for the last dose, not for the first.
 */
#include "charts/axis-date.h"
#include "charts/history-geometry.h"
#include "wording/number.h"
#include "wording/time.h"

#define ROW_1 19.0
#define ROW_2 32.0
#define GAP 5.0
#define CLOSEST_DOSES 6.0 /* nearer on the average, doses are ticks at the top of the lane */
#define TICK 8.0

/* Over its line in the first row that has room, shifted inside the picture; FALSE without room. */
static gboolean
add_label (SwHistoryChart *chart,
           PangoContext *context,
           const char *text,
           double x,
           gboolean bold,
           const SwColour *colour)
{
  static const double rows[] = { ROW_2, ROW_1 };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      SwChartLabel *label = sw_chart_label_new (context, text, chart->style.small_pt, bold, colour);
      const double most = chart->width - 2.0 - label->box.width;

      label->box.x = CLAMP (x - label->box.width / 2.0, 2.0, MAX (most, 2.0));
      label->box.y = rows[i];
      if (sw_chart_place_label (chart, label, GAP))
        return TRUE;
    }
  return FALSE;
}

static void
add_line (
    SwHistoryChart *chart, SwChartLineKind kind, gint64 row, gint64 at_ms, gboolean short_line)
{
  const SwChartBox *plot = &chart->plot;
  const SwChartLine line
      = { .kind = kind,
          .row = row,
          .x = sw_history_chart_x (chart, at_ms),
          .top = plot->y,
          .bottom = plot->y + (short_line ? MIN (TICK, plot->height) : plot->height) };

  g_array_append_val (chart->lines, line);
}

static void
add_due (SwHistoryChart *chart,
         PangoContext *context,
         const SwHistory *history,
         const SwWording *wording)
{
  static const SwTimeStep by_day = { 1, 0 };
  g_autofree char *date = NULL;
  g_autofree char *text = NULL;

  if (history->due_ms == 0)
    return;
  add_line (chart, SW_CHART_LINE_DUE, 0, history->due_ms, FALSE);
  date = sw_axis_date_format (wording, history->due_ms, &by_day, FALSE);
  /* Translators: label of a line in a chart: %s is a date such as "13 Jun". */
  text = g_strdup_printf (sw_tr (wording, "next test %s"), date);
  add_label (chart, context, text, sw_history_chart_x (chart, history->due_ms), TRUE,
             &chart->style.accent);
}

static void
add_event (SwHistoryChart *chart,
           PangoContext *context,
           const SwHistoryEvent *event,
           const SwWording *wording)
{
  if (event->kind == SW_HISTORY_INCIDENT)
    {
      add_line (chart, SW_CHART_LINE_INCIDENT, event->row, event->at_ms, FALSE);
      return;
    }
  add_line (chart, SW_CHART_LINE_FILL, event->row, event->at_ms, FALSE);
  /* Translators: label of a line in a chart: the machine was filled with new solvent. */
  add_label (chart, context, sw_trc (wording, "chart", "new solvent"),
             sw_history_chart_x (chart, event->at_ms), FALSE, &chart->style.ink);
}

static void
add_dose (SwHistoryChart *chart,
          PangoContext *context,
          const SwHistoryDose *dose,
          gboolean crowded,
          const SwWording *wording)
{
  g_autofree char *text = sw_volume_format (wording, dose->added_ml);

  add_line (chart, SW_CHART_LINE_DOSE, dose->dose, dose->at_ms, crowded);
  add_label (chart, context, text, sw_history_chart_x (chart, dose->at_ms), FALSE,
             &chart->style.faint);
}

void
sw_history_chart_add_lines (SwHistoryChart *chart,
                            PangoContext *context,
                            const SwHistory *history,
                            const SwWording *wording)
{
  const gboolean crowded = history->doses->len * CLOSEST_DOSES > chart->plot.width;

  add_due (chart, context, history, wording);
  for (guint i = history->events->len; i > 0; i--)
    add_event (chart, context, &g_array_index (history->events, SwHistoryEvent, i - 1), wording);
  for (guint i = history->doses->len; i > 0; i--)
    add_dose (chart, context, &g_array_index (history->doses, SwHistoryDose, i - 1), crowded,
              wording);
}
