/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Errors of reports and their sentences. */
#include "reports/workbook.h"
#include "wording/sentence.h"

G_DEFINE_QUARK (sw - report - error - quark, sw_report_error)

char *
sw_report_error_say (const SwWording *wording, const GError *error)
{
  if (error->domain != SW_REPORT_ERROR)
    return sw_say_error (wording, error);
  switch ((SwReportError)error->code)
    {
    case SW_REPORT_ERROR_EXISTS:
      return g_strdup (sw_tr (wording,
                              "The file to write is there already. Choose another name, or "
                              "ask for it to be replaced."));
    case SW_REPORT_ERROR_SAME_FILE:
      return g_strdup (
          sw_tr (wording, "This is the plant's own file. The export needs another name."));
    case SW_REPORT_ERROR_TOO_MANY_ROWS:
      return g_strdup (sw_tr (wording,
                              "A sheet cannot hold that many rows. Export one machine, or a "
                              "shorter time."));
    case SW_REPORT_ERROR_NO_MACHINE:
      return g_strdup_printf (sw_tr (wording, "No machine has the tag %s."), error->message);
    case SW_REPORT_ERROR_IO:
      break;
    }
  /* Translators: %s is what the operating system says, such as "No space left on device". */
  return g_strdup_printf (sw_tr (wording, "The file could not be written: %s."), error->message);
}
