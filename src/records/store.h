/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The file: open, acts, clock. Nothing above this layer knows which engine is behind it.
 *
 * All writing goes through an act: sw_act_begin, any number of inserts and updates, sw_act_commit.
 * An act is written whole or not at all, with one journal row per record changed; a commit whose
 * journal rows do not match the rows changed is refused by the store itself.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _SwStore SwStore;

/* Where the store gets the time from. Only the store asks it, inside the write transaction. */
typedef struct
{
  gint64 (*now_ms) (gpointer data);                 /* UTC milliseconds */
  int (*offset_min) (gpointer data, gint64 utc_ms); /* zone offset then, minutes east */
  gpointer data;
  /* Milliseconds that no one can set, from whenever, sleep counted; NULL = not known. With it the
   * journal says when the other clock was put ahead between two acts. */
  gint64 (*steady_ms) (gpointer data);
} SwClock;

/* The system clock and the system's zone. (transfer none) */
const SwClock *sw_clock_system (void);

typedef enum
{
  SW_OPEN_WRITE,     /* an existing file, takes the owner lock */
  SW_OPEN_READ_ONLY, /* an existing file, nothing is ever written */
  SW_OPEN_CREATE     /* a new file; an existing one is refused */
} SwOpenMode;

typedef enum
{
  SW_RECORDS_ERROR_FAILED,
  SW_RECORDS_ERROR_NOT_FOUND, /* no such file */
  SW_RECORDS_ERROR_EXISTS,    /* create: the file is there already */
  SW_RECORDS_ERROR_FOREIGN,   /* a database, but not one of ours; or no database */
  SW_RECORDS_ERROR_NEWER,     /* written by a newer program version */
  SW_RECORDS_ERROR_DAMAGED,   /* quick_check failed */
  SW_RECORDS_ERROR_BUSY,      /* another program has it; message says who and since when */
  SW_RECORDS_ERROR_READ_ONLY, /* file or folder cannot be written */
  SW_RECORDS_ERROR_DISK_FULL,
  SW_RECORDS_ERROR_IO,
  SW_RECORDS_ERROR_NETWORK, /* on a network folder, where the locks are not safe */
  SW_RECORDS_ERROR_NO_SUCH_ROW,
  SW_RECORDS_ERROR_CONSTRAINT, /* a rule of the file: unique, reference, check */
  SW_RECORDS_ERROR_JOURNAL,    /* rows changed without their journal rows; nothing was written */
  SW_RECORDS_ERROR_UNVERIFIED  /* a copy in which verify found something; it was not kept */
} SwRecordsError;
#define SW_RECORDS_ERROR (sw_records_error_quark ())
GQuark sw_records_error_quark (void);

/* Opens a file; with SW_OPEN_CREATE makes it, schema and site UUID included. An older file is
 * migrated when it is opened for writing; reading only, it is shown with today's tables and stays
 * as it is. The clock is copied; NULL = system. (transfer full) */
SwStore *sw_store_open (const char *path, SwOpenMode mode, const SwClock *clock, GError **error);
/* Checkpoints, goes back to one file, drops the owner lock. Accepts NULL. An open act is cancelled.
 */
void sw_store_close (SwStore *store);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwStore, sw_store_close)

/* Writes a copy of the file as it stands, acts that are only in its -wal file included: one file at
 * rest, read through after writing. A file that is there already is refused. Not while an act runs.
 */
gboolean sw_store_copy (SwStore *store, const char *path, GError **error);

gboolean sw_store_is_read_only (SwStore *store);
/* Who holds the owner lock when it is not we, as "person on host since time", or NULL. (transfer
 * full) */
char *sw_store_dup_owner (const char *path);
const char *sw_store_get_path (SwStore *store);
/* What time it is by the store's clock: fetched once per user action by app and cli. */
gint64 sw_store_now (SwStore *store);
int sw_store_offset_at (SwStore *store, gint64 utc_ms);
int sw_store_get_schema_version (SwStore *store);

/* ---- acts ---- */

typedef enum
{
  SW_ACT_SETUP, /* set-up of the plant */
  SW_ACT_TEST,  /* a step of a guided test */
  SW_ACT_DOSE,
  SW_ACT_SIGN,  /* a signature or a review */
  SW_ACT_AMEND, /* a correction; needs a reason */
  SW_ACT_VOID,  /* out of use; needs a reason */
  SW_ACT_IMPORT,
  SW_ACT_MIGRATE,
  SW_ACT_SIGN_IN,    /* an attempt to sign in */
  SW_ACT_CHECKPOINT, /* the program signs the journal's head */
  SW_ACT_RESTORE,    /* a backup took the place of the file */
  SW_N_ACTS
} SwActKind;

typedef enum
{
  SW_IDENTIFIED_SELECTED, /* picked from the list of people: proves nothing */
  SW_IDENTIFIED_SECRET,
  SW_IDENTIFIED_IMPORT,
  SW_IDENTIFIED_DEMO, /* an invented person of the demo plant */
  SW_IDENTIFIED_SYSTEM,
  SW_N_IDENTIFIED
} SwIdentified;

/* The journal's word for it: "selected", "secret", ... (transfer none) */
const char *sw_identified_word (SwIdentified identified);

typedef struct
{
  gint64 person; /* id, or 0 for the system */
  SwIdentified identified;
  const char *workstation; /* borrowed; NULL = this host's name */
  const char *reason;      /* borrowed; needed by amend and void */
} SwActor;

/* BEGIN IMMEDIATE; takes the time of the act. One act at a time per store. */
gboolean sw_act_begin (SwStore *store, SwActKind kind, const SwActor *actor, GError **error);
gboolean sw_act_commit (SwStore *store, GError **error);
/* Rolls back; no-op when committed or never begun. */
void sw_act_cancel (SwStore *store);
/* The time of the running act; what `happened_ms` 0 becomes. */
gint64 sw_act_now (SwStore *store);

G_END_DECLS
