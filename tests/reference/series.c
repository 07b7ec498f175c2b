/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "series.h"

#include "support/support.h"

static double
read_end (const char *text, double open)
{
  return *text == '\0' ? open : g_ascii_strtod (text, NULL);
}

GPtrArray *
series_read_rows (const char *name)
{
  g_autofree char *relative = g_build_filename ("tests", "reference", "data", name, NULL);
  g_autofree char *path = sw_test_source_path (relative);
  g_autofree char *text = NULL;
  GPtrArray *rows = g_ptr_array_new_with_free_func ((GDestroyNotify)g_strfreev);
  GError *error = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  g_auto (GStrv) lines = g_strsplit (g_strchomp (text), "\n", -1);
  for (int i = 1; lines[i] != NULL; i++)
    g_ptr_array_add (rows, g_strsplit (g_strchomp (lines[i]), ",", -1));
  g_assert_cmpuint (rows->len, <=, SERIES_MOST_ROWS);
  return rows;
}

void
series_load_drops (Series *series, gboolean open_below)
{
  g_autoptr (GPtrArray) rows = series_read_rows ("drop-series-1.csv");
  int low = open_below ? 6 : 4;

  for (guint i = 0; i < rows->len; i++)
    {
      char **cells = rows->pdata[i];

      series->y[i].low = read_end (cells[low], -INFINITY);
      series->y[i].high = read_end (cells[low + 1], INFINITY);
      series->x[2 * i] = 1.0;
      series->x[2 * i + 1] = g_ascii_strtod (cells[0], NULL);
      series->points[i] = (SwDemandPoint){ series->y[i], 1.0, series->x[2 * i + 1] };
    }
  series->data = (SwCensoredData){ series->y, series->x, rows->len, 2 };
}
