/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What set-up must say before a dose can be shown (1-job, cautions). */
#include "workflow/dosing-private.h"

#include "workflow/check-private.h"

gboolean
sw_dosing_plant_load (SwStore *store, gint64 machine, SwDosingPlant *plant, GError **error)
{
  *plant = (SwDosingPlant){ .system_l = SW_UNKNOWN };
  plant->machine = sw_machine_load (store, machine, error);
  if (plant->machine == NULL)
    return FALSE;
  if (plant->machine->neutraliser != 0)
    {
      plant->product = sw_product_load (store, plant->machine->neutraliser, error);
      if (plant->product == NULL)
        return FALSE;
    }
  return sw_machine_volume (store, machine, &plant->system_l, NULL, error);
}

void
sw_dosing_plant_clear (SwDosingPlant *plant)
{
  g_clear_pointer (&plant->machine, sw_machine_free);
  g_clear_pointer (&plant->product, sw_product_free);
}

static gboolean
is_blank (const char *text)
{
  return text == NULL || *text == '\0';
}

/* Either both limits, or somebody's word that the sheet gives none. */
static gboolean
has_limits (const SwProduct *product)
{
  if (!is_blank (product->no_limits_by))
    return TRUE;
  return !isnan (product->limit_each_ml_l) && !isnan (product->limit_total_ml_l);
}

static void
add_fact (GArray *facts, SwFactCode code, const char *text)
{
  SwFact fact = sw_fact_with_text (code, text);

  g_array_append_val (facts, fact);
}

/* A caustic is never dosed, whatever the machine's row says. */
static void
check_product (const SwDosingPlant *plant, GArray *facts)
{
  const SwProduct *product = plant->product;

  if (product == NULL || product->record.voided)
    add_fact (facts, SW_FACT_NO_DOSE_PRODUCT, NULL);
  else if (product->use == SW_PRODUCT_CAUSTIC)
    add_fact (facts, SW_FACT_NO_DOSE_CAUSTIC_PRODUCT, product->name);
  else if (product->use != SW_PRODUCT_NEUTRALISER)
    add_fact (facts, SW_FACT_NO_DOSE_PRODUCT, product->name);
  else if (!has_limits (product))
    add_fact (facts, SW_FACT_NO_DOSE_LIMITS, product->name);
}

GArray *
sw_dosing_plant_missing (const SwDosingPlant *plant)
{
  GArray *facts = g_array_new (FALSE, FALSE, sizeof (SwFact));
  const SwMachine *machine = plant->machine;

  check_product (plant, facts);
  if (is_blank (machine->dosing_place))
    add_fact (facts, SW_FACT_NO_DOSE_PLACE, NULL);
  if (isnan (machine->circulation_min))
    add_fact (facts, SW_FACT_NO_DOSE_CIRCULATION, NULL);
  if (isnan (plant->system_l.value) || plant->system_l.value <= 0.0)
    add_fact (facts, SW_FACT_NO_DOSE_VOLUME, NULL);
  if (isnan (machine->graduation.value) || machine->graduation.value <= 0.0)
    add_fact (facts, SW_FACT_NO_DOSE_JUG, NULL);
  return facts;
}

/* An epoxide has no pH and turns no strip: it is no titrant (1-job). */
gboolean
sw_dosing_fill_strengths (const SwDosingPlant *plant, gint64 titrant, SwDoseInput *input)
{
  const SwProduct *product = plant->product;

  if (product == NULL)
    return FALSE;
  if (titrant == product->record.id)
    {
      input->product = input->titrant;
      input->strength_ratio = SW_EXACT (1.0);
      return product->kind != SW_NEUTRALISER_EPOXIDE;
    }
  input->product = (SwQuantity){ .value = product->strength_mmol_ml,
                                 .u = sw_or_zero (product->strength_u_mmol_ml),
                                 .freedom = INFINITY };
  input->strength_ratio = SW_UNKNOWN;
  return sw_quantity_is_known (input->titrant) && sw_quantity_is_known (input->product);
}

double
sw_dosing_wait_min (const SwMachine *machine, const SwProduct *product)
{
  double reaction_min = product != NULL ? sw_or_zero (product->reaction_min) : 0.0;

  return isnan (machine->circulation_min) ? NAN : MAX (machine->circulation_min, reaction_min);
}
