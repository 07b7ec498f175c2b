/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of lists of records: filters, marks, counts, what is done to many at once. */
#pragma once

#include "wording/sentence.h"

G_BEGIN_DECLS

/* What a record bears, as bits. */
typedef enum
{
  SW_MARK_VOIDED = 1 << 0,
  SW_MARK_REVIEW_LOST = 1 << 1,
  SW_MARK_AMENDED = 1 << 2,
  SW_MARK_LATE = 1 << 3,
  SW_MARK_REVIEWED = 1 << 4,
  SW_MARK_TO_REVIEW = 1 << 5, /* signed, and nobody has reviewed it yet */
  SW_MARK_UNSIGNED = 1 << 6,
} SwMark;
#define SW_N_MARKS 7

/* One mark: "amended". (transfer none) */
const char *sw_say_mark (const SwWording *wording, SwMark mark);
/* All of them: "amended, late"; "" for none. (transfer full) */
char *sw_say_marks (const SwWording *wording, guint marks);

/* The choices of the state filter, counted as records/browse.h counts them. (transfer none) */
const char *sw_say_list_state (const SwWording *wording, guint state);

/* The choices of the outcome filter: "Acid found". (transfer full) */
char *sw_say_list_outcome (const SwWording *wording, SwOutcomeKind kind);

/* "Any time", "From 24 November 2026", "24 November to 30 November 2026"; [from_ms, to_ms), 0 =
 * open. (transfer full) */
char *sw_say_days (const SwWording *wording, gint64 from_ms, gint64 to_ms);

/* "2026-05-24 06:20" in the reader's zone, as it is typed in any language. (transfer full) */
char *sw_moment_typed_format (const SwWording *wording, gint64 utc_ms);

/* The same for a column of a list: as wide in any language; kept together where text runs from
 * right to left. (transfer full) */
char *sw_moment_list_format (const SwWording *wording, gint64 utc_ms);

/* "1 204 acts" (transfer full) */
char *sw_say_act_count (const SwWording *wording, guint n);
/* What a person did in one act, by the journal's word: "amend" is "Amendment". (transfer none) */
const char *sw_say_act (const SwWording *wording, const char *kind);
/* The same with its reason: "Amendment: misread". (transfer full) */
char *sw_say_act_because (const SwWording *wording, const char *kind, const char *reason);
/* "3 entries" of the journal (transfer full) */
char *sw_say_entry_count (const SwWording *wording, guint n);
/* Words one after the other as a list; NULL and "" are left out. (transfer full) */
char *sw_say_listed (const SwWording *wording, const char *const *words, guint n);
/* "12 chosen"; 0: "" (transfer full) */
char *sw_say_chosen (const SwWording *wording, guint n);
/* The button: "_Review 12 Tests…"; 0: "_Review Tests…" (transfer full) */
char *sw_say_review_button (const SwWording *wording, guint n);
/* What is signed: "12 tests, from M-07-261124-1 to M-07-261126-2"; one: "Test M-07-261124-1".
 * (transfer full) */
char *
sw_say_review_subject (const SwWording *wording, guint n, const char *first, const char *last);
/* "12 tests are reviewed." (transfer full) */
char *sw_say_reviewed (const SwWording *wording, guint n);
/* "2 of 14 are left out. The first: ..." @why: the sentence about the first. (transfer full) */
char *sw_say_left_out (const SwWording *wording, guint n, guint of, const char *why);

/* "Choose at most 200 tests at once: ..." (transfer full) */
char *sw_say_too_many (const SwWording *wording, guint most);
/* Two whole sentences, one after the other. (transfer full) */
char *sw_say_two_sentences (const SwWording *wording, const char *first, const char *second);

/* A dose in a list: "1260 mL added", "1260 mL worked out", ...; @state a number of SwDoseState; @ml
 * NAN = no amount known. (transfer full) */
char *sw_say_dose_short (const SwWording *wording, guint state, double ml);
/* A reading in a list: "2 drops: Yellow, acid"; both in words already. (transfer full) */
char *sw_say_total (const SwWording *wording, const char *total, const char *reading);

/* "records.xlsx is written." (transfer full) */
char *sw_say_exported (const SwWording *wording, const char *name);

/* ---- signatures ---- */

/* "“This test is right.” N. Invented, 24 May 2026 06:20, with a secret." @meaning in
 * words already, @identified_by a word of the journal, NULL in old files. (transfer full) */
char *sw_say_signed (const SwWording *wording,
                     const char *meaning,
                     const char *person,
                     gint64 at_ms,
                     const char *identified_by);
/* Whether a signature still covers what it was given for. (transfer none) */
const char *sw_say_holds (const SwWording *wording, gboolean holds);

/* ---- amending ---- */

/* Counted as records/test.h counts answers: "No answer", "Yes", ... (transfer none) */
const char *sw_say_answer (const SwWording *wording, guint answer);
/* A lot among those of several products: "Demo amine: D-2291". (transfer full) */
char *sw_say_lot_choice (const SwWording *wording, const char *product, const char *code);

G_END_DECLS
