/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A record and its story in words: names of tables and columns as people call them, values in the
 * reader's language and units, one sentence per journal entry.
 *
 * Wording knows no records: tables, columns, words and values come as the file has them ("dose",
 * "added_si", "not_known", SI numbers with 17 digits, texts with \n and \\ escaped), and the names
 * of other rows through a callback.
 */
#pragma once

#include "wording/sentence.h"

G_BEGIN_DECLS

/* ---- names; (transfer none), NULL for what the file does not have ---- */

const char *sw_say_table (const SwWording *wording, const char *table);  /* "Dose" */
const char *sw_say_tables (const SwWording *wording, const char *table); /* "Doses" */
/* "Amount added" */
const char *sw_say_column (const SwWording *wording, const char *table, const char *column);
/* What SwBrowseRow.word says of a row: "worked out, not recorded". */
const char *sw_say_row_word (const SwWording *wording, const char *table, const char *word);
/* "12 doses" (transfer full) */
char *sw_say_table_count (const SwWording *wording, const char *table, gulong n);
/* "Reading 3 of M-07-260504-1": the name that a list gives a row (SwBrowseRow.title, .of; may be
 * NULL), so that it can stand alone. (transfer full) */
char *
sw_say_record (const SwWording *wording, const char *table, const char *title, const char *of);

/* ---- values ---- */

typedef struct
{
  /* What row @id of @table is called; NULL = no such row. (transfer full) */
  char *(*name) (gpointer data, const char *table, gint64 id);
  gpointer data;
  gboolean burette;          /* steps of this record are mL of a burette, else drops */
  const char *subject_table; /* of a signature: what its subject is; borrowed, may be NULL */
} SwRecordContext;

/* FALSE for columns that no entry's lines tell: its sentence says it already. */
gboolean sw_column_is_told (const char *table, const char *column);
/* The column of the amount whose text as typed this one holds: one of the two is enough in a story.
 * NULL for all others. (transfer none) */
const char *sw_column_amount (const char *table, const char *column);
/* Where the column stands among those of its table; for sorting. */
guint sw_column_order (const char *table, const char *column);
/* A value, or a dash for @stored NULL. (transfer full) */
char *sw_say_value (const SwWording *wording,
                    const SwRecordContext *context,
                    const char *table,
                    const char *column,
                    const char *stored);
/* Two values of one column: with as many digits as it takes to tell them apart. Both (transfer
 * full); NULL for a NULL. */
void sw_say_values (const SwWording *wording,
                    const SwRecordContext *context,
                    const char *table,
                    const char *column,
                    const char *const stored[2],
                    char *values[2]);
/* "Appearance: cloudy (before: clear)", "Appearance: clear", "Appearance: empty (before: clear)".
 * (transfer full) */
char *
sw_say_change (const SwWording *wording, const char *column, const char *before, const char *after);

/* ---- entries ---- */

/* One journal entry; texts borrowed, words as the journal has them. */
typedef struct
{
  const char *action; /* "insert", "update", "void", "migrate" */
  const char *kind;   /* of the act: "amend" */
  const char *table;
  gint64 utc_ms;
  const char *person;        /* name; NULL = the program */
  const char *identified_by; /* "secret" */
  const char *workstation;
  const char *reason;    /* NULL = none given */
  gboolean makes_file;   /* a migration that made the file */
  gboolean refuses;      /* a sign-in with a wrong secret */
  gint64 late_ms;        /* how long after it happened it was written; 0 = not late */
  gint64 clock_back_ms;  /* the clock stood so far before the journal's last time; 0 */
  gint64 clock_ahead_ms; /* it had jumped ahead so far; 0 */
} SwEntryFacts;

/* "Amended on 24 May 2026 06:20 by N. Invented, signed in with a secret, at bench-2: read the label
 * again." (transfer full) */
char *sw_say_entry (const SwWording *wording, const SwEntryFacts *facts);

/* The reason that an undo in the window stores. */
#define SW_REASON_UNDONE "undone at once"

G_END_DECLS
