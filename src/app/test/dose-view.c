/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loads what a sentence needs besides the proposal: product, last dose. */
#include "app/test/dose-view.h"

#include "wording/sentence-test.h"

char *
sw_dose_words_where (SwStepPage *page, const SwDoseProposal *proposal)
{
  const SwMachine *machine = sw_guided_test_get_machine (sw_step_page_get_test (page));
  g_autoptr (SwProduct) product
      = sw_product_load (sw_step_page_get_store (page), proposal->product, NULL);

  if (product == NULL || machine->dosing_place == NULL)
    return NULL;
  return sw_say_dose_where (sw_step_page_get_wording (page), product->name, machine->dosing_place);
}

char *
sw_dose_words_split (SwStepPage *page, const SwDoseProposal *proposal)
{
  if (proposal->parts == NULL)
    return NULL;
  return sw_say_dose_split (sw_step_page_get_wording (page),
                            (const double *)(void *)proposal->parts->data, proposal->parts->len,
                            proposal->wait_min);
}

char *
sw_dose_words_arithmetic (SwStepPage *page, const SwDoseProposal *proposal)
{
  SwGuidedTest *test = sw_step_page_get_test (page);

  return sw_say_dose_arithmetic (sw_step_page_get_wording (page), &proposal->dose,
                                 proposal->input.pass_at, proposal->input.extra,
                                 sw_guided_test_get_method (test)->burette);
}

char *
sw_dose_words_supplier (SwStepPage *page, const SwDoseProposal *proposal)
{
  return sw_say_supplier (sw_step_page_get_wording (page), proposal->supplier_ml,
                          proposal->supplier_ratio, proposal->supplier_flagged,
                          proposal->supplier_governs);
}

char *
sw_dose_words_last (SwStepPage *page, const SwDoseProposal *proposal)
{
  g_autoptr (SwDoseRow) last = NULL;

  if (proposal->last_dose == 0)
    return NULL;
  last = sw_dose_row_load (sw_step_page_get_store (page), proposal->last_dose, NULL);
  if (last == NULL || isnan (last->added.value))
    return NULL;
  return sw_say_last_dose (sw_step_page_get_wording (page), last->added.value, last->added_ms,
                           sw_context_now (sw_step_page_get_context (page)), proposal->last_retest);
}

char *
sw_dose_words_threshold (SwStepPage *page)
{
  const SwTitration *titration = sw_guided_test_get_titration (sw_step_page_get_test (page));

  return sw_say_threshold (sw_step_page_get_wording (page), titration->caustic_mmol,
                           titration->caustic_counts, titration->portion_volume.value);
}
