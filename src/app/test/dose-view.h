/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of the Dose page, from a proposal. */
#pragma once

#include "app/test/step-page.h"

G_BEGIN_DECLS

/* All (transfer full); NULL where there is nothing to say. */
char *sw_dose_words_where (SwStepPage *page, const SwDoseProposal *proposal);
char *sw_dose_words_split (SwStepPage *page, const SwDoseProposal *proposal);
char *sw_dose_words_arithmetic (SwStepPage *page, const SwDoseProposal *proposal);
char *sw_dose_words_supplier (SwStepPage *page, const SwDoseProposal *proposal);
char *sw_dose_words_last (SwStepPage *page, const SwDoseProposal *proposal);
char *sw_dose_words_threshold (SwStepPage *page);

G_END_DECLS
