/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the set-up's lists and forms say. */
#include "wording/sentence-setup.h"

#include "wording/sentence-private.h"

#define VOLUME_DIGITS 4
#define DROP_DIGITS 3

const char *
sw_say_saved (const SwWording *wording)
{
  return sw_tr (wording, "Saved.");
}

const char *
sw_say_undone (const SwWording *wording)
{
  return sw_tr (wording, "Undone. What was added stays on file, out of use.");
}

const char *
sw_say_out_of_use (const SwWording *wording)
{
  return sw_tr (wording, "This is out of use. It stays on file, with all that was done with it.");
}

const char *
sw_say_setup_read_only (const SwWording *wording)
{
  return sw_tr (wording, "The file is open read-only. Nothing can be changed here.");
}

char *
sw_date_typed_format (const SwWording *wording, gint64 utc_ms)
{
  g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (utc_ms / 1000);
  g_autoptr (GDateTime) local = NULL;

  if (utc != NULL)
    local = g_date_time_to_timezone (utc, sw_wording_get_zone (wording));
  if (local == NULL)
    return g_strdup ("");
  /* Not by strftime: the digits are these in every language. */
  return g_strdup_printf ("%04d-%02d-%02d", g_date_time_get_year (local),
                          g_date_time_get_month (local), g_date_time_get_day_of_month (local));
}

char *
sw_say_draft (const SwWording *wording, const char *what)
{
  /* Translators: %s is a form's title, such as "New Machine" or "M-07 Long bed". */
  return g_strdup_printf (
      sw_tr (wording, "“%s” is not saved. What you typed is kept until you open another one."),
      what);
}

/* ---- lines of the lists ---- */

static gboolean
is_empty (const char *text)
{
  return text == NULL || *text == '\0';
}

/* Two things of one line; either may be missing. */
static char *
say_pair (const SwWording *wording, const char *first, const char *second)
{
  if (is_empty (first) || is_empty (second))
    return g_strdup (is_empty (first) ? (second != NULL ? second : "") : first);
  /* Translators: two facts about one thing in a list, such as "Hall 2, Hydrocarbon A". */
  return g_strdup_printf (sw_trc (wording, "list line", "%1$s, %2$s"), first, second);
}

char *
sw_say_machine_line (const SwWording *wording, const char *area, const char *solvent)
{
  return say_pair (wording, area, solvent);
}

char *
sw_say_ready (const SwWording *wording, const char *service, gulong missing)
{
  if (!is_empty (service))
    return g_strdup (service);
  if (missing == 0)
    return g_strdup (sw_tr (wording, "Ready to test and dose"));
  /* Translators: %lu is how many settings a machine still lacks. */
  return g_strdup_printf (
      sw_trn (wording, "%lu thing is missing", "%lu things are missing", missing), missing);
}

char *
sw_say_uses (const SwWording *wording, gulong n)
{
  if (n == 0)
    return g_strdup (sw_tr (wording, "Not used yet"));
  /* Translators: %lu is how many other records name this one. */
  return g_strdup_printf (sw_trn (wording, "Used in %lu place", "Used in %lu places", n), n);
}

char *
sw_say_lot_state (const SwWording *wording, gboolean used_up, gint64 expires_ms, gint64 now_ms)
{
  g_autofree char *date = NULL;

  if (used_up)
    return g_strdup (sw_tr (wording, "Used up"));
  if (expires_ms == 0)
    return g_strdup (sw_tr (wording, "No expiry date"));
  date = sw_date_format (wording, expires_ms);
  if (expires_ms < now_ms)
    /* Translators: %s is a date. */
    return g_strdup_printf (sw_tr (wording, "Expired on %s"), date);
  /* Translators: %s is a date. */
  return g_strdup_printf (sw_tr (wording, "Good until %s"), date);
}

char *
sw_say_dropper_state (const SwWording *wording, double drop_ml, int weighings)
{
  g_autofree char *drop = sw_amount_format (wording, drop_ml, SW_UNIT_ML, DROP_DIGITS);

  if (weighings <= 0)
    /* Translators: %s is the volume of one drop. */
    return g_strdup_printf (sw_tr (wording, "%s a drop, typed in"), drop);
  /* Translators: 1 the volume of one drop, 2 how often drops were weighed. */
  return g_strdup_printf (sw_trn (wording, "%1$s a drop, %2$d weighing",
                                  "%1$s a drop, %2$d weighings", (gulong)weighings),
                          drop, weighings);
}

char *
sw_say_method_line (const SwWording *wording, const char *titrant, const char *caustic)
{
  if (is_empty (caustic))
    /* Translators: %s is a product. */
    return g_strdup_printf (sw_tr (wording, "Titrant: %s"), titrant);
  /* Translators: 1 and 2 are products. */
  return g_strdup_printf (sw_tr (wording, "Titrant: %1$s. Caustic addition: %2$s"), titrant,
                          caustic);
}

char *
sw_say_version (const SwWording *wording, int version)
{
  /* Translators: of a method. */
  return g_strdup_printf (sw_tr (wording, "Version %d"), version);
}

char *
sw_say_person_name (const SwWording *wording, const char *name, const char *initials)
{
  if (is_empty (initials))
    return g_strdup (name != NULL ? name : "");
  /* Translators: 1 a person's name, 2 their initials. */
  return g_strdup_printf (sw_trc (wording, "person", "%1$s (%2$s)"), name, initials);
}

char *
sw_say_person_state (const SwWording *wording, gboolean active)
{
  /* Translators: of a person: whether they are offered when somebody signs in. */
  return g_strdup (active ? sw_trc (wording, "person", "Active")
                          : sw_trc (wording, "person", "Not active"));
}

/* ---- figures ---- */

char *
sw_say_system_volume (const SwWording *wording, SwQuantity system_l, gboolean complete)
{
  g_autofree char *volume = NULL;
  g_autofree char *u = NULL;
  g_autofree char *sum = NULL;

  if (!sw_quantity_is_known (system_l))
    return g_strdup (sw_tr (wording, "The system volume is not known yet: give each compartment "
                                     "its running volume."));
  volume = sw_amount_format (wording, system_l.value, SW_UNIT_LITRE, VOLUME_DIGITS);
  u = sw_amount_format (wording, system_l.u, SW_UNIT_LITRE, 2);
  /* Translators: 1 the sum of all compartments, 2 its standard uncertainty. */
  sum = g_strdup_printf (sw_tr (wording, "System volume: %1$s, standard uncertainty %2$s."), volume,
                         u);
  if (complete)
    return g_steal_pointer (&sum);
  return sw_say_both (wording, sum,
                      sw_tr (wording, "A compartment without an uncertainty counts as exact, so "
                                      "the bounds of a dose will look narrower than they are."));
}

char *
sw_say_calibration (const SwWording *wording, const SwCalibrationResult *result, gulong k)
{
  g_autofree char *drop
      = sw_amount_format (wording, result->drop_ml.value, SW_UNIT_ML, DROP_DIGITS);
  g_autofree char *u = sw_amount_format (wording, result->drop_ml.u, SW_UNIT_ML, 2);

  /* Translators: 1 the volume of a drop, 2 its standard uncertainty, 3 a count of weighings (two or
   * more). */
  return g_strdup_printf (
      sw_trn (wording, "One drop is %1$s, standard uncertainty %2$s, from %3$lu weighing.",
              "One drop is %1$s, standard uncertainty %2$s, from %3$lu weighings.", k),
      drop, u, k);
}

char *
sw_say_outlier (const SwWording *wording, const SwCalibrationResult *result)
{
  g_autofree char *g = NULL;
  g_autofree char *limit = NULL;

  if (!result->outlier)
    return NULL;
  g = sw_number_format (wording, result->grubbs, 3);
  limit = sw_number_format (wording, result->grubbs_critical, 3);
  /* Translators: 1 which weighing, counted from 1; 2 and 3 are plain numbers. */
  return g_strdup_printf (
      sw_tr (wording, "Weighing %1$u does not fit the others (Grubbs' test: %2$s, limit %3$s). "
                      "Look for a cause: a drop lost, a wrong count, a wrong figure. Without one, "
                      "leave it in."),
      (guint)result->outlier_index + 1, g, limit);
}
