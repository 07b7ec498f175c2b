/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Methods in words: the templates, and a version's facts. */
#include <glib/gi18n.h>

#include "wording/sentence-private.h"
#include "wording/sentence-setup.h"

#define DIGITS 4

/* By the names of data/methods. */
static const struct
{
  const char *name;
  const char *title;
  const char *use;
} templates[] = {
  { "drop-test-neutraliser", N_ ("Drop test with the neutraliser"),
    N_ ("The neutraliser itself, drop by drop, into solvent and water, until the strip is no "
        "longer acid. The simplest test: begin with this one. Not for chlorinated solvents.") },
  { "drop-test-caustic", N_ ("Drop test with a caustic addition"),
    N_ ("As the drop test, but a fixed amount of sodium hydroxide solution goes into the flask "
        "first. For plants whose supplier's chart is made for it. The caustic burns skin and eyes. "
        "Never for chlorinated solvents.") },
  { "reserve-drop-test", N_ ("Reserve test with acid"),
    N_ ("An acid, drop by drop, until the strip is no longer alkaline: how much reserve the "
        "solvent has left. It comes beside a drop test, not in its place, and sees no epoxide.") },
};

static const char *const steps[][2] = {
  { "draw", NC_ ("step of a method", "Draw the sample") },
  { "prepare", NC_ ("step of a method", "Prepare the flask") },
  { "read", NC_ ("step of a method", "Add and read") },
  { "caution", NC_ ("step of a method", "Cautions") },
};

static gsize
find_template (const char *name)
{
  gsize i = 0;

  while (i < G_N_ELEMENTS (templates) && g_strcmp0 (templates[i].name, name) != 0)
    i++;
  return i;
}

const char *
sw_say_template (const SwWording *wording, const char *name)
{
  gsize i = find_template (name);

  return i < G_N_ELEMENTS (templates) ? sw_tr (wording, templates[i].title) : name;
}

const char *
sw_say_template_use (const SwWording *wording, const char *name)
{
  gsize i = find_template (name);

  return i < G_N_ELEMENTS (templates) ? sw_tr (wording, templates[i].use) : "";
}

const char *
sw_say_caustic_counts (const SwWording *wording, gboolean counts)
{
  if (counts)
    return sw_tr (wording, "It counts: the acid that the addition takes up is added to the drops, "
                           "so the strength of the titrant must be known.");
  return sw_tr (wording, "It does not count: acid up to the addition passes unseen and stays in "
                         "the machine; results speak of what is above that threshold.");
}

char *
sw_say_method_fact (const SwWording *wording, SwQuantityName quantity, double value, SwUnit unit)
{
  g_autofree char *name = sw_say_capital (wording, sw_say_quantity (wording, quantity));
  g_autofree char *amount = sw_amount_format (wording, value, unit, DIGITS);

  /* Translators: 1 a quantity, 2 its value with the unit. */
  return g_strdup_printf (sw_trc (wording, "fact", "%1$s: %2$s"), name, amount);
}

char *
sw_say_strip_row (const SwWording *wording, SwField meaning)
{
  /* Translators: a field where a colour of a strip is named; %s is "acid", "neutral" ... */
  return g_strdup_printf (sw_tr (wording, "The strip's colour for “%s”"),
                          sw_say_field (wording, meaning));
}

char *
sw_say_colour_field (const SwWording *wording, const char *label, SwField meaning)
{
  /* Translators: 1 the colour of a strip as the site calls it, 2 "acid", "neutral" ... */
  return g_strdup_printf (sw_tr (wording, "%1$s means %2$s"), label,
                          sw_say_field (wording, meaning));
}

const char *
sw_say_method_step (const SwWording *wording, const char *step)
{
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    if (g_strcmp0 (steps[i][0], step) == 0)
      return sw_trc (wording, "step of a method", steps[i][1]);
  return step;
}
