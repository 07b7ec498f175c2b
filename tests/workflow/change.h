/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes one member of one row of the scene's plant in an act of its own:
 *   CHANGE (scene, SwMachine, sw_machine, scene->machine.machine, row->circulation_min = NAN); */
#pragma once

#include "scene.h"

#define CHANGE(scene, Type, prefix, id, change)                                                    \
  G_STMT_START                                                                                     \
  {                                                                                                \
    GError *failure = NULL;                                                                        \
    Type *row = prefix##_load ((scene)->plant->store, id, &failure);                               \
                                                                                                   \
    g_assert_no_error (failure);                                                                   \
    change;                                                                                        \
    sw_test_plant_begin ((scene)->plant, SW_ACT_AMEND);                                            \
    prefix##_update ((scene)->plant->store, row, &failure);                                        \
    g_assert_no_error (failure);                                                                   \
    sw_test_plant_commit ((scene)->plant);                                                         \
    prefix##_free (row);                                                                           \
  }                                                                                                \
  G_STMT_END

/* Inserts a row in an act of its own; @inserted takes its id. */
#define INSERT_ROW(scene, Type, prefix, inserted, fill)                                            \
  G_STMT_START                                                                                     \
  {                                                                                                \
    GError *failure = NULL;                                                                        \
    Type *row = prefix##_new ();                                                                   \
                                                                                                   \
    fill;                                                                                          \
    sw_test_plant_begin ((scene)->plant, SW_ACT_SETUP);                                            \
    prefix##_insert ((scene)->plant->store, row, &failure);                                        \
    g_assert_no_error (failure);                                                                   \
    sw_test_plant_commit ((scene)->plant);                                                         \
    inserted = row->record.id;                                                                     \
    prefix##_free (row);                                                                           \
  }                                                                                                \
  G_STMT_END
