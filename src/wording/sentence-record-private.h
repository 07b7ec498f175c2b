/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the columns of each table are told. */
#pragma once

#include "calc/unit.h"
#include "wording/sentence-record.h"

G_BEGIN_DECLS

typedef enum
{
  SW_TOLD_TEXT,
  SW_TOLD_TYPED,     /* an amount's text as typed: told only when the amount itself is not */
  SW_TOLD_WORD,      /* @of: kind of word, sentence-record-word.c */
  SW_TOLD_REFERENCE, /* id of a row; @of: its table */
  SW_TOLD_SUBJECT,   /* id of a row of the signature's subject table */
  SW_TOLD_SECRET,
  SW_TOLD_YES_NO,
  SW_TOLD_TIME,
  SW_TOLD_DAY,
  SW_TOLD_NUMBER,
  SW_TOLD_SI,    /* stored in SI, told in @unit */
  SW_TOLD_PLAIN, /* stored in @unit already */
  SW_TOLD_STEPS
} SwToldKind;

typedef struct
{
  const char *name;
  const char *label; /* untranslated, context "column" */
  SwToldKind kind;
  const char *of;
  SwUnit unit;
} SwToldColumn;

typedef struct
{
  const char *name;
  const char *label;  /* untranslated, context "table" */
  const char *labels; /* the same, plural */
  const char *count[2];
  const char *record; /* 1 title, 2 what it belongs to */
  const char *word;   /* kind of word that SwBrowseRow.word is */
  const SwToldColumn *columns;
  guint n_columns;
} SwToldTable;

/* Translators: all messages with the context "column" name an entry of a record, as the heading of
 * a line "Name: value". */
#define NAMED(column, text) .name = (column), .label = (text)

/* Both forms of a count, for sw_trn. */
#define NP_(one, many) one, many
#define TABLE(file, columns_of, one, many, counts, row, kind)                                      \
  {                                                                                                \
    .name = (file), .label = (one), .labels = (many), .count = { counts }, .record = (row),        \
    .word = (kind), .columns = (columns_of), .n_columns = G_N_ELEMENTS (columns_of)                \
  }

extern const SwToldTable sw_told_plant_tables[], sw_told_test_tables[];
extern const guint sw_n_told_plant_tables, sw_n_told_test_tables;

/* NULL when there is none. */
const SwToldTable *sw_told_table (const char *table);
const SwToldColumn *sw_told_column (const char *table, const char *column);
/* A word of the file in the reader's; NULL for one that the kind does not have. */
const char *sw_say_word (const SwWording *wording, const char *kind, const char *word);

G_END_DECLS
