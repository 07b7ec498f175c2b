/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The journal against its signed checkpoints, against their copies outside of the file, and against
 * the heads that somebody kept.
 *
 * A checkpoint row speaks for the file only with a key that the file does not hold. What the file
 * says about itself is compared all the same: it must fit. Only what stands outside shows that rows
 * are gone, or that the journal was rewritten to its end.
 */
#include "records/verify-private.h"

#include "records/plant.h"

#include <string.h>

/* ---- what stands outside ---- */

gboolean
sw_verify_load_trust (SwVerifyRun *run, GError **error)
{
  SwTrust *trust = &run->trust;
  g_autoptr (SwSite) site = sw_site_get (run->store, NULL);
  const char *folder = run->options->trust_folder;
  /* the site's row may be gone or altered: the rows say so, here nothing can be compared then */
  gboolean known = site != NULL && site->uuid != NULL && g_uuid_string_is_valid (site->uuid);

  trust->uuid = g_strdup (known ? site->uuid : "");
  trust->restorations = sw_restorations_load (run->store, error);
  if (folder != NULL && known)
    trust->lines = sw_trust_lines_read (folder, trust->uuid, &trust->n_unreadable, error);
  else
    trust->lines = g_array_new (FALSE, FALSE, sizeof (SwTrustLine));
  if (trust->restorations == NULL || trust->lines == NULL)
    return FALSE;
  if (folder != NULL)
    {
      sw_trust_key_peek (folder, trust->own_key);
      run->report->outside = trust->lines->len;
    }
  return TRUE;
}

void
sw_verify_clear_trust (SwTrust *trust)
{
  g_clear_pointer (&trust->uuid, g_free);
  g_clear_pointer (&trust->lines, g_array_unref);
  g_clear_pointer (&trust->restorations, g_ptr_array_unref);
}

gboolean
sw_verify_find_start (SwVerifyRun *run, const SwTrustLine **start, GError **error)
{
  const SwTrust *trust = &run->trust;

  *start = NULL;
  for (guint i = trust->lines->len; i > 0 && *start == NULL; i--)
    {
      const SwTrustLine *line = &g_array_index (trust->lines, SwTrustLine, i - 1);
      SwTrustState state;

      if (!sw_trust_line_find (run->store, line, trust->uuid, trust->restorations, &state, error))
        return FALSE;
      if (state == SW_TRUST_THERE && sw_trust_line_is_signed (line, trust->uuid))
        *start = line;
    }
  return TRUE;
}

/* ---- checkpoints in the file ---- */

static void
add_checkpoint (SwVerifyRun *run,
                const SwCheckpoint *row,
                const char *column,
                const char *expected,
                const char *found)
{
  const SwFinding finding = { .kind = SW_FINDING_CHECKPOINT,
                              .table = (char *)"checkpoint",
                              .column = (char *)column,
                              .row = row->record.id,
                              .seq = row->seq,
                              .utc_ms = row->record.happened_ms,
                              .expected = (char *)expected,
                              .found = (char *)found };

  sw_verify_add (run, &finding);
}

/* This PC's own, or one that its folder holds checkpoints of. */
static gboolean
knows_key (const SwTrust *trust, const char *key)
{
  if (g_strcmp0 (trust->own_key, key) == 0)
    return TRUE;
  for (guint i = 0; i < trust->lines->len; i++)
    if (g_strcmp0 (g_array_index (trust->lines, SwTrustLine, i).key, key) == 0)
      return TRUE;
  return FALSE;
}

/* Another PC's, or an attacker's: who compares keys can tell, the program cannot. Said once for
 * each key. */
static void
note_key (SwVerifyRun *run, GHashTable *keys, const SwCheckpoint *row)
{
  const SwFinding note = { .kind = SW_FINDING_CHECKPOINT,
                           .table = (char *)"checkpoint",
                           .column = (char *)"key",
                           .row = row->record.id,
                           .seq = row->seq,
                           .utc_ms = row->record.happened_ms,
                           .found = row->key };

  if (run->options->trust_folder == NULL || row->key == NULL || knows_key (&run->trust, row->key)
      || !g_hash_table_add (keys, g_strdup (row->key)))
    return;
  sw_verify_note (run, &note);
}

static gboolean
check_checkpoint (SwVerifyRun *run, gint64 id, GHashTable *keys, GError **error)
{
  g_autoptr (SwCheckpoint) row = sw_checkpoint_load (run->store, id, error);
  g_autofree char *hash = NULL;
  g_autofree char *message = NULL;

  if (row == NULL || !sw_checkpoint_find_hash (run->store, row->seq, &hash, error))
    return FALSE;
  message = sw_checkpoint_message (run->trust.uuid, row->seq, row->head, row->record.happened_ms);
  if (g_strcmp0 (hash, row->head) != 0)
    add_checkpoint (run, row, "head", hash, row->head);
  if (sw_checkpoint_check (message, row->key, row->signature))
    note_key (run, keys, row);
  else
    add_checkpoint (run, row, "signature", NULL, row->signature);
  run->report->checkpoints++;
  return TRUE;
}

/* Voided ones too: a checkpoint is never taken back. */
static gboolean
check_checkpoints (SwVerifyRun *run, GError **error)
{
  g_autoptr (GArray) ids
      = sw_sql_ids (run->store, "SELECT id FROM checkpoint ORDER BY id", NULL, 0, error);
  g_autoptr (GHashTable) keys = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    if (!check_checkpoint (run, g_array_index (ids, gint64, i), keys, error))
      return FALSE;
  return ids != NULL;
}

/* ---- restorations ---- */

static SwFinding
describe_restoration (const SwRestoration *row)
{
  return (SwFinding){ .kind = SW_FINDING_HEAD,
                      .table = (char *)"restoration",
                      .row = row->record.id,
                      .seq = row->lost_seq,
                      .expected = row->lost_head,
                      .text = row->backup,
                      .utc_ms = row->record.happened_ms,
                      .kept_seq = row->kept_seq };
}

static gboolean
check_restoration (SwVerifyRun *run, const SwRestoration *row, GError **error)
{
  const SwCell key = sw_cell_integer (row->record.journal_seq);
  SwFinding note = describe_restoration (row);
  g_autofree char *hash = NULL;

  if (!sw_checkpoint_find_hash (run->store, row->kept_seq, &hash, error)
      || !sw_sql_integer (run->store, "SELECT person FROM journal WHERE seq = ?", &key, 1,
                          &note.person, error))
    return FALSE;
  sw_verify_note (run, &note);
  if (g_strcmp0 (hash, row->kept_head) == 0)
    return TRUE;
  note.column = (char *)"kept_head";
  note.seq = row->kept_seq;
  note.expected = hash;
  note.found = row->kept_head;
  sw_verify_add (run, &note);
  return TRUE;
}

static gboolean
check_restorations (SwVerifyRun *run, GError **error)
{
  for (guint i = 0; i < run->trust.restorations->len; i++)
    if (!check_restoration (run, run->trust.restorations->pdata[i], error))
      return FALSE;
  return TRUE;
}

/* ---- heads from outside ---- */

/* The copies of checkpoints: all that are lost are one finding, about the newest of them. */
static gboolean
check_outside (SwVerifyRun *run, GError **error)
{
  const SwTrust *trust = &run->trust;
  SwCheckpointLoss loss = { .n_unreadable = trust->n_unreadable };
  g_autofree char *hash = NULL;
  SwFinding finding = { .kind = SW_FINDING_HEAD };

  if (!sw_checkpoint_compare_lines (run->store, trust->uuid, trust->lines, trust->restorations,
                                    &loss, error)
      || !sw_checkpoint_find_hash (run->store, loss.seq, &hash, error))
    return FALSE;
  if (loss.n_unreadable > 0)
    sw_verify_note (run, &(SwFinding){ .kind = SW_FINDING_CHECKPOINT,
                                       .column = (char *)"line",
                                       .count = loss.n_unreadable });
  if (loss.n_lost == 0)
    return TRUE;
  finding.seq = loss.seq;
  finding.expected = loss.head;
  finding.found = hash;
  finding.utc_ms = loss.utc_ms;
  finding.kept_seq = loss.kept_seq;
  finding.count = loss.n_lost;
  sw_verify_add (run, &finding);
  return TRUE;
}

/* The restoration that gave up a head: the one lost itself, or a checkpoint before it. */
static const SwRestoration *
find_given_up (const SwTrust *trust, const char *head)
{
  for (guint i = 0; i < trust->restorations->len; i++)
    if (g_strcmp0 (((SwRestoration *)trust->restorations->pdata[i])->lost_head, head) == 0)
      return trust->restorations->pdata[i];
  for (guint i = 0; i < trust->lines->len; i++)
    {
      const SwTrustLine *line = &g_array_index (trust->lines, SwTrustLine, i);

      if (strcmp (line->head, head) == 0)
        return sw_restorations_find (trust->restorations, line);
    }
  return NULL;
}

static gboolean
check_head (SwVerifyRun *run, const char *head, GError **error)
{
  const SwCell key = sw_cell_text (head);
  const SwRestoration *restoration;
  gint64 seq = 0;

  if (!sw_sql_integer (run->store, "SELECT seq FROM journal WHERE hash = ?", &key, 1, &seq, error))
    return FALSE;
  restoration = seq == 0 ? find_given_up (&run->trust, head) : NULL;
  if (restoration != NULL)
    {
      SwFinding note = describe_restoration (restoration);

      note.expected = (char *)head;
      sw_verify_note (run, &note);
    }
  else if (seq == 0)
    sw_verify_add (run, &(SwFinding){ .kind = SW_FINDING_HEAD, .expected = (char *)head });
  return TRUE;
}

gboolean
sw_verify_trust (SwVerifyRun *run, GError **error)
{
  const char *const *heads = run->options->heads;

  if (!check_checkpoints (run, error) || !check_restorations (run, error)
      || !check_outside (run, error))
    return FALSE;
  for (gsize i = 0; heads != NULL && heads[i] != NULL; i++)
    if (!check_head (run, heads[i], error))
      return FALSE;
  return TRUE;
}
