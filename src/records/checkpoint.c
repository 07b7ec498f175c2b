/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Signing the journal's head, and comparing a file with what was signed; see checkpoint.h. */
#include "records/checkpoint-private.h"

#include "records/plant.h"

#include <string.h>

/* ---- the signature ---- */

char *
sw_checkpoint_message (const char *uuid, gint64 seq, const char *head, gint64 utc_ms)
{
  return g_strdup_printf ("stillwarden checkpoint 1\nsite=%s\nseq=%" G_GINT64_FORMAT
                          "\nhead=%s\nutc_ms=%" G_GINT64_FORMAT "\n",
                          uuid, seq, head, utc_ms);
}

static gboolean
read_hex (const char *text, unsigned char *bytes, gsize n_bytes)
{
  gsize length = 0;

  return text != NULL && strlen (text) == 2 * n_bytes
         && sodium_hex2bin (bytes, n_bytes, text, 2 * n_bytes, NULL, &length, NULL) == 0
         && length == n_bytes;
}

gboolean
sw_checkpoint_check (const char *message, const char *key, const char *signature)
{
  unsigned char public_key[crypto_sign_PUBLICKEYBYTES];
  unsigned char bytes[crypto_sign_BYTES];

  return sodium_init () >= 0 && read_hex (key, public_key, sizeof public_key)
         && read_hex (signature, bytes, sizeof bytes)
         && crypto_sign_verify_detached (bytes, (const unsigned char *)message, strlen (message),
                                         public_key)
                == 0;
}

gboolean
sw_trust_line_is_signed (const SwTrustLine *line, const char *uuid)
{
  g_autofree char *message = sw_checkpoint_message (uuid, line->seq, line->head, line->utc_ms);

  return sw_checkpoint_check (message, line->key, line->signature);
}

/* ---- signing ---- */

SwCheckpoint *
sw_checkpoint_last (SwStore *store, GError **error)
{
  gint64 id = 0;

  g_return_val_if_fail (store != NULL, NULL);
  if (!sw_sql_integer (store, "SELECT max(id) FROM checkpoint WHERE voided = 0", NULL, 0, &id,
                       error)
      || id == 0)
    return NULL;
  return sw_checkpoint_load (store, id, error);
}

static gboolean
knows_line (GArray *lines, const SwCheckpoint *checkpoint)
{
  for (guint i = lines->len; i > 0; i--)
    {
      const SwTrustLine *line = &g_array_index (lines, SwTrustLine, i - 1);

      if (line->seq == checkpoint->seq && g_strcmp0 (line->head, checkpoint->head) == 0)
        return TRUE;
    }
  return FALSE;
}

/* *needed: something but checkpoints was written since the last, or the folder does not know it. */
static gboolean
is_needed (SwStore *store, const char *folder, const char *uuid, gboolean *needed, GError **error)
{
  g_autoptr (GError) failure = NULL;
  g_autoptr (SwCheckpoint) last = sw_checkpoint_last (store, &failure);
  g_autoptr (GArray) lines = NULL;
  const SwCell after = sw_cell_integer (last != NULL ? last->seq : 0);
  gint64 written = 0;
  guint n_unreadable;

  *needed = TRUE;
  if (failure != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&failure));
      return FALSE;
    }
  if (!sw_sql_integer (store, "SELECT count(*) FROM journal WHERE seq > ? AND kind <> 'checkpoint'",
                       &after, 1, &written, error))
    return FALSE;
  if (written > 0 || last == NULL)
    return TRUE;
  lines = sw_trust_lines_read (folder, uuid, &n_unreadable, error);
  if (lines == NULL)
    return FALSE;
  *needed = !knows_line (lines, last);
  return TRUE;
}

gboolean
sw_checkpoint_is_due (SwStore *store, gboolean *due, GError **error)
{
  gint64 count = 0;

  g_return_val_if_fail (store != NULL && due != NULL, FALSE);
  *due = FALSE;
  if (!sw_sql_integer (
          store,
          "SELECT count(*) FROM journal WHERE kind = 'sign'"
          " AND seq > coalesce((SELECT seq FROM checkpoint ORDER BY id DESC LIMIT 1), 0)",
          NULL, 0, &count, error))
    return FALSE;
  *due = count > 0;
  return TRUE;
}

/* Inside of the act: the line outside, then the row (invariant 1). */
static gboolean
write_checkpoint (
    SwStore *store, const char *folder, const char *uuid, const SwTrustKey *key, GError **error)
{
  g_autoptr (SwCheckpoint) row = sw_checkpoint_new ();
  SwTrustLine line = { .seq = store->act.last_seq, .utc_ms = store->act.now_ms };
  g_autofree char *message
      = sw_checkpoint_message (uuid, line.seq, store->act.last_hash, line.utc_ms);

  row->seq = line.seq;
  row->head = g_strdup (store->act.last_hash);
  row->key = g_strdup (key->public_key);
  row->signature = sw_trust_key_sign (key, message);
  g_strlcpy (line.head, row->head, sizeof line.head);
  g_strlcpy (line.key, row->key, sizeof line.key);
  g_strlcpy (line.signature, row->signature, sizeof line.signature);
  return sw_trust_line_append (folder, uuid, &line, error)
         && sw_checkpoint_insert (store, row, error);
}

static gboolean
sign_head (SwStore *store, const char *folder, const char *uuid, gint64 *seq, GError **error)
{
  const SwActor actor = { .identified = SW_IDENTIFIED_SYSTEM };
  SwTrustKey key;
  gboolean signed_now;
  gint64 head_seq;

  if (!sw_trust_key_load (folder, &key, error))
    return FALSE;
  signed_now = sw_act_begin (store, SW_ACT_CHECKPOINT, &actor, error);
  head_seq = store->act.last_seq;
  signed_now = signed_now && write_checkpoint (store, folder, uuid, &key, error)
               && sw_act_commit (store, error);
  sw_trust_key_wipe (&key);
  if (!signed_now)
    {
      sw_act_cancel (store);
      return FALSE;
    }
  *seq = head_seq;
  return TRUE;
}

gboolean
sw_checkpoint_sign (SwStore *store, const char *folder, gint64 *seq, GError **error)
{
  g_autoptr (SwSite) site = NULL;
  gint64 ignored = 0;
  gboolean needed;

  g_return_val_if_fail (store != NULL && folder != NULL && !store->act.open, FALSE);
  seq = seq != NULL ? seq : &ignored;
  *seq = 0;
  site = sw_site_get (store, error);
  if (site == NULL || !is_needed (store, folder, site->uuid, &needed, error))
    return FALSE;
  return !needed || sign_head (store, folder, site->uuid, seq, error);
}

/* ---- comparing ---- */

gboolean
sw_checkpoint_find_hash (SwStore *store, gint64 seq, char **hash, GError **error)
{
  const SwCell key = sw_cell_integer (seq);

  return sw_sql_text (store, "SELECT hash FROM journal WHERE seq = ?", &key, 1, hash, error);
}

GPtrArray *
sw_restorations_load (SwStore *store, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_RESTORATION, NULL, 0, error);
  g_autoptr (GPtrArray) restorations
      = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_restoration_free);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      SwRestoration *row = sw_restoration_load (store, g_array_index (ids, gint64, i), error);

      if (row == NULL)
        return NULL;
      g_ptr_array_add (restorations, row);
    }
  return ids != NULL ? g_steal_pointer (&restorations) : NULL;
}

/* It says what it replaced: from after the backup's head to the lost one. Of a file that could not
 * be read any more, everything that was signed before. */
static gboolean
gives_up (const SwRestoration *row, const SwTrustLine *line)
{
  if (row->lost_head != NULL && strcmp (row->lost_head, line->head) == 0)
    return TRUE;
  if (line->seq <= row->kept_seq || line->utc_ms > row->record.happened_ms)
    return FALSE;
  /* the row names another head at this very place */
  if (line->seq == row->lost_seq)
    return FALSE;
  return row->lost_seq == 0 || line->seq < row->lost_seq;
}

const SwRestoration *
sw_restorations_find (GPtrArray *restorations, const SwTrustLine *line)
{
  for (guint i = 0; i < restorations->len; i++)
    if (gives_up (restorations->pdata[i], line))
      return restorations->pdata[i];
  return NULL;
}

/* ---- one line against the journal ---- */

gboolean
sw_trust_line_find (SwStore *store,
                    const SwTrustLine *line,
                    const char *uuid,
                    GPtrArray *restorations,
                    SwTrustState *state,
                    GError **error)
{
  g_autofree char *hash = NULL;

  if (!sw_checkpoint_find_hash (store, line->seq, &hash, error))
    return FALSE;
  if (g_strcmp0 (hash, line->head) == 0)
    *state = SW_TRUST_THERE;
  else if (!sw_trust_line_is_signed (line, uuid))
    *state = SW_TRUST_UNSIGNED;
  else if (sw_restorations_find (restorations, line) != NULL)
    *state = SW_TRUST_GIVEN_UP;
  else
    *state = SW_TRUST_LOST;
  return TRUE;
}

/* The last one lost, and the last one kept before the first that was lost. */
static void
count_line (SwCheckpointLoss *loss, const SwTrustLine *line, SwTrustState state)
{
  switch (state)
    {
    case SW_TRUST_THERE:
      if (loss->n_lost == 0)
        {
          loss->kept_seq = line->seq;
          loss->kept_utc_ms = line->utc_ms;
        }
      break;
    case SW_TRUST_LOST:
      loss->n_lost++;
      loss->seq = line->seq;
      loss->utc_ms = line->utc_ms;
      g_strlcpy (loss->head, line->head, sizeof loss->head);
      break;
    case SW_TRUST_GIVEN_UP:
      loss->n_given_up++;
      break;
    case SW_TRUST_UNSIGNED:
    default:
      loss->n_unreadable++;
      break;
    }
}

gboolean
sw_checkpoint_compare_lines (SwStore *store,
                             const char *uuid,
                             GArray *lines,
                             GPtrArray *restorations,
                             SwCheckpointLoss *loss,
                             GError **error)
{
  for (guint i = 0; i < lines->len; i++)
    {
      const SwTrustLine *line = &g_array_index (lines, SwTrustLine, i);
      SwTrustState state;

      if (!sw_trust_line_find (store, line, uuid, restorations, &state, error))
        return FALSE;
      count_line (loss, line, state);
    }
  return TRUE;
}

gboolean
sw_checkpoint_compare (SwStore *store, const char *folder, SwCheckpointLoss *loss, GError **error)
{
  g_autoptr (SwSite) site = NULL;
  g_autoptr (GArray) lines = NULL;
  g_autoptr (GPtrArray) restorations = NULL;

  g_return_val_if_fail (store != NULL && folder != NULL && loss != NULL, FALSE);
  *loss = (SwCheckpointLoss){ 0 };
  site = sw_site_get (store, error);
  if (site == NULL)
    return FALSE;
  lines = sw_trust_lines_read (folder, site->uuid, &loss->n_unreadable, error);
  restorations = lines != NULL ? sw_restorations_load (store, error) : NULL;
  return restorations != NULL
         && sw_sql_integer (store, "SELECT max(seq) FROM journal", NULL, 0, &loss->last_seq, error)
         && sw_checkpoint_compare_lines (store, site->uuid, lines, restorations, loss, error);
}
