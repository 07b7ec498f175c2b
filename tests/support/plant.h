/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An invented plant in a temporary file, with a clock that stands still until the test moves it.
 *
 * One machine of 420 L, tested with the neutraliser itself as titrant: drops of 0.05 mL into 50 mL
 * of sample, so that a drop is worth 420 mL. The jug has marks of 20 mL, the product's limits are
 * 10 mL/L in one addition (4,200 mL) and 60 mL/L in a fill (25,200 mL), circulation takes 45 min.
 * Everything a dose needs is on file; a test that wants something missing takes it away.
 */
#pragma once

#include "records/test.h"
#include "support/support.h"
#include "workflow/rights.h"

G_BEGIN_DECLS

/* 2026-11-24 05:00:00 UTC, an invented Tuesday morning, 06:00 at the plant */
#define SW_TEST_PLANT_START_MS G_GINT64_CONSTANT (1795496400000)
#define SW_TEST_PLANT_OFFSET_MIN 60

#define SW_TEST_MINUTE_MS G_GINT64_CONSTANT (60000)
#define SW_TEST_HOUR_MS (60 * SW_TEST_MINUTE_MS)
#define SW_TEST_DAY_MS (24 * SW_TEST_HOUR_MS)

#define SW_TEST_PLANT_SYSTEM_L 420.0
#define SW_TEST_PLANT_DROP_ML 0.05
#define SW_TEST_PLANT_SAMPLE_ML 50.0
#define SW_TEST_PLANT_JUG_ML 20.0
#define SW_TEST_PLANT_CIRCULATION_MIN 45.0

/* Everybody's secret, hashed as cheaply as the library allows. */
#define SW_TEST_PLANT_SECRET "invented secret"

typedef struct
{
  gint64 machine;
  gint64 point;     /* a basis for doses */
  gint64 separator; /* a point that is none */
  gint64 fill;
  gint64 plan; /* of the plant's method, due at once */
} SwTestMachine;

typedef struct
{
  char *path; /* Owned: of the file; "plant.swlog" in a folder of its own */
  gint64 now_ms;
  int offset_min;
  SwStore *store; /* Owned; a test may close it */

  /* people, all active */
  gint64 technician, colleague, reviewer, administrator, auditor;
  gint64 solvent;
  gint64 neutraliser; /* amine, strength not known */
  gint64 caustic, strips;
  gint64 neutraliser_lot, expired_lot; /* both of the neutraliser */
  gint64 caustic_lot, strip_lot;
  gint64 calibration; /* of drops of the neutraliser */
  gint64 method, version;
  SwTestMachine first; /* tag "M-07" */

  /* Private */
  SwTestFolder *folder;
} SwTestPlant;

/* Asserts that all went well. (transfer full) */
SwTestPlant *sw_test_plant_new (void);
void sw_test_plant_free (SwTestPlant *plant);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwTestPlant, sw_test_plant_free)

/* A clock that shows plant->now_ms; @plant must outlive the store. */
SwClock sw_test_plant_clock (SwTestPlant *plant);
void sw_test_plant_advance (SwTestPlant *plant, double minutes);
/* Closes the file and opens it again, as after the program was started anew. */
void sw_test_plant_reopen (SwTestPlant *plant, SwOpenMode mode);

/* A person of the plant who signed in, as actor; the strings are literals. */
SwActor sw_test_plant_actor (const SwTestPlant *plant, gint64 person);
/* The same as one who signs; 0 = nobody. */
SwSigner sw_test_plant_signer (gint64 person);

/* An act of the administrator around a test's own inserts and updates. */
void sw_test_plant_begin (SwTestPlant *plant, SwActKind kind);
void sw_test_plant_commit (SwTestPlant *plant);

/* A further machine like the first, with points, fill and plan. */
SwTestMachine sw_test_plant_add_machine (SwTestPlant *plant, const char *tag);

G_END_DECLS
