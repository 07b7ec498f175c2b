/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of the kinds of things that the set-up knows, in the order of records/plant.h. */
#include <glib/gi18n.h>

#include "wording/sentence-setup.h"

/* Translators: what a person may do with the records. */
static const char *const roles[] = {
  NC_ ("role", "Technician"),
  NC_ ("role", "Reviewer"),
  NC_ ("role", "Administrator"),
  NC_ ("role", "Auditor (reads only)"),
};

/* Translators: families of cleaning solvents. */
static const char *const families[] = {
  NC_ ("solvent family", "Hydrocarbon"),
  NC_ ("solvent family", "Modified alcohol"),
  NC_ ("solvent family", "Chlorinated"),
  NC_ ("solvent family", "Other"),
};

/* Translators: what a product is for. */
static const char *const uses[] = {
  NC_ ("use of a product", "Neutraliser"),
  NC_ ("use of a product", "Caustic for the flask"),
  NC_ ("use of a product", "Titrant of the bench"),
  NC_ ("use of a product", "Indicator strips"),
  NC_ ("use of a product", "Control sample"),
};

/* Translators: how a neutraliser works. */
static const char *const kinds[] = {
  NC_ ("kind of neutraliser", "Unknown"),
  NC_ ("kind of neutraliser", "Amine"),
  NC_ ("kind of neutraliser", "Epoxide"),
  NC_ ("kind of neutraliser", "Amine and epoxide"),
};

/* Translators: of a machine. */
static const char *const services[] = {
  NC_ ("service state", "Running"),
  NC_ ("service state", "Stopped"),
  NC_ ("service state", "Out of service for good"),
};

/* Translators: vessels of a vacuum degreaser. */
static const char *const compartments[] = {
  NC_ ("compartment", "Wash tank"),       NC_ ("compartment", "Chamber"),
  NC_ ("compartment", "Still"),           NC_ ("compartment", "Condensate tank"),
  NC_ ("compartment", "Water separator"), NC_ ("compartment", "Pipes"),
  NC_ ("compartment", "Other"),
};

/* Translators: how the volume of one drop comes on file. */
static const char *const ways[] = {
  NC_ ("drop volume", "I know the drop volume"),
  NC_ ("drop volume", "I have weighed drops"),
};

static const char *
pick (const SwWording *wording, const char *what, const char *const *words, gsize n, guint value)
{
  return value < n ? sw_trc (wording, what, words[value]) : NULL;
}

const char *
sw_say_role (const SwWording *wording, guint role)
{
  return pick (wording, "role", roles, G_N_ELEMENTS (roles), role);
}

const char *
sw_say_family (const SwWording *wording, guint family)
{
  return pick (wording, "solvent family", families, G_N_ELEMENTS (families), family);
}

const char *
sw_say_product_use (const SwWording *wording, guint use)
{
  return pick (wording, "use of a product", uses, G_N_ELEMENTS (uses), use);
}

const char *
sw_say_neutraliser_kind (const SwWording *wording, guint kind)
{
  return pick (wording, "kind of neutraliser", kinds, G_N_ELEMENTS (kinds), kind);
}

const char *
sw_say_service_state (const SwWording *wording, guint service)
{
  return pick (wording, "service state", services, G_N_ELEMENTS (services), service);
}

const char *
sw_say_compartment_kind (const SwWording *wording, guint kind)
{
  return pick (wording, "compartment", compartments, G_N_ELEMENTS (compartments), kind);
}

const char *
sw_say_dropper_way (const SwWording *wording, guint way)
{
  return pick (wording, "drop volume", ways, G_N_ELEMENTS (ways), way);
}

/* ---- languages and papers ---- */

const char *const sw_setup_languages[SW_N_SETUP_LANGUAGES]
    = { "en", "de", "fr", "es", "it", "pl", "cs", "tr", "pt_BR", "zh_CN", "ja", "hu" };

/* Each in itself, so that its reader finds it whatever the screen speaks: never translated. */
static const char *const own_names[SW_N_SETUP_LANGUAGES] = {
  "English", "Deutsch", "Français",           "Español",  "Italiano", "Polski",
  "Čeština", "Türkçe",  "Português (Brasil)", "简体中文", "日本語",   "Magyar",
};

const char *
sw_say_language (const SwWording *wording, guint language)
{
  return language < SW_N_SETUP_LANGUAGES ? own_names[language] : NULL;
}

const char *const sw_setup_papers[SW_N_SETUP_PAPERS] = { "a4", "letter" };

const char *
sw_say_paper (const SwWording *wording, guint paper)
{
  if (paper == 0)
    /* Translators: a size of paper. */
    return sw_trc (wording, "paper", "A4");
  /* Translators: a size of paper. */
  return paper == 1 ? sw_trc (wording, "paper", "Letter") : NULL;
}
