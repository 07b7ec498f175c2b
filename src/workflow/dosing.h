/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rules of dosing (2-calculations 2.3, 1-job cautions): whether a dose may be shown, how much, who
 * must release it. Reads the file, writes nothing. */
#pragma once

#include "calc/dose.h"
#include "calc/fact.h"
#include "records/test.h"

G_BEGIN_DECLS

#define SW_DOSE_LAPSES_H 8.0
#define SW_RELEASE_DROPS 5.0

typedef struct
{
  SwFact refusal; /* SW_FACT_NONE: a dose is shown; else why not, and nothing below counts */
  SwFact release; /* SW_FACT_NONE: no release needed; else why a reviewer must release it */
  SwDoseInput input;
  SwDoseRules rules;
  SwDose dose;
  SwInterval likely_ml; /* 95 % about the best estimate, without the extra */
  GArray *parts;        /* Owned: double, mL; one element when it goes in at once */
  double
      wait_min; /* between parts and before the re-test: circulation or reaction time, the longer */
  double supplier_ml; /* NAN = no supplier's factor */
  double supplier_ratio;
  gboolean supplier_flagged;
  gboolean supplier_governs;
  gint64 product;
  gint64 last_dose;          /* the machine's last added dose; 0 = none */
  SwOutcomeKind last_retest; /* what its re-test proved; SW_OUTCOME_OPEN = none yet */
} SwDoseProposal;

void sw_dose_proposal_clear (SwDoseProposal *proposal);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwDoseProposal, sw_dose_proposal_clear)

/* Works out a dose for a closed titration with @extra steps on top. */
gboolean sw_dosing_propose (SwStore *store,
                            const SwTitration *titration,
                            const SwSample *sample,
                            double extra,
                            gint64 now_ms,
                            SwDoseProposal *proposal,
                            GError **error);

G_END_DECLS
