/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Verify: finds what another tool did to the file. Needs no write access.
 *
 * Full verify: integrity_check, foreign_key_check, the schema against that of its user_version, the
 * hash chain of the journal, and every live row against the journal rows that are nobody's prior.
 */
#pragma once

#include "records/record.h"

G_BEGIN_DECLS

typedef enum
{
  SW_FINDING_INTEGRITY,   /* integrity_check or foreign_key_check; text: its words */
  SW_FINDING_SCHEMA,      /* a table, index, trigger or view differs; text: its name */
  SW_FINDING_CHAIN,       /* the chain breaks at journal row seq */
  SW_FINDING_ROW_CHANGED, /* a column differs from the journal */
  SW_FINDING_ROW_UNKNOWN, /* a row that no journal row speaks of */
  SW_FINDING_ROW_MISSING, /* the journal has a row that the table has not */
  SW_FINDING_RESULT,      /* a stored result differs from its recomputation */
  SW_N_FINDINGS
} SwFindingKind;

typedef struct
{
  SwFindingKind kind;
  char *table; /* Owned, or NULL */
  char *column;
  gint64 row;     /* 0 = none */
  gint64 seq;     /* journal row, 0 = none */
  char *expected; /* by the journal */
  char *found;
  char *text;
} SwFinding;

void sw_finding_free (SwFinding *finding);

typedef struct
{
  GPtrArray *findings; /* Owned SwFinding; empty = nothing found */
  gint64 journal_rows;
  gint64 record_rows;
  char *head; /* Owned: the last hash, 64 hex digits */
} SwVerifyReport;

void sw_verify_report_free (SwVerifyReport *report);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwVerifyReport, sw_verify_report_free)

/* done of total journal rows; return FALSE to stop: the verify then fails with
 * G_IO_ERROR_CANCELLED. */
typedef gboolean (*SwProgress) (gint64 done, gint64 total, gpointer data);

/* Runs inside one read transaction. (transfer full); NULL only when the file could not be read at
 * all. */
SwVerifyReport *sw_verify_full (SwStore *store, SwProgress progress, gpointer data, GError **error);

/* The journal's head, 64 hex digits. (transfer full) */
char *sw_journal_head (SwStore *store, GError **error);

G_END_DECLS
