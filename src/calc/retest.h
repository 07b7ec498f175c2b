/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a re-test should find after a dose, and what it means when it does not (2-calculations 2.6).
 */
#pragma once

#include "calc/quantity.h"

G_BEGIN_DECLS

typedef struct
{
  SwInterval before;    /* net acid of the test that was dosed; bounded */
  SwInterval after;     /* of the re-test; may be open */
  double dose;          /* what was really added, in the same unit (steps); > 0 */
  double used;          /* demand between the two: rate * time; 0 = no rate is known */
  double repeatability; /* standard deviation of one test, same unit; >= 0 */
  double u_relative;    /* of what a step is worth in the machine, 1; >= 0 */
  double system_l;      /* volume that the dose was worked out with; > 0 */
  double half_width_l;  /* its expanded uncertainty (k = 2); >= 0 */
} SwRetestInput;

typedef struct
{
  double expected;     /* net acid */
  SwInterval likely;   /* expected -+ 2 u */
  gboolean agrees;     /* @after reaches into @likely */
  SwInterval volume_l; /* the volumes that would make it agree exactly; high may be INFINITY; NAN,
                          NAN where none would */
  gboolean volume;     /* they exclude the volume on file with its uncertainty: worth checking */
} SwRetest;

/* FALSE where @before is open: such a test is not dosed. */
gboolean sw_retest_compare (const SwRetestInput *input, SwRetest *result);

G_END_DECLS
