/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ISO 8601 dates. Invariant: what is read and written again is read as the same instant. */
#include "fuzz.h"

#include "calc/fault.h"
#include "wording/time.h"

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GTimeZone) zone = g_time_zone_new_utc ();
  g_autofree char *text = fuzz_text (data, size);
  g_autofree char *again = NULL;
  g_autoptr (GError) error = NULL;
  gint64 ms = 0;
  gint64 back = 1;

  if (!sw_iso_parse (text, zone, &ms, &error))
    {
      g_assert_nonnull (sw_fault_get (error));
      return 0;
    }
  /* An offset may carry the first or last day of the calendar out of it. */
  again = sw_iso_format (ms, 0);
  if (*again == '\0')
    return 0;
  g_assert_true (sw_iso_parse (again, zone, &back, NULL));
  g_assert_cmpint (back, ==, ms);
  return 0;
}
