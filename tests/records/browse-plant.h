/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file with rows in every table, made by a seeded random hand: late ones, amended ones, voided
 * ones, signatures before and after amendments. */
#pragma once

#include "fixture.h"

G_BEGIN_DECLS

#define BROWSE_DAY_MS G_GINT64_CONSTANT (86400000)
#define BROWSE_DAYS 40 /* rows happened up to so many days before FIXTURE_START_MS */

typedef struct
{
  Fixture base;
  FixturePlant plant;
  GRand *rand;    /* Owned */
  gint64 last_id; /* of the row inserted last */
  gint64 people[4], machines[3], products[3];
} BrowsePlant;

void browse_plant_make (BrowsePlant *plant);
void browse_plant_clear (BrowsePlant *plant);

G_END_DECLS
