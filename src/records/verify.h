/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Verify: finds what another tool did to the file. Needs no write access.
 *
 * Full verify: integrity_check, foreign_key_check, the schema against that of its user_version, the
 * hash chain of the journal, its signed checkpoints, every live row against the journal rows that
 * are nobody's prior, and the heads that were kept outside of the file. Findings speak against the
 * file; notes are worth knowing and do not.
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
  /* A checkpoint row whose signature is wrong (column "signature"), or whose head is not the
   * journal's (column "head"). Notes: a key that this PC does not know (column "key"); lines of the
   * trust folder that are no checkpoint (column "line", count). */
  SW_FINDING_CHECKPOINT,
  /* A head from outside is not in the journal: expected. seq, utc_ms: of the newest lost checkpoint
   * of the trust folder, which count says how many there are of, and kept_seq which is the newest
   * before them that is there (0 = none); seq 0: a head that the caller gave. Table "restoration":
   * the row names a head of its backup that is not the journal's. Note: the restoration `row` of
   * `person` at utc_ms gave up what followed kept_seq, to seq and the head expected (0, NULL: not
   * known). */
  SW_FINDING_HEAD,
  SW_FINDING_VERSION, /* note: the same as SW_FINDING_RESULT, by another version's calculation */
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
  gint64 utc_ms;
  gint64 person;
  gint64 kept_seq;
  gint64 count;
} SwFinding;

void sw_finding_free (SwFinding *finding);

typedef struct
{
  GPtrArray *findings; /* Owned SwFinding; empty = nothing found */
  gint64 journal_rows;
  gint64 record_rows;
  char *head;         /* Owned: the last hash, 64 hex digits */
  GPtrArray *notes;   /* Owned SwFinding: information, no findings */
  gint64 chain_from;  /* first journal row whose hash was computed: 1, later when quick */
  gint64 checkpoints; /* rows of the file */
  gint64 outside; /* checkpoints of the trust folder about this file; -1 = no folder was given */
} SwVerifyReport;

void sw_verify_report_free (SwVerifyReport *report);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwVerifyReport, sw_verify_report_free)

/* done of total rows, of the journal and of records; return FALSE to stop: the verify then fails
 * with G_IO_ERROR_CANCELLED. */
typedef gboolean (*SwProgress) (gint64 done, gint64 total, gpointer data);

/* Runs inside one read transaction. (transfer full); NULL only when the file could not be read at
 * all. */
SwVerifyReport *sw_verify_full (SwStore *store, SwProgress progress, gpointer data, GError **error);

typedef struct
{
  const char *trust_folder; /* NULL = compare with no checkpoints outside */
  const char *const *heads; /* 64 hex digits each, NULL at the end; NULL = none */
  gboolean quick; /* believe the chain up to the newest checkpoint outside that is in the journal */
} SwVerifyOptions;

/* The same with more to compare with. @options NULL: as sw_verify_full. */
SwVerifyReport *sw_verify_with (SwStore *store,
                                const SwVerifyOptions *options,
                                SwProgress progress,
                                gpointer data,
                                GError **error);
/* Whether @text has the form of a head: 64 hex digits, in small letters. */
gboolean sw_head_is_valid (const char *text);

/* The journal's head, 64 hex digits. (transfer full) */
char *sw_journal_head (SwStore *store, GError **error);

G_END_DECLS
