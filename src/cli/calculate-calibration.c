/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stillwarden calculate calibration: weighings of so many drops each, or counts of the drops that
 * fill a volume. */
#include "cli/command.h"

#include "calc/calibration.h"
#include "wording/number.h"

#include <glib/gi18n.h>
#include <string.h>

const SwOption sw_cli_calibration_options[] = {
  { "weighings", SW_OPTION_TEXT, SW_QUANTITY_WEIGHING,
    .help = N_ ("masses with commas between, and the unit once at the end: \"1.01,0.99 g\"") },
  { "drops", SW_OPTION_AMOUNT, SW_QUANTITY_DROP_COUNT, SW_UNIT_NONE,
    .help = N_ ("drops in each weighing") },
  { "density", SW_OPTION_AMOUNT, SW_QUANTITY_DENSITY, SW_UNIT_G_PER_ML, .uncertain = TRUE },
  { "water", SW_OPTION_FLAG, .help = N_ ("the liquid is water: compare with the pharmacopoeia") },
  { "counts", SW_OPTION_TEXT, SW_QUANTITY_NONE,
    .help = N_ ("instead of weighings: drops that filled the volume, with commas between") },
  { "volume", SW_OPTION_AMOUNT, SW_QUANTITY_GRADUATION, SW_UNIT_ML, .uncertain = TRUE,
    .help = N_ ("the volume that was filled") },
  { NULL }
};

/* What stands behind the number of the last item; "" for nothing. */
static const char *
find_unit (const char *text)
{
  const char *last = strrchr (text, ',');

  last = last != NULL ? last + 1 : text;
  last += strspn (last, " ");
  last += strspn (last, "+-0123456789.");
  return last + strspn (last, " ");
}

static gboolean
parse_item (const SwCliRun *run,
            const char *option,
            const char *item,
            SwUnit unit,
            GArray *values,
            GError **error)
{
  SwQuantityName quantity = unit == SW_UNIT_GRAM ? SW_QUANTITY_WEIGHING : SW_QUANTITY_DROP_COUNT;
  SwParsedAmount parsed;

  if (!sw_number_parse_strict (item, quantity, unit, &parsed, error))
    return sw_options_blame (run->options, option, error);
  g_array_append_val (values, parsed.value);
  return TRUE;
}

/* The items of a list; the unit at the end holds for each item that has none of its own. */
static GArray *
parse_list (const SwCliRun *run, const char *option, SwUnit unit, GError **error)
{
  const char *text = sw_options_get_text (run->options, option);
  const char *behind = find_unit (text);
  SwUnit known;
  const char *symbol = sw_unit_parse (behind, &known) ? behind : "";
  g_auto (GStrv) items = g_strsplit (text, ",", -1);
  g_autoptr (GArray) values = g_array_new (FALSE, FALSE, sizeof (double));

  for (gsize i = 0; items[i] != NULL; i++)
    {
      const char *plain = g_strstrip (items[i]);
      gboolean bare = *find_unit (plain) == '\0' && *plain != '\0';
      g_autofree char *item = g_strconcat (plain, bare ? symbol : "", NULL);

      if (!parse_item (run, option, item, unit, values, error))
        return NULL;
    }
  return g_steal_pointer (&values);
}

/* An option that belongs to the other way would be dropped in silence. */
static gboolean
check_way (const SwCliRun *run, gboolean by_weight, GError **error)
{
  const char *const of_weight[] = { "drops", "density", "water", NULL };
  const char *const of_count[] = { "volume", NULL };
  const char *const *foreign = by_weight ? of_count : of_weight;

  if (by_weight == sw_options_has (run->options, "counts"))
    return sw_options_refuse (run->options, "weighings",
                              sw_tr (run->wording, "Give either this or --counts."), error);
  for (gsize i = 0; foreign[i] != NULL; i++)
    if (sw_options_has (run->options, foreign[i]))
      return sw_options_refuse (
          run->options, foreign[i],
          by_weight ? sw_tr (run->wording, "This option does not go with --weighings.")
                    : sw_tr (run->wording, "This option does not go with --counts."),
          error);
  return TRUE;
}

static gboolean
by_weight (const SwCliRun *run, SwCalibrationResult *result, SwQuantity *density, GError **error)
{
  g_autoptr (GArray) weighings = parse_list (run, "weighings", SW_UNIT_GRAM, error);
  double drops;

  return weighings != NULL && sw_options_get_amount (run->options, "drops", &drops, error)
         && sw_options_get_quantity (run->options, "density", density, error)
         && (sw_calibration_by_weight ((const double *)(const void *)weighings->data,
                                       weighings->len, drops, *density, result, error)
             || sw_options_name_fault (run->options, error)
             || sw_options_blame (run->options, "weighings", error));
}

static gboolean
by_count (const SwCliRun *run, SwCalibrationResult *result, GError **error)
{
  g_autoptr (GArray) counts = parse_list (run, "counts", SW_UNIT_NONE, error);
  SwQuantity volume;

  return counts != NULL && sw_options_get_quantity (run->options, "volume", &volume, error)
         && (sw_calibration_by_count ((const double *)(const void *)counts->data, counts->len,
                                      volume, result, error)
             || sw_options_name_fault (run->options, error)
             || sw_options_blame (run->options, "counts", error));
}

static void
append_result (GString *out, const SwCalibrationResult *result)
{
  sw_output_number (out, SW_OUTPUT_DROP_VOLUME, result->drop_ml.value);
  sw_output_number (out, SW_OUTPUT_DROP_VOLUME_U, result->drop_ml.u);
  sw_output_number (out, SW_OUTPUT_DROP_VOLUME_FREEDOM, result->drop_ml.freedom);
  sw_output_number (out, SW_OUTPUT_DROP_VOLUME_SD, result->sd_ml);
  sw_output_number (out, SW_OUTPUT_GRUBBS, result->grubbs);
  sw_output_number (out, SW_OUTPUT_GRUBBS_CRITICAL, result->grubbs_critical);
  /* People count from one. */
  sw_output_number (out, SW_OUTPUT_OUTLIER,
                    result->outlier ? (double)result->outlier_index + 1.0 : NAN);
}

static void
append_mass (const SwCliRun *run, const SwCalibrationResult *result, double density)
{
  double mass = 20.0 * result->drop_ml.value * density;

  sw_output_number (run->out, SW_OUTPUT_MASS_OF_20_DROPS, mass);
  if (sw_options_has (run->options, "water"))
    sw_output_flag (run->out, SW_OUTPUT_PHARMACOPOEIAL, sw_calibration_is_pharmacopoeial (mass));
}

SwExit
sw_cli_calibration (SwCliRun *run, GError **error)
{
  gboolean weight = sw_options_has (run->options, "weighings");
  SwQuantity density = SW_UNKNOWN;
  SwCalibrationResult result;

  if (!check_way (run, weight, error)
      || !(weight ? by_weight (run, &result, &density, error) : by_count (run, &result, error)))
    return SW_EXIT_BAD_ARGUMENTS;
  append_result (run->out, &result);
  if (weight)
    append_mass (run, &result, density.value);
  sw_options_append_assumed (run->options, run->out);
  return SW_EXIT_DONE;
}
