/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sets the invented plant up, from data/demo/plant.ini, by the same acts as a real one. */
#include "cli/demo-private.h"
#include "workflow/setup.h"

char *
sw_demo_text (const SwDemo *demo, const char *group, const char *key)
{
  char *text = g_key_file_get_locale_string (demo->texts, group, key, NULL, NULL);

  g_return_val_if_fail (text != NULL, g_strdup (""));
  return text;
}

double
sw_demo_number (const SwDemo *demo, const char *group, const char *key)
{
  GError *error = NULL;
  const double number = g_key_file_get_double (demo->texts, group, key, &error);

  if (error == NULL)
    return number;
  g_critical ("plant.ini: %s", error->message);
  g_clear_error (&error);
  return NAN;
}

static SwActor
administrator (const SwDemo *demo)
{
  return sw_demo_actor (demo, demo->administrator);
}

/* ---- site and people ---- */

static gboolean
set_up_site (SwDemo *demo, GError **error)
{
  const SwActor actor = sw_demo_actor (demo, 0);
  g_autoptr (SwSite) site = sw_site_get (demo->store, error);

  if (site == NULL)
    return FALSE;
  site->name = sw_demo_text (demo, "site", "name");
  site->zone = sw_demo_text (demo, "site", "zone");
  site->paper = sw_demo_text (demo, "site", "paper");
  site->retention_years = (int)sw_demo_number (demo, "site", "retention_years");
  site->demo = TRUE;
  return sw_setup_site (demo->store, &actor, site, error);
}

static gboolean
set_up_person (SwDemo *demo, const char *who, SwRole role, gint64 *id, GError **error)
{
  const SwActor actor = administrator (demo);
  g_autofree char *group = g_strconcat ("person ", who, NULL);
  g_autoptr (SwPerson) person = sw_person_new ();

  person->name = sw_demo_text (demo, group, "name");
  person->initials = sw_demo_text (demo, group, "initials");
  person->role = role;
  person->active = TRUE;
  if (!sw_setup_person (demo->store, &actor, person, error))
    return FALSE;
  *id = person->record.id;
  return TRUE;
}

static gboolean
set_up_people (SwDemo *demo, GError **error)
{
  return set_up_person (demo, "administrator", SW_ROLE_ADMINISTRATOR, &demo->administrator, error)
         && set_up_person (demo, "reviewer", SW_ROLE_REVIEWER, &demo->reviewer, error)
         && set_up_person (demo, "technician", SW_ROLE_TECHNICIAN, &demo->technician, error)
         && set_up_person (demo, "colleague", SW_ROLE_TECHNICIAN, &demo->colleague, error);
}

/* ---- liquids and lots ---- */

static gboolean
set_up_solvent (SwDemo *demo, const char *which, SwFamily family, gint64 *id, GError **error)
{
  const SwActor actor = administrator (demo);
  g_autofree char *group = g_strconcat ("solvent ", which, NULL);
  g_autoptr (SwSolvent) solvent = sw_solvent_new ();

  solvent->name = sw_demo_text (demo, group, "name");
  solvent->family = family;
  solvent->density_g_ml = sw_demo_number (demo, group, "density_g_ml");
  solvent->sds_reference = sw_demo_text (demo, group, "sds_reference");
  if (!sw_setup_solvent (demo->store, &actor, solvent, error))
    return FALSE;
  *id = solvent->record.id;
  return TRUE;
}

static gboolean
set_up_neutraliser (SwDemo *demo, GError **error)
{
  const SwActor actor = administrator (demo);
  g_autoptr (SwProduct) product = sw_product_new ();

  product->name = sw_demo_text (demo, "product", "name");
  product->use = SW_PRODUCT_NEUTRALISER;
  product->kind = SW_NEUTRALISER_AMINE;
  product->density_g_ml = sw_demo_number (demo, "product", "density_g_ml");
  product->strength_mmol_ml = sw_demo_number (demo, "product", "strength_mmol_ml");
  product->strength_u_mmol_ml = sw_demo_number (demo, "product", "strength_u_mmol_ml");
  product->limit_each_ml_l = sw_demo_number (demo, "product", "limit_each_ml_l");
  product->limit_total_ml_l = sw_demo_number (demo, "product", "limit_total_ml_l");
  product->reaction_min = sw_demo_number (demo, "product", "reaction_min");
  product->sds_reference = sw_demo_text (demo, "product", "sds_reference");
  if (!sw_setup_product (demo->store, &actor, product, error))
    return FALSE;
  demo->product = product->record.id;
  return TRUE;
}

static gboolean
set_up_strips (SwDemo *demo, GError **error)
{
  const SwActor actor = administrator (demo);
  g_autoptr (SwProduct) strips = sw_product_new ();

  strips->name = sw_demo_text (demo, "strips", "name");
  strips->use = SW_PRODUCT_STRIPS;
  if (!sw_setup_product (demo->store, &actor, strips, error))
    return FALSE;
  demo->strips = strips->record.id;
  return TRUE;
}

/* The @index-th lot of a group; received and opened now. */
static gboolean
set_up_lot (SwDemo *demo,
            const char *group,
            guint index,
            gint64 product,
            gint64 expires_ms,
            gint64 *id,
            GError **error)
{
  const SwActor actor = administrator (demo);
  g_auto (GStrv) codes = g_key_file_get_string_list (demo->texts, group, "lots", NULL, NULL);
  const char *amount = product == demo->product ? "bottle" : "box";
  g_autoptr (SwLot) lot = sw_lot_new ();

  g_return_val_if_fail (codes != NULL && index < g_strv_length (codes), FALSE);
  lot->product = product;
  lot->code = g_strdup (codes[index]);
  lot->received_ms = lot->opened_ms = demo->now_ms;
  lot->expires_ms = expires_ms;
  lot->quantity.typed = sw_demo_text (demo, group, amount);
  lot->quantity.value = g_ascii_strtod (lot->quantity.typed, NULL);
  if (!sw_setup_lot (demo->store, &actor, lot, error))
    return FALSE;
  *id = lot->record.id;
  return TRUE;
}

static gint64
days_after_end (const SwDemo *demo, const char *key)
{
  return demo->end_ms + (gint64)(sw_demo_number (demo, "lots", key) * (double)SW_DEMO_DAY_MS);
}

static gboolean
set_up_first_lots (SwDemo *demo, GError **error)
{
  const gint64 change_ms
      = demo->end_ms - (gint64)(sw_demo_number (demo, "lots", "change") * (double)SW_DEMO_DAY_MS);
  const gint64 expires_ms = change_ms + 20 * SW_DEMO_DAY_MS;

  demo->lots_ms = change_ms;
  return set_up_lot (demo, "product", 0, demo->product, expires_ms, &demo->product_lot, error)
         && set_up_lot (demo, "strips", 0, demo->strips, expires_ms, &demo->strip_lot, error);
}

static gboolean
use_up_lot (SwDemo *demo, gint64 id, GError **error)
{
  g_autofree char *reason = sw_demo_text (demo, "words", "lot_used_up");
  SwActor actor = administrator (demo);
  g_autoptr (SwLot) lot = sw_lot_load (demo->store, id, error);

  if (lot == NULL)
    return FALSE;
  actor.reason = reason;
  lot->used_up = TRUE;
  return sw_setup_lot (demo->store, &actor, lot, error);
}

static gboolean
open_second_lots (SwDemo *demo, GError **error)
{
  return use_up_lot (demo, demo->product_lot, error) && use_up_lot (demo, demo->strip_lot, error)
         && set_up_lot (demo, "product", 1, demo->product,
                        days_after_end (demo, "neutraliser_expires_in"), &demo->product_lot, error)
         && set_up_lot (demo, "strips", 1, demo->strips, days_after_end (demo, "strips_expire_in"),
                        &demo->strip_lot, error);
}

/* ---- method and dropper ---- */

static gboolean
set_up_calibration (SwDemo *demo, const char *drop_key, gint64 due_ms, GError **error)
{
  const SwActor actor = administrator (demo);
  g_autoptr (SwCalibration) calibration = sw_calibration_new ();

  calibration->product = demo->product;
  calibration->dropper = sw_demo_text (demo, "dropper", "name");
  calibration->drop.value = sw_demo_number (demo, "dropper", drop_key);
  calibration->drop_u_ml = sw_demo_number (demo, "dropper", "drop_u_ml");
  calibration->freedom = sw_demo_number (demo, "dropper", "freedom");
  calibration->weighings = (int)sw_demo_number (demo, "dropper", "weighings");
  calibration->due_ms = due_ms;
  return sw_setup_calibration (demo->store, &actor, calibration, error);
}

static gboolean
set_up_method (SwDemo *demo, GError **error)
{
  const SwActor actor = administrator (demo);
  g_autofree char *name = sw_demo_text (demo, "method", "name");

  demo->calibration_ms
      = demo->end_ms - (gint64)(sw_demo_number (demo, "dropper", "again") * (double)SW_DEMO_DAY_MS);
  return sw_setup_adopt_method (demo->store, &actor, "drop-test-neutraliser", name, demo->product,
                                0, NAN, FALSE, &demo->method, error)
         && set_up_calibration (demo, "drop_ml", demo->calibration_ms, error);
}

gboolean
sw_demo_set_up_plant (SwDemo *demo, GError **error)
{
  return set_up_site (demo, error) && set_up_people (demo, error)
         && set_up_solvent (demo, "hydrocarbon", SW_FAMILY_HYDROCARBON, &demo->hydrocarbon, error)
         && set_up_solvent (demo, "alcohol", SW_FAMILY_MODIFIED_ALCOHOL, &demo->alcohol, error)
         && set_up_neutraliser (demo, error) && set_up_strips (demo, error)
         && set_up_first_lots (demo, error) && set_up_method (demo, error);
}

gboolean
sw_demo_keep_house (SwDemo *demo, GError **error)
{
  if (demo->calibration_ms != 0 && demo->now_ms >= demo->calibration_ms)
    {
      const double days = sw_demo_number (demo, "dropper", "next_in");

      demo->calibration_ms = 0;
      if (!set_up_calibration (demo, "again_drop_ml",
                               demo->end_ms + (gint64)(days * (double)SW_DEMO_DAY_MS), error))
        return FALSE;
    }
  if (demo->lots_ms == 0 || demo->now_ms < demo->lots_ms)
    return TRUE;
  demo->lots_ms = 0;
  return open_second_lots (demo, error);
}
