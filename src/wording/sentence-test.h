/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences of the guided test that no other place needs: what its pages ask, remind of and answer.
 * Whole sentences, so that a translator may order them as the language wants. All (transfer full)
 * unless said. */
#pragma once

#include "wording/sentence.h"

G_BEGIN_DECLS

/* Short fixed texts. (transfer none) */
typedef enum
{
  SW_TEST_WORD_YES,
  SW_TEST_WORD_NO,
  SW_TEST_WORD_NOT_KNOWN,
  SW_TEST_WORD_NONE_GIVEN, /* a field left empty on purpose */
  SW_TEST_WORD_ROUTINE,
  SW_TEST_WORD_RETEST,
  SW_TEST_WORD_CONTROL,
  SW_TEST_WORD_DUPLICATE,
  SW_TEST_WORD_ANSWER_FIRST,   /* beside a question without an answer */
  SW_TEST_WORD_PICK_POINT,     /* no sampling point picked */
  SW_TEST_WORD_PICK_LOT,       /* no lot picked */
  SW_TEST_WORD_PICK_REASON,    /* a reason is needed */
  SW_TEST_WORD_PICK_READER,    /* no second reader picked */
  SW_TEST_WORD_PICK_PERSON,    /* nobody signed in */
  SW_TEST_WORD_TYPE_TAG,       /* the tag was left empty */
  SW_TEST_WORD_DOSE_BASIS,     /* doses may be worked out from this point */
  SW_TEST_WORD_NO_DOSE_BASIS,  /* ... may not */
  SW_TEST_WORD_NOT_CHOSEN,     /* first line of a drop-down */
  SW_TEST_WORD_TYPE_REASON,    /* first line of a list of reasons */
  SW_TEST_WORD_BETWEEN,        /* "between two", of a reading */
  SW_TEST_WORD_READ_NOW,       /* titrant is in, no strip read yet */
  SW_TEST_WORD_SHAKE_DONE,     /* the shake time is over */
  SW_TEST_WORD_FLASK_EMPTY,    /* nothing in the flask yet */
  SW_TEST_WORD_NO_EXTRA_YET,   /* the amount without extra neutraliser */
  SW_TEST_WORD_EXTRA_WRONG,    /* no amount: the extra cannot be read */
  SW_TEST_WORD_ENTER_STRENGTH, /* what the strength would show */
  SW_TEST_WORD_NO_DOMINANT,    /* no uncertainty to state */
  SW_TEST_WORD_DONE_PASSED,    /* titles of the last page */
  SW_TEST_WORD_DONE_ACID,
  SW_TEST_WORD_DONE_ADDED,
  SW_TEST_WORD_DONE_UNKNOWN,
  SW_TEST_WORD_DONE_OVER_RANGE,
  SW_TEST_WORD_DONE_RESERVE,
  SW_TEST_WORD_STILL_ACID, /* the machine stays acid: what that means */
  /* the page that asks for a reason: title, words, button */
  SW_TEST_WORD_ASK_TAKE_BACK,
  SW_TEST_WORD_ABOUT_TAKE_BACK,
  SW_TEST_WORD_GO_TAKE_BACK,
  SW_TEST_WORD_ASK_FRESH,
  SW_TEST_WORD_ABOUT_FRESH,
  SW_TEST_WORD_GO_FRESH,
  SW_TEST_WORD_ASK_ABANDON,
  SW_TEST_WORD_ABOUT_ABANDON,
  SW_TEST_WORD_GO_ABANDON,
  SW_TEST_WORD_ASK_NOT_ADDED,
  SW_TEST_WORD_ABOUT_NOT_ADDED,
  SW_TEST_WORD_GO_NOT_ADDED,
  /* lines of the Check page */
  SW_TEST_WORD_LINE_PURPOSE,
  SW_TEST_WORD_LINE_DRAWN,
  SW_TEST_WORD_LINE_POINT,
  SW_TEST_WORD_LINE_RUNNING,
  SW_TEST_WORD_LINE_LEVEL,
  SW_TEST_WORD_LINE_ADDED,
  SW_TEST_WORD_LINE_VOLUME,
  SW_TEST_WORD_LINE_TEMPERATURE,
  SW_TEST_WORD_LINE_APPEARANCE,
  SW_TEST_WORD_LINE_RETAINED,
  SW_TEST_WORD_LINE_REMARKS,
  SW_TEST_WORD_LINE_METHOD,
  SW_TEST_WORD_LINE_PORTION,
  SW_TEST_WORD_LINE_TITRANT_LOT,
  SW_TEST_WORD_LINE_CAUSTIC_LOT,
  SW_TEST_WORD_LINE_STRIP_LOT,
  SW_TEST_WORD_LINE_LOT_REASON,
  SW_N_TEST_WORDS
} SwTestWord;
const char *sw_say_test_word (const SwWording *wording, SwTestWord word);

/* Reasons to pick from; NULL past the last. Each is a text that can be recorded as it is.
 * (transfer none) */
typedef enum
{
  SW_REASON_EXPIRED_LOT,
  SW_REASON_TAKE_BACK,
  SW_REASON_FRESH_PORTION,
  SW_REASON_ABANDON,
  SW_REASON_EXTRA,
  SW_REASON_NOT_ADDED,
  SW_REASON_AMEND,
  SW_REASON_VOID,
  SW_N_REASONS
} SwReasonKind;
const char *sw_say_reason (const SwWording *wording, SwReasonKind kind, guint i);

/* ---- frame ---- */

/* "M-07 Long bed, sample M-07-261124-1. Step 3 of 7"; @name may be NULL. */
char *sw_say_test_caption (const SwWording *wording,
                           const char *tag,
                           const char *name,
                           const char *code,
                           int step,
                           int of);
/* "M-07 Long bed"; @name may be NULL. */
char *sw_say_machine (const SwWording *wording, const char *tag, const char *name);

/* ---- draw, prepare ---- */

char *sw_say_wrong_tag (const SwWording *wording, const char *typed, const char *tag);
/* A second look at a number that is about ten times, or a tenth, of the usual one; NULL when it is
 * not. Both in @unit. */
char *sw_say_second_look (
    const SwWording *wording, SwQuantityName quantity, double value, double usual, SwUnit unit);
char *sw_say_amount_of (const SwWording *wording, double ml, const char *name); /* "5 mL of X" */
/* "25 mL, deionised"; @kind a method's word or NULL. */
char *sw_say_water (const SwWording *wording, double ml, const char *kind);
/* "S-2291, expires 12 January 2027"; says EXPIRED in words. @expires_ms 0 = no date. */
char *sw_say_lot (const SwWording *wording, const char *code, gint64 expires_ms, gint64 now_ms);
char *sw_say_no_lot (const SwWording *wording, const char *product);

/* ---- read ---- */

/* The question or the message on top of the page. (transfer none) */
const char *sw_say_read_title (const SwWording *wording, SwNext next);
/* "White light, wet strip, within 30 seconds." @strip_wait_s 0 or NAN = no time given. */
char *sw_say_light (const SwWording *wording, double strip_wait_s);
/* "Yellow, acid"; @label NULL: between two. Struck ones say so. */
char *sw_say_reading (const SwWording *wording,
                      const char *label,
                      SwField field,
                      gboolean struck,
                      gboolean not_added);
char *sw_say_between_key (const SwWording *wording, guint key);    /* button, "4 Between Two" */
char *sw_say_add_one (const SwWording *wording, gboolean burette); /* button, "+ 1 Drop" */

/* The shake timer at @now_ms. */
typedef struct
{
  gboolean running;
  gboolean done;   /* ran its full time */
  double fraction; /* 0..1 */
  char *elapsed;   /* Owned: "0:42" */
  char *of;        /* Owned: "of 1:00" */
} SwShakeText;
void sw_say_shake (
    const SwWording *wording, gint64 started_ms, gint64 now_ms, double shake_s, SwShakeText *text);
void sw_shake_text_clear (SwShakeText *text);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwShakeText, sw_shake_text_clear)

/* ---- result, check, done ---- */

/* Acid content of @net steps: mmol/L, and as hydrogen chloride. Where the strength is unknown
 * (NAN): what could be shown. */
char *sw_say_content (const SwWording *wording,
                      SwInterval net,
                      double step_ml,
                      double titrant_mmol_ml,
                      double sample_ml);
/* Where a caustic addition does not count: what passes unseen; else NULL. */
char *sw_say_threshold (const SwWording *wording,
                        double caustic_mmol,
                        gboolean caustic_counts,
                        double sample_ml);
char *sw_say_signature (const SwWording *wording, const char *name);
char *sw_say_retest_due (const SwWording *wording, gint64 due_ms, gint64 now_ms);

/* ---- dose, added ---- */

char *sw_say_dose_button (const SwWording *wording, double ml); /* "_Dose 1260 mL" */
char *sw_say_per_step (const SwWording *wording, double per_step_ml, gboolean burette);
char *sw_say_dose_bounds (const SwWording *wording, const SwDose *dose);
/* The best estimate and the interval that holds it at 95 %, without the extra. (transfer full) */
char *sw_say_dose_best (const SwWording *wording, const SwDose *dose, SwInterval likely_ml);
char *sw_say_dose_where (const SwWording *wording, const char *product, const char *place);
/* The plan of additions; NULL when it goes in at once. */
char *sw_say_dose_split (const SwWording *wording, const double *parts, gsize n, double wait_min);
/* NULL when there is no supplier's figure. */
char *sw_say_supplier (
    const SwWording *wording, double supplier_ml, double ratio, gboolean flagged, gboolean governs);
/* @retest SW_OUTCOME_OPEN: not re-tested yet. */
char *sw_say_last_dose (const SwWording *wording,
                        double added_ml,
                        gint64 added_ms,
                        gint64 now_ms,
                        SwOutcomeKind retest);
/* What to do about a dose that is not shown. (transfer none) */
const char *sw_say_no_dose_advice (const SwWording *wording, SwFactCode code);
/* "1,260 mL of X into: still" */
char *sw_say_to_add (const SwWording *wording, double ml, const char *product, const char *place);

/* Reads "6:20" or "06.20" as a time of today, not later than now. Errors: SW_FAULT_ERROR with
 * SW_QUANTITY_DATE. */
gboolean
sw_clock_parse (const char *text, GTimeZone *zone, gint64 now_ms, gint64 *utc_ms, GError **error);

G_END_DECLS
