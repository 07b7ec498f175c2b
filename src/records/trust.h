/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records about the file itself: who signed in, signed checkpoints of the journal, restorations. */
#pragma once

#include "records/record.h"

G_BEGIN_DECLS

/* An attempt to sign in with a secret. A refused one has no actor in the journal: who typed it is
 * not known. The secret itself is never kept. */
typedef struct
{
  SwRecord record;
  gint64 person; /* whose secret was asked for */
  gboolean accepted;
} SwSignIn;
SW_DECLARE_RECORD (SwSignIn, sw_sign_in)

/* The journal's head at one moment, signed with a key that is kept outside of the file. */
typedef struct
{
  SwRecord record;
  gint64 seq;      /* of the journal row signed */
  char *head;      /* its hash, 64 hex digits */
  char *key;       /* Ed25519 public key, 64 hex digits */
  char *signature; /* Ed25519 signature, 128 hex digits; docs/file-format.md has the message */
} SwCheckpoint;
SW_DECLARE_RECORD (SwCheckpoint, sw_checkpoint)

/* A backup was put in the place of the file: written into the restored file at once. */
typedef struct
{
  SwRecord record;
  char *backup; /* name of the backup's file, without folders */
  gint64 kept_seq;
  char *kept_head; /* the backup's */
  gint64 lost_seq; /* of the file that was replaced; 0 = it could not be read */
  char *lost_head; /* NULL = it could not be read */
} SwRestoration;
SW_DECLARE_RECORD (SwRestoration, sw_restoration)

G_END_DECLS
