/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file of two days with two checkpoints, and what verify says about it. */
#pragma once

#include "fixture.h"
#include "forger.h"
#include "records/checkpoint-private.h"
#include "records/verify.h"

G_BEGIN_DECLS

#define DAY_MS G_GINT64_CONSTANT (86400000)

/* Yesterday four people and a checkpoint; today twelve people, an export, a checkpoint; then one
 * more that nobody has signed for yet. */
typedef struct
{
  Fixture file;
  char *trust;     /* Owned: the trust folder */
  char *yesterday; /* Owned: a copy of the file as it was */
  char *exported;  /* Owned: the head that the export printed */
  gint64 first_seq;
  gint64 second_seq; /* signed today */
  gint64 last_seq;
} AttackBench;

/* For g_test_add. */
void attack_set_up (AttackBench *bench, gconstpointer data);
void attack_tear_down (AttackBench *bench, gconstpointer data);

/* Signs the head of the open file, which must be needed. */
gint64 attack_sign (AttackBench *bench);
void attack_add_people (AttackBench *bench, const char *initials, guint n);
/* Yesterday's copy in the place of the closed file. */
void attack_put_back (AttackBench *bench);

/* Of the closed file. (transfer full) */
SwVerifyReport *attack_verify (AttackBench *bench, const SwVerifyOptions *options);
/* NULL when there is none. */
const SwFinding *attack_find (GPtrArray *findings, SwFindingKind kind);
/* It must be there. */
const SwFinding *attack_get (GPtrArray *findings, SwFindingKind kind);
/* @kind -1: nothing is found. */
void attack_assert_finds (AttackBench *bench, const SwVerifyOptions *options, int kind);

G_END_DECLS
