/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Facts in words: why a move is refused, why no dose is shown, what a machine's state is. */
#include "wording/sentence-private.h"

#include <glib/gi18n.h>
#include <math.h>

/* How a sentence is filled in. */
typedef enum
{
  FILL_NOTHING,
  FILL_TEXT,    /* %s is the fact's text; without one the plain sentence is used */
  FILL_MINUTES, /* %s is number[0] as a duration */
  FILL_WAIT,    /* the same to the second */
  FILL_STEPS,   /* %s is number[0] as a count of drops */
  FILL_VOLUME,  /* %s is number[0] mL */
  FILL_NEXT     /* the sentence is followed by the next action, number[0] */
} Fill;

typedef struct
{
  Fill fill;
  const char *plain;
  const char *filled;
} FactSentence;

/* clang-format off */
static const FactSentence sentences[SW_N_FACTS] = {
  [SW_FACT_NONE] = { FILL_NOTHING, "", NULL },
  [SW_FACT_NOT_FROM_HERE] = { FILL_NOTHING, N_ ("This is not possible at this step."), NULL },
  [SW_FACT_NEEDS_READING] = { FILL_NOTHING, N_ ("Read the strip first."), NULL },
  [SW_FACT_OUTCOME_OPEN] = { FILL_NEXT, N_ ("The end point is not settled yet."), NULL },
  [SW_FACT_NO_MORE_STEPS] = { FILL_NOTHING,
    N_ ("The last step of the method is reached. Add nothing more."), NULL },
  [SW_FACT_ADD_ONLY_WHILE_ACID] = { FILL_NOTHING,
    N_ ("Titrant is added only while the strip has not turned."), NULL },
  [SW_FACT_PAUSED_TOO_LONG] = { FILL_MINUTES,
    N_ ("The test was paused too long. Take a fresh portion of the retained sample."),
    /* Translators: %s is a duration such as "40 min". */
    N_ ("The test was paused for %s, which is too long. Take a fresh portion of the retained "
        "sample.") },
  [SW_FACT_LOT_MISSING] = { FILL_TEXT, N_ ("Choose a lot first."),
    /* Translators: %s is what the lot is of, such as a product's name. */
    N_ ("Choose a lot first: %s.") },
  [SW_FACT_LOT_EXPIRED] = { FILL_TEXT, N_ ("This lot has expired. Say why it is used."),
    /* Translators: %s is the code of a lot. */
    N_ ("Lot %s has expired. Choose another one, or say why it is used.") },
  [SW_FACT_FAMILY_REFUSED] = { FILL_TEXT,
    N_ ("This method must not be used for this solvent. The mixture may be dangerous."),
    /* Translators: %s is the name of a solvent. */
    N_ ("This method must not be used for this solvent (%s). The mixture may be dangerous.") },
  [SW_FACT_SECOND_READER_MISSING] = { FILL_NOTHING,
    N_ ("Your profile asks for a second reader. Choose who reads the strip with you."), NULL },
  [SW_FACT_CALIBRATION_MISSING] = { FILL_NOTHING,
    N_ ("No drop volume is on file for this liquid. Calibrate the dropper first."), NULL },
  [SW_FACT_SIGNATURE_MISSING] = { FILL_NOTHING, N_ ("The test is not signed yet."), NULL },
  [SW_FACT_ALREADY_SIGNED] = { FILL_NOTHING,
    N_ ("The test is signed. It can only be amended, with a reason."), NULL },
  [SW_FACT_NOTHING_TO_TAKE_BACK] = { FILL_NOTHING, N_ ("There is no reading to take back."), NULL },
  [SW_FACT_MACHINE_HAS_OPEN_TEST] = { FILL_TEXT,
    N_ ("This machine has an open test. Finish it first."),
    /* Translators: %s is the code of a sample. */
    N_ ("This machine has an open test, sample %s. Finish it first.") },
  [SW_FACT_NEEDS_REVIEWER] = { FILL_NOTHING,
    N_ ("A reviewer or an administrator who did not do the re-test closes the incident."), NULL },
  [SW_FACT_MACHINE_LOCKED] = { FILL_NOTHING,
    N_ ("An earlier dose of this machine is not recorded yet. Say first whether it was added."),
    NULL },
  [SW_FACT_RETEST_FIRST] = { FILL_NOTHING,
    N_ ("A dose was added. Its re-test comes before another dose."), NULL },
  [SW_FACT_RETEST_TOO_EARLY] = { FILL_MINUTES,
    N_ ("The dose has not circulated yet. Draw the sample of the re-test later."),
    /* Translators: %s is a duration such as "40 min". */
    N_ ("The dose has not circulated yet. Draw the sample of the re-test in %s.") },
  [SW_FACT_READ_ONLY] = { FILL_TEXT, N_ ("The file is open read-only. Nothing can be written."),
    /* Translators: %s says who has the file open. */
    N_ ("The file is open read-only here, because somebody else has it: %s.") },
  [SW_FACT_NO_PLAN] = { FILL_NOTHING,
    N_ ("No method is planned for this machine, so it never comes due for a test."), NULL },
  [SW_FACT_NO_LOT] = { FILL_TEXT, N_ ("A lot is missing that is neither expired nor used up."),
    /* Translators: %s is a product. */
    N_ ("No lot of %s is on file that is neither expired nor used up.") },
  [SW_FACT_MACHINE_RETIRED] = { FILL_NOTHING, N_ ("This machine is out of service."), NULL },

  [SW_FACT_NOBODY] = { FILL_NOTHING, N_ ("Say first who works now."), NULL },
  [SW_FACT_PERSON_INACTIVE] = { FILL_TEXT, N_ ("This person does not work here now."),
    /* Translators: %s is the name of a person. */
    N_ ("%s does not work here now.") },
  [SW_FACT_AUDITOR_READS] = { FILL_NOTHING,
    N_ ("An auditor reads and writes nothing. Pick another person to go on."), NULL },
  [SW_FACT_NEEDS_ADMINISTRATOR] = { FILL_NOTHING, N_ ("Only an administrator may do this."), NULL },
  [SW_FACT_NEEDS_ROLE_REVIEW] = { FILL_NOTHING,
    N_ ("Only a reviewer or an administrator may do this."), NULL },
  [SW_FACT_NEEDS_SECRET] = { FILL_NOTHING, N_ ("Sign in with your secret first."), NULL },
  [SW_FACT_NO_SECRET_YET] = { FILL_TEXT,
    N_ ("No secret was set for this person yet. An administrator does so in Set-up, People."),
    /* Translators: %s is the name of a person. */
    N_ ("No secret was set for %s yet. An administrator does so in Set-up, People.") },
  [SW_FACT_UNGUARDED] = { FILL_NOTHING,
    N_ ("No administrator has a secret yet. One of them sets it first; nothing can be written before "
        "that."), NULL },
  [SW_FACT_LAST_ADMINISTRATOR] = { FILL_NOTHING,
    N_ ("This is the only active administrator with a secret. Give another one a secret first."),
    NULL },
  [SW_FACT_WRONG_SECRET] = { FILL_NOTHING, N_ ("The secret is not right."), NULL },
  [SW_FACT_WAIT] = { FILL_WAIT, N_ ("Too many wrong attempts. Wait before the next."),
    /* Translators: %s is a duration such as "40 s". */
    N_ ("Too many wrong attempts. The next is possible in %s.") },
  [SW_FACT_NOT_THE_SIGNER] = { FILL_NOTHING,
    N_ ("Only the person who did the test signs it as done."), NULL },
  [SW_FACT_OWN_WORK] = { FILL_NOTHING,
    N_ ("This is your own work. A second person reviews it."), NULL },
  [SW_FACT_REVIEWED_ALREADY] = { FILL_NOTHING,
    N_ ("This is reviewed already. Only a reviewer or an administrator may change it now."), NULL },
  [SW_FACT_VOIDED] = { FILL_NOTHING, N_ ("This record was taken out of use."), NULL },
  [SW_FACT_STILL_USED] = { FILL_TEXT,
    N_ ("This record cannot be taken out of use, because other records need it."),
    /* Translators: %s is the name or code of another record. */
    N_ ("This record cannot be taken out of use, because %s needs it.") },
  [SW_FACT_NOT_AMENDABLE] = { FILL_NOTHING,
    N_ ("This part of the record cannot be amended. If it is wrong, void the record."), NULL },
  [SW_FACT_NEVER_VOIDED] = { FILL_NOTHING,
    N_ ("A record of this kind cannot be taken out of use by itself."), NULL },
  [SW_FACT_TEST_STILL_OPEN] = { FILL_NOTHING,
    N_ ("This test is not signed yet. Change it in the test itself."), NULL },
  [SW_FACT_NO_DOSE_OUTCOME] = { FILL_NOTHING,
    N_ ("No dose: only a test that found acid leads to one."), NULL },
  [SW_FACT_NO_DOSE_OVER_RANGE] = { FILL_NOTHING,
    N_ ("No dose: the acid is over the range of the method. Stop and call the responsible person."),
    NULL },
  [SW_FACT_NO_DOSE_POINT] = { FILL_TEXT,
    N_ ("No dose: doses are not worked out from this sampling point."),
    /* Translators: %s is the name of a sampling point. */
    N_ ("No dose: doses are not worked out from this sampling point (%s).") },
  [SW_FACT_NO_DOSE_STEP_WIDE] = { FILL_NOTHING,
    N_ ("No dose: the last step was too wide. Titrate a second portion in single steps from the "
        "last acid reading."), NULL },
  [SW_FACT_NO_DOSE_PLACE] = { FILL_NOTHING,
    N_ ("No dose: no dosing place is on file for this machine."), NULL },
  [SW_FACT_NO_DOSE_LIMITS] = { FILL_NOTHING,
    N_ ("No dose: neither the limits of the product are on file, nor that its sheet gives none."),
    NULL },
  [SW_FACT_NO_DOSE_CIRCULATION] = { FILL_NOTHING,
    N_ ("No dose: no circulation time is on file for this machine."), NULL },
  [SW_FACT_NO_DOSE_VOLUME] = { FILL_NOTHING,
    N_ ("No dose: no solvent volume is on file for this machine."), NULL },
  [SW_FACT_NO_DOSE_JUG] = { FILL_NOTHING,
    N_ ("No dose: no measuring jug is on file for this machine."), NULL },
  [SW_FACT_NO_DOSE_PRODUCT] = { FILL_NOTHING,
    N_ ("No dose: no neutraliser is on file for this machine."), NULL },
  [SW_FACT_NO_DOSE_STRENGTH] = { FILL_NOTHING,
    N_ ("No dose: the strengths of titrant and neutraliser are not on file, and the titrant is not "
        "the neutraliser itself."), NULL },
  [SW_FACT_NO_DOSE_CAUSTIC_PRODUCT] = { FILL_NOTHING,
    N_ ("No dose: sodium hydroxide solution must never be dosed into a machine."), NULL },
  [SW_FACT_NO_DOSE_TOTAL] = { FILL_VOLUME,
    N_ ("No dose: the product's total limit for this solvent fill is reached."),
    /* Translators: %s is an amount such as "120 mL". */
    N_ ("No dose: the product's total limit for this solvent fill leaves only %s.") },
  [SW_FACT_NO_DOSE_COARSE] = { FILL_NOTHING,
    N_ ("No dose: the marks of the jug are too coarse for this amount. Use a smaller measure."),
    NULL },
  [SW_FACT_NO_DOSE_LAPSED] = { FILL_NOTHING,
    N_ ("This dose figure is older than 8 hours and no longer holds. Test again."), NULL },
  [SW_FACT_NEEDS_RELEASE_SECOND] = { FILL_NOTHING,
    N_ ("This is the second dose of one acid incident. A reviewer must release it."), NULL },
  [SW_FACT_NEEDS_RELEASE_DROPS] = { FILL_NOTHING,
    N_ ("Five drops or more were counted. A reviewer must release the dose."), NULL },
  [SW_FACT_NEEDS_RELEASE_LIMIT] = { FILL_NOTHING,
    N_ ("The dose is half of the product's limit or more. A reviewer must release it."), NULL },

  [SW_FACT_STATE_NEVER_TESTED] = { FILL_NOTHING, N_ ("Not tested yet."), NULL },
  [SW_FACT_STATE_PASSED] = { FILL_NOTHING, N_ ("The last test passed."), NULL },
  [SW_FACT_STATE_ACID] = { FILL_NOTHING, N_ ("Acid was found, and no dose is on its way."), NULL },
  [SW_FACT_STATE_DOSE_DUE] = { FILL_NOTHING,
    N_ ("A dose is worked out, and not recorded as added yet."), NULL },
  [SW_FACT_STATE_DOSE_UNKNOWN] = { FILL_NOTHING,
    N_ ("Nobody knows whether the dose was added. A re-test is due."), NULL },
  [SW_FACT_STATE_RETEST_DUE] = { FILL_NOTHING,
    N_ ("A dose was added, and its re-test has not been done yet."), NULL },
  [SW_FACT_STATE_OVER_RANGE] = { FILL_NOTHING,
    N_ ("The acid was over the range of the method. Do not dose; call the responsible person."),
    NULL },
  [SW_FACT_STATE_TEST_OPEN] = { FILL_NOTHING, N_ ("A test is open."), NULL },
  [SW_FACT_STATE_RESERVE] = { FILL_STEPS, N_ ("The solvent has an alkaline reserve."),
    /* Translators: %s is a count such as "4 drops". */
    N_ ("The solvent has an alkaline reserve of %s.") },
  [SW_FACT_STATE_RETIRED] = { FILL_NOTHING, N_ ("Out of service."), NULL },
};
/* clang-format on */

/* A wait runs down before the reader's eyes: whole seconds, the last one until it is over. */
static char *
format_wait (const SwWording *wording, double minutes)
{
  int seconds = (int)ceil (minutes * 60.0 - 1e-6);

  if (seconds < 60)
    /* Translators: a duration in seconds. */
    return g_strdup_printf (sw_tr (wording, "%d s"), seconds);
  /* Translators: a duration: 1 minutes, 2 seconds. */
  return g_strdup_printf (sw_tr (wording, "%1$d min %2$d s"), seconds / 60, seconds % 60);
}

/* What goes into the sentence; NULL when there is nothing to put in. */
static char *
make_filling (const SwWording *wording, Fill fill, const SwFact *fact)
{
  double number = fact->number[0];

  switch (fill)
    {
    case FILL_TEXT:
      return *fact->text != '\0' ? g_strdup (fact->text) : NULL;
    case FILL_MINUTES:
      return number > 0.0 ? sw_duration_format (wording, (gint64)(number * 60000.0)) : NULL;
    case FILL_WAIT:
      return number > 0.0 ? format_wait (wording, number) : NULL;
    case FILL_STEPS:
      return sw_step_count_format (wording, number, FALSE);
    case FILL_VOLUME:
      return number > 0.0 ? sw_volume_format (wording, number) : NULL;
    case FILL_NOTHING:
    case FILL_NEXT:
    default:
      return NULL;
    }
}

char *
sw_say_fact (const SwWording *wording, const SwFact *fact)
{
  const FactSentence *sentence;
  g_autofree char *filling = NULL;
  const char *plain;

  g_return_val_if_fail (wording != NULL && fact != NULL, g_strdup (""));
  g_return_val_if_fail ((int)fact->code >= 0 && fact->code < SW_N_FACTS, g_strdup (""));
  sentence = &sentences[fact->code];
  plain = sw_tr (wording, sentence->plain);
  if (sentence->fill == FILL_NEXT && fact->number[0] >= 0.0 && fact->number[0] < SW_N_NEXTS)
    return sw_say_both (wording, plain, sw_say_next_step (wording, (SwNext)fact->number[0], FALSE));
  filling = make_filling (wording, sentence->fill, fact);
  if (filling == NULL)
    return g_strdup (plain);
  return sw_say_filled (sw_tr (wording, sentence->filled), filling);
}
