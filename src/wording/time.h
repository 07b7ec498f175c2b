/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dates and times for a reader, in the reader's zone and language. All (transfer full). */
#pragma once

#include "wording/wording.h"

G_BEGIN_DECLS

char *sw_date_format (const SwWording *wording, gint64 utc_ms);      /* "24 May 2026" */
char *sw_date_time_format (const SwWording *wording, gint64 utc_ms); /* "24 May 2026 06:20" */
char *sw_clock_format (const SwWording *wording, gint64 utc_ms);     /* "06:20" */
char *sw_day_format (const SwWording *wording, gint64 utc_ms, gint64 now_ms);
/* "today", "tomorrow", "on Thursday" (within six days), else "on 13 June" */
char *sw_due_format (const SwWording *wording, gint64 due_ms, gint64 now_ms);
/* for the sidebar, short: "now", "today", "3 days", "2 days late" */
char *sw_duration_format (const SwWording *wording, gint64 ms);   /* "40 min", "3 h", "2 days" */
char *sw_timer_format (const SwWording *wording, gint64 seconds); /* "0:42" */
/* "2026-05-24T06:20:00+02:00", the same in every language. */
char *sw_iso_format (gint64 utc_ms, int offset_min);
/* Reads "2026-05-24" or "2026-05-24 06:20" (also with T, and an offset or Z) in @zone. */
gboolean sw_iso_parse (const char *text, GTimeZone *zone, gint64 *utc_ms, GError **error);

G_END_DECLS
