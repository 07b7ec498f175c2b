/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Signed checkpoints: what finds a journal that was shortened, put back, or rewritten to its end.
 *
 * A checkpoint is an Ed25519 signature (RFC 8032) over the journal's head at one moment. The key
 * and a copy of every checkpoint stand outside of the file, in a trust folder of this PC:
 *
 *   FOLDER/                     0700; $XDG_DATA_HOME/stillwarden/trust unless said otherwise
 *   FOLDER/key                  0600; the secret seed of this PC's key, 64 hex digits and LF
 *   FOLDER/UUID.checkpoints     0600; of the site with that UUID; lines are only ever appended:
 *                               SEQ HEAD UTC_MS KEY SIGNATURE, single spaces between, LF at the end
 *
 * SEQ and HEAD are seq and hash of the journal row signed, UTC_MS the time of signing, KEY the
 * public key (64 hex digits), SIGNATURE 128 hex digits. The same stands in a row of the file's
 * table `checkpoint` (seq, head, happened_ms, key, signature). The message that is signed is text,
 * each of its five lines ended by LF:
 *
 *   stillwarden checkpoint 1
 *   site=UUID
 *   seq=SEQ
 *   head=HEAD
 *   utc_ms=UTC_MS
 *
 * Whoever has a line checks it without this program (302a... is the fixed start of an Ed25519
 * public key in DER, RFC 8410):
 *
 *   printf 'stillwarden checkpoint 1\nsite=%s\nseq=%s\nhead=%s\nutc_ms=%s\n' \
 *     UUID SEQ HEAD UTC_MS > message
 *   printf 302a300506032b6570032100%s KEY | tr a-f A-F | basenc -d --base16 > key.der
 *   printf %s SIGNATURE | tr a-f A-F | basenc -d --base16 > signature
 *   openssl pkeyutl -verify -pubin -keyform DER -inkey key.der -rawin -in message \
 *     -sigfile signature
 *
 * Invariants
 * 1. A checkpoint is written outside before its row is committed: a power cut between the two
 * leaves a line that is true, and a file without its row.
 * 2. A line that a power cut left unfinished is no checkpoint: its end is missing. The next line
 *    begins on a line of its own.
 * 3. What is signed was committed before: a checkpoint never names a head that a power cut can
 * undo.
 */
#pragma once

#include "records/trust.h"

G_BEGIN_DECLS

/* $XDG_DATA_HOME/stillwarden/trust (transfer full) */
char *sw_trust_folder_dup_default (void);

/* Signs the present head and sets *seq to the row signed, 0 when there was nothing to do: nothing
 * but checkpoints was written since the last, and the folder knows that one. Makes folder and key
 * when they are not there. No act may run. @seq may be NULL. A failure leaves the file as it was,
 * and is no reason to stop working. */
gboolean sw_checkpoint_sign (SwStore *store, const char *folder, gint64 *seq, GError **error);

/* Whether somebody has signed something since the last checkpoint: time for one. */
gboolean sw_checkpoint_is_due (SwStore *store, gboolean *due, GError **error);

/* Makes folder and key when they are not there; FALSE says that no checkpoint can be kept. */
gboolean sw_trust_folder_check (const char *folder, GError **error);

/* The newest checkpoint row of the file, or NULL without an error when there is none. (transfer
 * full) */
SwCheckpoint *sw_checkpoint_last (SwStore *store, GError **error);

/* What the file lacks of the checkpoints that stand outside. */
typedef struct
{
  guint n_lost;       /* checkpoints of which the journal knows nothing; 0 = all is well */
  gint64 seq;         /* of the newest that is lost */
  char head[65];      /* its hash */
  gint64 utc_ms;      /* when it was signed */
  gint64 kept_seq;    /* of the newest checkpoint before it that is still there; 0 = none */
  gint64 kept_utc_ms; /* when that was signed */
  gint64 last_seq;    /* the journal's last row */
  guint n_given_up;   /* lost, but a restoration of a backup says so */
  guint n_unreadable; /* lines of the folder that are no checkpoint or whose signature is wrong */
} SwCheckpointLoss;

/* Compares the file's journal with the checkpoints outside. Quick: one look-up for each. */
gboolean
sw_checkpoint_compare (SwStore *store, const char *folder, SwCheckpointLoss *loss, GError **error);

/* The message of a checkpoint. (transfer full) */
char *sw_checkpoint_message (const char *uuid, gint64 seq, const char *head, gint64 utc_ms);
/* Whether @signature (128 hex digits) over @message is of @key (64 hex digits). */
gboolean sw_checkpoint_check (const char *message, const char *key, const char *signature);

G_END_DECLS
