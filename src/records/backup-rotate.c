/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which backups stay, and when the next one is due: pure decisions. */
#include "records/backup.h"

#define DAY_MS G_GINT64_CONSTANT (86400000)
#define KEPT_MS (365 * DAY_MS) /* what was made before a migration or a restore */

/* The number of the day, week or month that a backup falls into. */
typedef gint64 (*Period) (GDateTime *local);

/* Days since 1 January of year 1, a Monday. */
static gint64
count_days (GDateTime *local)
{
  g_autoptr (GDateTime) first = g_date_time_new_utc (1, 1, 1, 0, 0, 0);
  g_autoptr (GDateTime) day
      = g_date_time_new_utc (g_date_time_get_year (local), g_date_time_get_month (local),
                             g_date_time_get_day_of_month (local), 0, 0, 0);

  return g_date_time_difference (day, first) / G_TIME_SPAN_DAY;
}

static gint64
count_weeks (GDateTime *local)
{
  return count_days (local) / 7;
}

static gint64
count_months (GDateTime *local)
{
  return 12 * (gint64)g_date_time_get_year (local) + g_date_time_get_month (local);
}

static const struct
{
  Period period;
  guint most;
} rules[] = {
  { count_days, SW_BACKUP_DAYS },
  { count_weeks, SW_BACKUP_WEEKS },
  { count_months, SW_BACKUP_MONTHS },
};

typedef struct
{
  gint64 made_ms;
  gsize index; /* in the caller's array */
} Entry;

static int
compare_newest_first (gconstpointer a, gconstpointer b)
{
  const Entry *one = a;
  const Entry *two = b;

  if (one->made_ms != two->made_ms)
    return one->made_ms < two->made_ms ? 1 : -1;
  return one->index < two->index ? 1 : -1;
}

/* Made before something was done to the file: kept for what it is, and counted in no period. */
static gboolean
is_before (SwBackupWhy why)
{
  return why == SW_BACKUP_BEFORE_MIGRATION || why == SW_BACKUP_BEFORE_RESTORE;
}

/* Those that the periods count, newest first. (transfer full) */
static GArray *
sort_marks (const SwBackupMark *marks, gsize n)
{
  GArray *entries = g_array_sized_new (FALSE, FALSE, sizeof (Entry), (guint)n);

  for (gsize i = 0; i < n; i++)
    {
      const Entry entry = { .made_ms = marks[i].made_ms, .index = i };

      if (!is_before (marks[i].why))
        g_array_append_val (entries, entry);
    }
  g_array_sort (entries, compare_newest_first);
  return entries;
}

/* A time that no calendar has belongs to no period; such a backup is kept. */
static GDateTime *
to_local (gint64 made_ms, int offset_min)
{
  return g_date_time_new_from_unix_utc (made_ms / 1000 + 60 * (gint64)offset_min);
}

/* The first met of each period is its last one. */
static void
keep_by_rule (GArray *entries, Period period, guint most, int offset_min, gboolean *keep)
{
  gint64 last = -1;
  guint periods = 0;

  for (guint i = 0; i < entries->len && periods <= most; i++)
    {
      const Entry *entry = &g_array_index (entries, Entry, i);
      g_autoptr (GDateTime) local = to_local (entry->made_ms, offset_min);

      if (local == NULL)
        keep[entry->index] = TRUE;
      else if (period (local) != last)
        {
          last = period (local);
          periods++;
          keep[entry->index] = keep[entry->index] || periods <= most;
        }
    }
}

void
sw_backup_rotate (const SwBackupMark *marks, gsize n, gint64 now_ms, int offset_min, gboolean *keep)
{
  g_autoptr (GArray) entries = NULL;

  g_return_if_fail (n == 0 || (marks != NULL && keep != NULL));
  entries = sort_marks (marks, n);
  for (gsize i = 0; i < n; i++)
    keep[i] = is_before (marks[i].why) && now_ms - marks[i].made_ms <= KEPT_MS;
  for (gsize i = 0; i < G_N_ELEMENTS (rules); i++)
    keep_by_rule (entries, rules[i].period, rules[i].most, offset_min, keep);
}

gboolean
sw_backup_is_due (const SwBackupInfo *last, const char *head, gint64 now_ms)
{
  if (last == NULL)
    return TRUE;
  if (g_strcmp0 (last->head, head) == 0)
    return FALSE;
  return last->made_ms > now_ms || now_ms - last->made_ms >= DAY_MS;
}
