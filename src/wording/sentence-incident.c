/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences about acid incidents. */
#include "wording/sentence-incident.h"

#include "wording/time.h"

char *
sw_say_incident_waits (const SwWording *wording, gint64 opened_ms)
{
  g_autofree char *day = sw_date_format (wording, opened_ms);

  /* Translators: %s is a date. */
  return g_strdup_printf (
      sw_tr (wording, "The re-test passed: the acid incident of %s waits for its review."), day);
}
