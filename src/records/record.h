/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every record has in common, and the functions that each record type gets.
 *
 * A record is a plain struct that starts with SwRecord. Its table's descriptor (column, type,
 * struct offset) drives insert, update, load, journal, replay and free; nothing is written by hand
 * per record.
 *
 * Empty values: text NULL, real NAN, id 0, time 0. Times are UTC milliseconds since 1970.
 */
#pragma once

#include "calc/quantity.h"
#include "calc/unit.h"
#include "records/store.h"

G_BEGIN_DECLS

typedef enum
{
  SW_TABLE_SITE,
  SW_TABLE_PERSON,
  SW_TABLE_SOLVENT,
  SW_TABLE_PRODUCT,
  SW_TABLE_LOT,
  SW_TABLE_MACHINE,
  SW_TABLE_COMPARTMENT,
  SW_TABLE_SAMPLING_POINT,
  SW_TABLE_FILL,
  SW_TABLE_METHOD,
  SW_TABLE_METHOD_VERSION,
  SW_TABLE_COLOUR_FIELD,
  SW_TABLE_METHOD_TEXT,
  SW_TABLE_CALIBRATION,
  SW_TABLE_PLAN,
  SW_TABLE_SAMPLE,
  SW_TABLE_TITRATION,
  SW_TABLE_READING,
  SW_TABLE_DOSE,
  SW_TABLE_INCIDENT,
  SW_TABLE_REVIEW,
  SW_TABLE_DECISION,
  SW_TABLE_SETTING,
  SW_TABLE_SIGN_IN,
  SW_TABLE_CHECKPOINT,
  SW_TABLE_RESTORATION,
  SW_N_TABLES
} SwTable;

/* First member of every record. */
typedef struct
{
  gint64 id;          /* INTEGER PRIMARY KEY; 0 = not inserted yet */
  gint64 happened_ms; /* when it happened; 0 on insert means "now", the act's time */
  gint64 recorded_ms; /* when it was written: set by the store, the act's time */
  int offset_min;     /* zone offset of both, minutes east of UTC: set by the store */
  gboolean late;      /* happened more than 15 min before recorded: set by the store on insert */
  gint64 journal_seq; /* the last journal row that speaks of this row: set by the store */
  gboolean voided;    /* taken out of use; the reason stands in the journal's act */
} SwRecord;

/* A number as typed: value in the unit that the member's name says, the text and unit typed beside
 * it. `typed` NULL: computed or taken from a default. Stored as NAME_si REAL and NAME_typed TEXT.
 */
typedef struct
{
  double value; /* NAN = empty */
  char *typed;  /* Owned */
} SwAmount;

/* Gives every record type its functions. Errors: SW_RECORDS_ERROR, SW_FAULT_ERROR.
 *   _new      a record of empty values (transfer full)
 *   _free     accepts NULL
 *   _copy     a deep copy (transfer full); NULL for NULL
 *   _load     (transfer full) the row with that id, voided or not; NULL with
 * SW_RECORDS_ERROR_NO_SUCH_ROW _insert   inside an act; sets id, recorded_ms, offset_min, late,
 * journal_seq _update   inside an act; writes the columns that differ from the row in the file,
 * journals old and new; nothing differs: TRUE, nothing written */
#define SW_DECLARE_RECORD(Type, prefix)                                                            \
  Type *prefix##_new (void);                                                                       \
  void prefix##_free (Type *record);                                                               \
  Type *prefix##_copy (const Type *record);                                                        \
  Type *prefix##_load (SwStore *store, gint64 id, GError **error);                                 \
  gboolean prefix##_insert (SwStore *store, Type *record, GError **error);                         \
  gboolean prefix##_update (SwStore *store, Type *record, GError **error);                         \
  G_DEFINE_AUTOPTR_CLEANUP_FUNC (Type, prefix##_free)

/* The table's name in the file, such as "sampling_point". */
const char *sw_table_name (SwTable table);
/* FALSE when no record table has that name; @table is then left alone. */
gboolean sw_table_from_name (const char *name, SwTable *table);

/* The name of the first column in which two records of a table differ, the columns of @except
 * (NULL-terminated, may be NULL) left out; NULL = none. Compared as the file would hold them; what
 * the store alone sets is no difference. (transfer none) */
const char *sw_record_difference (SwTable table,
                                  gconstpointer one,
                                  gconstpointer other,
                                  const char *const *except);
/* Any record by its table, as its own functions do: load, update and free. */
gpointer sw_record_load (SwStore *store, SwTable table, gint64 id, GError **error);
gboolean sw_record_update (SwStore *store, SwTable table, gpointer record, GError **error);
void sw_record_free (SwTable table, gpointer record);

/* Marks a row as taken out of use. Inside an act whose reason says why. */
gboolean sw_record_void (SwStore *store, SwTable table, gint64 id, GError **error);

/* Ids (gint64, transfer full) of the rows whose @column equals @value and are not voided, by id.
 * @column must be an id, integer or word column of the descriptor (a programmer's mistake
 * otherwise). column NULL: all rows that are not voided. */
GArray *
sw_record_ids (SwStore *store, SwTable table, const char *column, gint64 value, GError **error);
/* The same by a text or word column. */
GArray *sw_record_ids_by_text (
    SwStore *store, SwTable table, const char *column, const char *value, GError **error);
/* The rows that were taken out of use. (transfer full) */
GArray *sw_record_voided_ids (SwStore *store, SwTable table, GError **error);

G_END_DECLS
