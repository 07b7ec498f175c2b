/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The set-up of the tests that ask the file questions: a small plant, sound at the end of each. */
#pragma once

#include "fixture.h"

G_BEGIN_DECLS

#define DAY_MS G_GINT64_CONSTANT (86400000)

typedef struct
{
  Fixture base;
  FixturePlant plant;
} Plant;

#define STORE(plant) ((plant)->base.store)

/* For g_test_add. */
void plant_set_up (Plant *plant, gconstpointer data);
void plant_tear_down (Plant *plant, gconstpointer data);

/* "3 1" for the ids 3 and 1, in their order; frees the array. */
void assert_ids (GArray *ids, const char *expected);
/* Inside of an act; the id. */
gint64 add_machine (Plant *plant, const char *tag);

G_END_DECLS
