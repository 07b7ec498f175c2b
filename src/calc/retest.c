/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Net acid after a dose: middle before - dose + what was used since. Its uncertainty is that of the
 * interval (rectangular, width^2 / 12), of two tests, and of the dose's worth. */
#include "calc/retest.h"

#include <math.h>

#define COVERAGE 2.0

/* With volume V' in place of V the dose was worth dose * V / V'; that must lie between what the two
 * tests differ by at least and at most. */
static SwInterval
get_fitting_volume (const SwRetestInput *input)
{
  double most = input->before.high - (input->after.low - input->used);
  double least = input->before.low - (input->after.high - input->used);
  double product = input->system_l * input->dose;

  if (!(most > 0.0))
    return (SwInterval){ NAN, NAN };
  return (SwInterval){ product / most, least > 0.0 ? product / least : INFINITY };
}

gboolean
sw_retest_compare (const SwRetestInput *input, SwRetest *result)
{
  double width;
  double worth;
  double u;

  g_return_val_if_fail (input != NULL && result != NULL, FALSE);
  width = input->before.high - input->before.low;
  if (!isfinite (width))
    return FALSE;
  worth = input->dose * input->u_relative;
  u = sqrt (width * width / 12.0 + 2.0 * input->repeatability * input->repeatability
            + worth * worth);
  result->expected = 0.5 * (input->before.low + input->before.high) - input->dose + input->used;
  result->likely = (SwInterval){ result->expected - COVERAGE * u, result->expected + COVERAGE * u };
  result->agrees
      = input->after.low < result->likely.high && input->after.high >= result->likely.low;
  result->volume_l = get_fitting_volume (input);
  result->volume = result->volume_l.low > input->system_l + input->half_width_l
                   || result->volume_l.high < input->system_l - input->half_width_l;
  return TRUE;
}
