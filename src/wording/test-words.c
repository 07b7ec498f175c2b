/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fixed texts and reasons of the guided test, as tables.
 *
 * N_() marks them for the catalogues; they are translated when asked for, since one process speaks
 * several languages.
 */
#include "wording/sentence-test.h"

#include <glib/gi18n.h>

static const char *const words[SW_N_TEST_WORDS] = {
  [SW_TEST_WORD_YES] = N_ ("yes"),
  [SW_TEST_WORD_NO] = N_ ("no"),
  [SW_TEST_WORD_NOT_KNOWN] = N_ ("don’t know"),
  [SW_TEST_WORD_NONE_GIVEN] = N_ ("not given"),
  [SW_TEST_WORD_ROUTINE] = N_ ("Routine test"),
  [SW_TEST_WORD_RETEST] = N_ ("Re-test after a dose"),
  [SW_TEST_WORD_CONTROL] = N_ ("Control test"),
  [SW_TEST_WORD_DUPLICATE] = N_ ("Duplicate"),
  [SW_TEST_WORD_ANSWER_FIRST] = N_ ("Please answer: the record is not whole without it."),
  [SW_TEST_WORD_PICK_POINT] = N_ ("Pick the place where the sample was drawn."),
  [SW_TEST_WORD_PICK_LOT] = N_ ("Pick the lot that you use."),
  [SW_TEST_WORD_PICK_REASON] = N_ ("A reason is needed: pick one or type your own."),
  [SW_TEST_WORD_PICK_READER] = N_ ("Pick who reads the strips with you."),
  [SW_TEST_WORD_PICK_PERSON] = N_ ("Say first who you are: pick your name at the top."),
  [SW_TEST_WORD_TYPE_TAG]
  = N_ ("Scan or type the tag on the machine, so that the sample comes from the right one."),
  [SW_TEST_WORD_DOSE_BASIS] = N_ ("A dose may be worked out from a sample drawn here."),
  [SW_TEST_WORD_NO_DOSE_BASIS] = N_ ("No dose is worked out from a sample drawn here."),
  [SW_TEST_WORD_NOT_CHOSEN] = N_ ("Not chosen yet"),
  [SW_TEST_WORD_TYPE_REASON] = N_ ("Pick a reason, or type one below"),
  [SW_TEST_WORD_BETWEEN] = N_ ("between two"),
  [SW_TEST_WORD_READ_NOW] = N_ ("read now"),
  [SW_TEST_WORD_SHAKE_DONE] = N_ ("Shaken. Let it part, then read."),
  [SW_TEST_WORD_FLASK_EMPTY] = N_ ("Nothing was added yet."),
  [SW_TEST_WORD_NO_EXTRA_YET] = N_ ("Without extra neutraliser, up to the end point."),
  [SW_TEST_WORD_EXTRA_WRONG] = N_ ("No amount: correct the extra neutraliser first."),
  [SW_TEST_WORD_ENTER_STRENGTH]
  = N_ ("Enter the titrant’s strength in Set-up, and this page shows the acid content in "
        "mmol/L and mg/L."),
  [SW_TEST_WORD_NO_DOMINANT] = N_ ("The end point is all that is uncertain here."),
  [SW_TEST_WORD_DONE_PASSED] = N_ ("Passed. The test is complete."),
  [SW_TEST_WORD_DONE_ACID] = N_ ("The test is complete. The machine is still acid."),
  [SW_TEST_WORD_DONE_ADDED] = N_ ("The dose is recorded. Re-test before anything else is added."),
  [SW_TEST_WORD_DONE_UNKNOWN]
  = N_ ("Nobody knows whether it was added. Only a re-test can tell: add nothing before it."),
  [SW_TEST_WORD_DONE_OVER_RANGE]
  = N_ ("The test is complete. The machine is over range: do not dose, call the responsible "
        "person."),
  [SW_TEST_WORD_DONE_RESERVE] = N_ ("The alkaline reserve is recorded. The test is complete."),
  [SW_TEST_WORD_STILL_ACID]
  = N_ ("Nothing was added, so the acid is still there. The To Do list keeps it until it is dosed "
        "or tested again."),
  [SW_TEST_WORD_ASK_TAKE_BACK] = N_ ("Take back the last reading?"),
  [SW_TEST_WORD_ABOUT_TAKE_BACK]
  = N_ ("Its colour no longer counts. It stays in the record, struck out, with your reason. What "
        "is in the flask stays counted, unless you say that it never went in."),
  [SW_TEST_WORD_GO_TAKE_BACK] = N_ ("_Take Back"),
  [SW_TEST_WORD_ASK_FRESH] = N_ ("Begin again with a fresh portion?"),
  [SW_TEST_WORD_ABOUT_FRESH]
  = N_ ("The portion in the flask is given up; its readings stay in the record. Measure a fresh "
        "portion of the same sample. Get rid of the old one as local rules ask."),
  [SW_TEST_WORD_GO_FRESH] = N_ ("_Take a Fresh Portion"),
  [SW_TEST_WORD_ASK_ABANDON] = N_ ("Abandon this test?"),
  [SW_TEST_WORD_ABOUT_ABANDON]
  = N_ ("The test ends without a result and stays in the record with your reason. The machine is "
        "still due. To go on later, cancel, and leave the test instead."),
  [SW_TEST_WORD_GO_ABANDON] = N_ ("_Abandon Test"),
  [SW_TEST_WORD_ASK_NOT_ADDED] = N_ ("Nobody added the dose?"),
  [SW_TEST_WORD_ABOUT_NOT_ADDED]
  = N_ ("The amount is then void and the machine stays acid. Be sure: if anyone may have added it, "
        "answer that nobody knows, and re-test."),
  [SW_TEST_WORD_LINE_PURPOSE] = N_ ("Purpose"),
  [SW_TEST_WORD_LINE_DRAWN] = N_ ("Drawn"),
  [SW_TEST_WORD_LINE_POINT] = N_ ("Where"),
  [SW_TEST_WORD_LINE_RUNNING] = N_ ("Machine running"),
  [SW_TEST_WORD_LINE_LEVEL] = N_ ("Level right"),
  [SW_TEST_WORD_LINE_ADDED] = N_ ("Added since the last record"),
  [SW_TEST_WORD_LINE_VOLUME] = N_ ("Volume drawn"),
  [SW_TEST_WORD_LINE_TEMPERATURE] = N_ ("Temperature"),
  [SW_TEST_WORD_LINE_APPEARANCE] = N_ ("Appearance"),
  [SW_TEST_WORD_LINE_RETAINED] = N_ ("Part kept"),
  [SW_TEST_WORD_LINE_REMARKS] = N_ ("Remarks"),
  [SW_TEST_WORD_LINE_METHOD] = N_ ("Method"),
  [SW_TEST_WORD_LINE_PORTION] = N_ ("In the flask"),
  [SW_TEST_WORD_LINE_TITRANT_LOT] = N_ ("Lot of the titrant"),
  [SW_TEST_WORD_LINE_CAUSTIC_LOT] = N_ ("Lot of the caustic"),
  [SW_TEST_WORD_LINE_STRIP_LOT] = N_ ("Lot of the strips"),
  [SW_TEST_WORD_LINE_LOT_REASON] = N_ ("Why an expired lot"),
  [SW_TEST_WORD_GO_NOT_ADDED] = N_ ("_Nothing Was Added"),
};

#define MAX_REASONS 4

static const char *const reasons[SW_N_REASONS][MAX_REASONS] = {
  [SW_REASON_EXPIRED_LOT] = {
      N_ ("No other lot is on site"),
      N_ ("Checked today against a lot in date"),
      N_ ("The supplier extended the date in writing"),
  },
  [SW_REASON_TAKE_BACK] = {
      N_ ("Wrong tile picked"),
      N_ ("Strip read too late or in poor light"),
      N_ ("Strip dipped into the wrong layer"),
      N_ ("Miscounted"),
  },
  [SW_REASON_FRESH_PORTION] = {
      N_ ("Paused too long"),
      N_ ("Spilt or contaminated"),
      N_ ("The end point was passed in one step"),
      N_ ("Miscounted"),
  },
  [SW_REASON_ABANDON] = {
      N_ ("Sample spoilt"),
      N_ ("Wrong machine or wrong sample"),
      N_ ("Machine was stopped"),
      N_ ("Begun by mistake"),
  },
  [SW_REASON_EXTRA] = {
      N_ ("Reserve for the days until the next test"),
      N_ ("As the responsible person ordered"),
      N_ ("New oil or new parts come in"),
  },
  [SW_REASON_NOT_ADDED] = {
      N_ ("Machine was not ready"),
      N_ ("Product was not at hand"),
      N_ ("The amount was doubted"),
  },
  [SW_REASON_AMEND] = {
      N_ ("Typing mistake"),
      N_ ("Misread"),
      N_ ("Wrong record picked"),
      N_ ("Written down late from paper"),
  },
  [SW_REASON_VOID] = {
      N_ ("Entered twice"),
      N_ ("Belongs to another machine"),
      N_ ("Made for practice"),
      N_ ("The sample was spoilt"),
  },
};

const char *
sw_say_test_word (const SwWording *wording, SwTestWord word)
{
  g_return_val_if_fail (word < SW_N_TEST_WORDS && words[word] != NULL, "");
  return sw_tr (wording, words[word]);
}

const char *
sw_say_reason (const SwWording *wording, SwReasonKind kind, guint i)
{
  g_return_val_if_fail (kind < SW_N_REASONS, NULL);
  if (i >= MAX_REASONS || reasons[kind][i] == NULL)
    return NULL;
  return sw_tr (wording, reasons[kind][i]);
}
