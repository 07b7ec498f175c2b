/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cautions of screens and papers, by place. SW_CAUTION_DEFER stands below each of them.
 *
 * Sources: hazards of sodium hydroxide solution H314, H290 (GHS); the others common practice, no
 * source. They name a danger and defer; they are no safety data sheet. */
#include "wording/sentence.h"

#include <glib/gi18n.h>

static const char *const cautions[SW_N_CAUTIONS] = {
  [SW_CAUTION_DRAW]
  = N_ ("Never open a port of a machine under vacuum or heat except as its maker's manual allows. "
        "Treat hot solvent as flammable: use earthed, conductive containers. Let the sample cool, "
        "closed, to room temperature. Never smell a sample. No one glove suits solvent, amine and "
        "caustic: choose by the safety data sheets, and take gloves off before the keyboard."),
  [SW_CAUTION_PREPARE] = N_ (
      "Sodium hydroxide solution burns skin and eyes: wear eye protection and suitable gloves. "
      "Add it slowly to water, never the reverse. It attacks aluminium and zinc. With some "
      "chlorinated solvents it is dangerous: use it only for the solvents that the method names."),
  [SW_CAUTION_READ]
  = N_ ("After the first shake vent the bottle, away from the face. Never smell a sample. Keep the "
        "waste as local rules ask."),
  [SW_CAUTION_DOSE]
  = N_ ("The neutraliser may burn, sensitise or ignite. Too much amine attacks copper alloys, "
        "aluminium and some seals. A secondary amine with nitrite, as in rust preventives, can "
        "form nitrosamines. Add it only at the place and in the amount that the maker's manual and "
        "the product's sheet allow. Never distil a peroxide former to dryness. Never dose again "
        "before the re-test."),
  [SW_CAUTION_OVER_RANGE]
  = N_ ("Stop: this is not a dosing job. Keep people away from the vapour and call the responsible "
        "person, who may order a titration of a smaller, diluted portion or a change of solvent."),
  [SW_CAUTION_DEFER]
  = N_ ("The safety data sheets, the machine maker's manual, local codes and licensed practice "
        "come before this program."),
};

const char *
sw_say_caution (const SwWording *wording, SwCaution caution)
{
  g_return_val_if_fail (wording != NULL, "");
  g_return_val_if_fail ((int)caution >= 0 && caution < SW_N_CAUTIONS, "");
  return sw_tr (wording, cautions[caution]);
}
