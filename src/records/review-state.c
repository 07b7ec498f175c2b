/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What signatures are worth: the journal says what was amended or voided after each of them.
 *
 * Invariants
 * 1. A signature counts from its own first journal row: what was amended before it, the signer saw.
 * 2. Only acts of amending and voiding take it away. The work itself (a dose recorded, a re-test
 *    linked) is journalled as acts of other kinds.
 * 3. A dose whose re-test was voided waits for another one: that link came after the signature and
 *    was never covered by it.
 */
#include "records/review-state.h"

#include "records/review-private.h"
#include "records/store-private.h"

#include <string.h>

#define SIGNATURES                                                                                 \
  "SELECT meaning, " SW_REVIEW_TAKEN_AWAY " FROM review WHERE subject_table = ? AND subject = ?"   \
  " AND voided = 0 ORDER BY id"

typedef struct
{
  gboolean own;  /* signed by who did it */
  gboolean held; /* a second person's signature that still covers what it was given for */
  gboolean lost; /* one that does not */
} Signatures;

/* A release and the closing of an incident are a second person's, too. */
static void
count_signature (Signatures *found, const char *meaning, gboolean taken_away)
{
  if (strcmp (meaning, "performed") == 0)
    found->own = TRUE;
  else if (taken_away)
    found->lost = TRUE;
  else
    found->held = TRUE;
}

static gboolean
read_signatures (SwStore *store, SwTable table, gint64 id, Signatures *found, GError **error)
{
  const SwCell keys[] = { sw_cell_text (sw_table_name (table)), sw_cell_integer (id) };
  sqlite3_stmt *statement = sw_sql_prepare (store, SIGNATURES, error);
  int code;

  if (statement == NULL)
    return FALSE;
  sw_sql_bind (statement, keys, G_N_ELEMENTS (keys));
  while ((code = sw_sql_step (store, statement, error)) == SQLITE_ROW)
    count_signature (found, (const char *)sqlite3_column_text (statement, 0),
                     sqlite3_column_int (statement, 1) != 0);
  sqlite3_reset (statement);
  return code == SQLITE_DONE;
}

gboolean
sw_review_state (SwStore *store, SwTable table, gint64 id, SwReviewState *state, GError **error)
{
  Signatures found = { 0 };

  g_return_val_if_fail (store != NULL && state != NULL, FALSE);
  *state = SW_REVIEW_NONE;
  if (!read_signatures (store, table, id, &found, error))
    return FALSE;
  if (found.held)
    *state = SW_REVIEW_REVIEWED;
  else if (found.lost)
    *state = SW_REVIEW_LOST;
  else if (found.own)
    *state = SW_REVIEW_SIGNED;
  return TRUE;
}

gboolean
sw_review_holds (SwStore *store, gint64 review, gboolean *holds, GError **error)
{
  const SwCell key = sw_cell_integer (review);
  gint64 holding;

  g_return_val_if_fail (store != NULL && holds != NULL, FALSE);
  *holds = FALSE;
  /* a signature that is not there, or was voided, covers nothing */
  if (!sw_sql_integer (store,
                       "SELECT count(*) FROM review WHERE id = ? AND voided = 0"
                       " AND NOT " SW_REVIEW_TAKEN_AWAY,
                       &key, 1, &holding, error))
    return FALSE;
  *holds = holding != 0;
  return TRUE;
}

GArray *
sw_review_ids (SwStore *store, SwTable table, gint64 id, GError **error)
{
  const SwCell keys[] = { sw_cell_text (sw_table_name (table)), sw_cell_integer (id) };

  g_return_val_if_fail (store != NULL, NULL);
  return sw_sql_ids (store,
                     "SELECT id FROM review WHERE subject_table = ? AND subject = ?"
                     " AND voided = 0 ORDER BY id",
                     keys, G_N_ELEMENTS (keys), error);
}
