/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Table descriptors: which column of which table lives where in which struct.
 *
 * One descriptor per table drives new, free, copy, insert, update, load, journal and verify. A
 * column added to a struct is added to its descriptor and to a new schema file, nowhere else.
 */
#pragma once

#include "records/record.h"

G_BEGIN_DECLS

typedef enum
{
  SW_COLUMN_TEXT,    /* char *, NULL = empty */
  SW_COLUMN_SECRET,  /* char *; the journal holds a digest only */
  SW_COLUMN_WORD,    /* an enum, stored as a word */
  SW_COLUMN_ID,      /* gint64, 0 = empty */
  SW_COLUMN_TIME,    /* gint64, UTC milliseconds, 0 = empty */
  SW_COLUMN_INTEGER, /* int, never empty */
  SW_COLUMN_BOOLEAN, /* gboolean, 0 or 1 */
  SW_COLUMN_REAL     /* double, NAN = empty */
} SwColumnType;

typedef struct
{
  const char *name;
  SwColumnType type;
  gsize offset;
  gboolean by_store; /* set by the store alone; an update of the struct's member is ignored */
  SwUnit unit;       /* REAL: the member's unit; the file holds the SI unit of its kind */
  const char *const *words; /* WORD: by enum value, NULL-terminated */
} SwColumn;

typedef struct
{
  const char *name;
  gsize size;              /* of the struct */
  const SwColumn *columns; /* those of this table; the common ones come before them */
  guint n_columns;
} SwTableInfo;

/* The columns that every table has after id and before its own: happened_ms ... voided. */
extern const SwColumn sw_common_columns[];
#define SW_N_COMMON_COLUMNS 5u

const SwTableInfo *sw_table_info (SwTable table);

/* The column of that name, common ones included; NULL when there is none. */
const SwColumn *sw_table_find_column (const SwTableInfo *info, const char *name);
/* The word that stands for an enum's value in the file; NULL when there is none. */
const char *sw_column_word (const SwColumn *column, gint64 value);

static inline guint
sw_table_n_columns (const SwTableInfo *info)
{
  return SW_N_COMMON_COLUMNS + info->n_columns;
}

static inline const SwColumn *
sw_table_column (const SwTableInfo *info, guint i)
{
  return i < SW_N_COMMON_COLUMNS ? &sw_common_columns[i] : &info->columns[i - SW_N_COMMON_COLUMNS];
}

extern const SwTableInfo sw_plant_tables[], sw_method_tables[], sw_test_tables[], sw_trust_tables[];

/* For the tables-*.c files: entries of a descriptor; ROW is the struct's type. */
#define COLUMN(member, kind)                                                                       \
  {                                                                                                \
    .name = #member, .type = (kind), .offset = G_STRUCT_OFFSET (ROW, member)                       \
  }
#define TEXT(member) COLUMN (member, SW_COLUMN_TEXT)
#define ID(member) COLUMN (member, SW_COLUMN_ID)
#define TIME(member) COLUMN (member, SW_COLUMN_TIME)
#define INTEGER(member) COLUMN (member, SW_COLUMN_INTEGER)
#define BOOLEAN(member) COLUMN (member, SW_COLUMN_BOOLEAN)
#define REAL(member) COLUMN (member, SW_COLUMN_REAL)
#define WORD(member, list)                                                                         \
  {                                                                                                \
    .name = #member, .type = SW_COLUMN_WORD, .offset = G_STRUCT_OFFSET (ROW, member),              \
    .words = (list)                                                                                \
  }
/* A number whose unit in the struct is not that of the file: the column's name says the SI unit. */
#define REAL_IN(member, column, of)                                                                \
  {                                                                                                \
    .name = (column), .type = SW_COLUMN_REAL, .offset = G_STRUCT_OFFSET (ROW, member),             \
    .unit = (of)                                                                                   \
  }
/* An SwAmount: two columns. */
#define AMOUNT(member, column, of)                                                                 \
  REAL_IN (member.value, column, of),                                                              \
  {                                                                                                \
    .name = #member "_typed", .type = SW_COLUMN_TEXT,                                              \
    .offset = G_STRUCT_OFFSET (ROW, member.typed)                                                  \
  }
#define TABLE(title, Type, list)                                                                   \
  {                                                                                                \
    .name = (title), .size = sizeof (Type), .columns = (list), .n_columns = G_N_ELEMENTS (list)    \
  }

G_END_DECLS
