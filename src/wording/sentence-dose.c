/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The arithmetic of a dose on one line, and what dominates its uncertainty. */
#include "wording/sentence-private.h"

#include <glib/gi18n.h>

/* What makes up the steps that are multiplied. */
typedef enum
{
  PARTS_COUNT,
  PARTS_CAUSTIC,
  PARTS_BLANK,
  PARTS_BAND,
  N_PARTS
} Parts;

/* By parts, extra, burette. In each: 1 the counted steps such as "3 drops", 2 what one is worth,
 * 3 the dose; then the steps for caustic addition or blank where there are any, then the extra. */
/* clang-format off */
static const char *const lines[N_PARTS][2][2] = {
  [PARTS_COUNT] = {
    { N_ ("%1$s × %2$s per drop = %3$s"),
      N_ ("%1$s × %2$s per mL = %3$s") },
    { N_ ("(%1$s + %4$s extra) × %2$s per drop = %3$s"),
      N_ ("(%1$s + %4$s extra) × %2$s per mL = %3$s") },
  },
  [PARTS_CAUSTIC] = {
    { N_ ("(%1$s + %4$s for the caustic addition) × %2$s per drop = %3$s"),
      N_ ("(%1$s + %4$s for the caustic addition) × %2$s per mL = %3$s") },
    { N_ ("(%1$s + %4$s for the caustic addition + %5$s extra) × %2$s per drop = %3$s"),
      N_ ("(%1$s + %4$s for the caustic addition + %5$s extra) × %2$s per mL = %3$s") },
  },
  [PARTS_BLANK] = {
    { N_ ("(%1$s − %4$s for the blank) × %2$s per drop = %3$s"),
      N_ ("(%1$s − %4$s for the blank) × %2$s per mL = %3$s") },
    { N_ ("(%1$s − %4$s for the blank + %5$s extra) × %2$s per drop = %3$s"),
      N_ ("(%1$s − %4$s for the blank + %5$s extra) × %2$s per mL = %3$s") },
  },
  [PARTS_BAND] = {
    { N_ ("%1$s short of the high mark × %2$s per drop = %3$s"),
      N_ ("%1$s short of the high mark × %2$s per mL = %3$s") },
    { N_ ("(%1$s short of the high mark + %4$s extra) × %2$s per drop = %3$s"),
      N_ ("(%1$s short of the high mark + %4$s extra) × %2$s per mL = %3$s") },
  },
};
/* clang-format on */

/* Steps below this are rounding of sums and quotients. */
#define NO_STEPS 1e-9

typedef struct
{
  const char *most;    /* half of the variance or more */
  const char *largest; /* less, but more than any other */
} DominantSentence;

/* clang-format off */
static const DominantSentence dominant[SW_N_LINES] = {
  [SW_LINE_END_POINT] = {
    N_ ("Most of the uncertainty is the width of the last step. Smaller steps or a larger sample "
        "make it less."),
    N_ ("The largest part of the uncertainty is the width of the last step. Smaller steps or a "
        "larger sample make it less.") },
  [SW_LINE_DROP_VOLUME] = {
    N_ ("Most of the uncertainty is the drop size. Calibrate the dropper."),
    N_ ("The largest part of the uncertainty is the drop size. Calibrate the dropper.") },
  [SW_LINE_SAMPLE_VOLUME] = {
    N_ ("Most of the uncertainty is the sample volume. Measure it with a finer vessel."),
    N_ ("The largest part of the uncertainty is the sample volume. Measure it with a finer "
        "vessel.") },
  [SW_LINE_SYSTEM_VOLUME] = {
    N_ ("Most of the uncertainty is the solvent volume of the machine. Check its levels."),
    N_ ("The largest part of the uncertainty is the solvent volume of the machine. Check its "
        "levels.") },
  [SW_LINE_TITRANT] = {
    N_ ("Most of the uncertainty is the strength of the titrant. Have it determined."),
    N_ ("The largest part of the uncertainty is the strength of the titrant. Have it "
        "determined.") },
  [SW_LINE_PRODUCT] = {
    N_ ("Most of the uncertainty is the strength of the neutraliser. Ask its supplier."),
    N_ ("The largest part of the uncertainty is the strength of the neutraliser. Ask its "
        "supplier.") },
  [SW_LINE_STRENGTH_RATIO] = {
    N_ ("Most of the uncertainty is the ratio of titrant to neutraliser strength. Ask the "
        "supplier."),
    N_ ("The largest part of the uncertainty is the ratio of titrant to neutraliser strength. Ask "
        "the supplier.") },
  [SW_LINE_CAUSTIC] = {
    N_ ("Most of the uncertainty is the caustic addition. Measure it with a finer vessel."),
    N_ ("The largest part of the uncertainty is the caustic addition. Measure it with a finer "
        "vessel.") },
  [SW_LINE_OTHER] = { N_ ("Most of the uncertainty is of another kind."),
                      N_ ("The largest part of the uncertainty is of another kind.") },
};
/* clang-format on */

/* Splits the steps of a dose: @counted by the person, and @other for caustic, blank or band. */
static Parts
split_steps (const SwDose *dose, double pass_at, double *counted, double *other)
{
  double difference = dose->net.high - pass_at;

  *counted = pass_at;
  *other = fabs (difference);
  if (dose->net.high <= 0.0 && dose->net.low < 0.0)
    {
      *counted = (dose->dose_ml.value - dose->extra_ml) / dose->per_step_ml;
      return PARTS_BAND;
    }
  if (*other < NO_STEPS)
    return PARTS_COUNT;
  return difference > 0.0 ? PARTS_CAUSTIC : PARTS_BLANK;
}

char *
sw_say_dose_arithmetic (
    const SwWording *wording, const SwDose *dose, double pass_at, double extra, gboolean burette)
{
  g_autofree char *count = NULL;
  g_autofree char *other = NULL;
  g_autofree char *more = NULL;
  g_autofree char *worth = NULL;
  g_autofree char *amount = NULL;
  const char *line;
  gboolean has_other;
  double counted;
  double rest;
  Parts parts;

  g_return_val_if_fail (wording != NULL && dose != NULL, g_strdup (""));
  parts = split_steps (dose, pass_at, &counted, &rest);
  count = sw_step_count_format (wording, counted, burette);
  other = sw_step_count_format (wording, rest, burette);
  more = sw_step_count_format (wording, extra, burette);
  worth = sw_volume_format (wording, dose->per_step_ml);
  amount = sw_volume_format (wording, dose->dose_ml.value);
  line = sw_tr (wording, lines[parts][extra > 0.0 ? 1 : 0][burette ? 1 : 0]);
  has_other = parts == PARTS_CAUSTIC || parts == PARTS_BLANK;
  return sw_say_filled (line, count, worth, amount, has_other ? other : more, more);
}

char *
sw_say_dominant (const SwWording *wording, const SwBudget *budget)
{
  const SwBudgetLine *line;

  g_return_val_if_fail (wording != NULL && budget != NULL, g_strdup (""));
  if (budget->n == 0 || !(budget->u > 0.0))
    return g_strdup (sw_tr (wording, "No uncertainty is on file for any of the inputs."));
  line = &budget->lines[MIN (budget->dominant, budget->n - 1)];
  return g_strdup (sw_tr (wording, line->share >= 0.5 ? dominant[line->name].most
                                                      : dominant[line->name].largest));
}
