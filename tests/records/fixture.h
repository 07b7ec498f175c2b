/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file in a folder of its own, with a clock that stands still until the test moves it. */
#pragma once

#include "records/method.h"
#include "records/plant.h"
#include "records/store.h"
#include "records/test.h"
#include "records/trust.h"
#include "support/support.h"

G_BEGIN_DECLS

/* 2026-05-04 06:00:00.250 UTC, an invented Monday */
#define FIXTURE_START_MS G_GINT64_CONSTANT (1777874400250)
#define FIXTURE_OFFSET_MIN 120

typedef struct
{
  SwTestFolder *folder; /* Owned */
  char *path;           /* Owned */
  gint64 now_ms;
  int offset_min;
  SwClock clock;
  SwStore *store; /* Owned; a test may close it */
} Fixture;

/* For g_test_add: an open, empty file. */
void fixture_set_up (Fixture *fixture, gconstpointer data);
/* The same without a file. */
void fixture_set_up_folder (Fixture *fixture, gconstpointer data);
void fixture_tear_down (Fixture *fixture, gconstpointer data);

void fixture_close (Fixture *fixture);
/* Opens the file again; fails the test when that fails. */
void fixture_open (Fixture *fixture, SwOpenMode mode);

/* Begins an act of the system, of the demo kind; fails the test when that fails. */
void fixture_begin (Fixture *fixture, SwActKind kind, const char *reason);
void fixture_commit (Fixture *fixture);

/* Runs a command line with the shell and returns what it printed; fails the test when the exit
 * status is not 0. (transfer full) */
char *fixture_run (const char *format, ...) G_GNUC_PRINTF (1, 2);
/* One SQL text through the sqlite3 shell on the fixture's file. (transfer full) */
char *fixture_sql (Fixture *fixture, const char *sql);
/* The same, which must fail; what the shell complained about. (transfer full) */
char *fixture_sql_refused (Fixture *fixture, const char *sql);

/* One number by SQL through the store's own connection; fails the test when that fails. */
gint64 fixture_ask (Fixture *fixture, const char *sql);
/* A person of those initials, not inserted. (transfer full) */
SwPerson *fixture_person (const char *initials);
/* Inserts one in an act of its own and gives the id. */
gint64 fixture_add_person (Fixture *fixture, const char *initials);

/* In an act: signs the journal's row @seq, with a key that everybody knows. */
void fixture_sign (Fixture *fixture, SwCheckpoint *checkpoint, gint64 seq);

/* Asserts that a full verify finds nothing. */
void fixture_assert_sound (Fixture *fixture);

/* A whole small plant and one finished test with its dose, each record from one act. */
typedef struct
{
  gint64 person, solvent, product, caustic, lot, machine, compartment, point, fill, method, version;
  gint64 calibration, plan, sample, titration, reading, incident, dose, review, decision;
  gint64 sign_in, checkpoint, restoration;
} FixturePlant;
void fixture_plant (Fixture *fixture, FixturePlant *plant);

/* Root may write everything, so root becomes nobody for a while. */
void fixture_drop_rights (void);
void fixture_regain_rights (void);

G_END_DECLS
