/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The invented plant on a busy morning, and a window on it:
 *
 *   M-03  passed all along, due today
 *   M-07  weeks of tests; acid found this morning, dosed, circulated: a re-test is due
 *   M-11  a test left open with two drops in the flask
 *   M-14  tested this morning: due later
 */
#pragma once

#include "app/window.h"
#include "tests/workflow/scene.h"

G_BEGIN_DECLS

typedef struct
{
  Scene *scene; /* Owned */
  SwTestMachine retest, open, due, later;
  gint64 open_titration, dose;
  const char *trust; /* Borrowed: folder for checkpoints; NULL = none */

  /* Owned; set by busy_plant_open_window */
  SwContext *context;
  SwWindow *window;
} BusyPlant;

BusyPlant *busy_plant_new (void);
/* The same plant with nothing done in it: one machine, never tested. */
BusyPlant *busy_plant_new_quiet (void);
void busy_plant_free (BusyPlant *plant);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BusyPlant, busy_plant_free)

/* A window of that size on the plant, shown; the technician works. The store is the window's from
 * then on. */
SwWindow *busy_plant_open_window (
    BusyPlant *plant, const char *language, int width, int height, gboolean dark);
/* Another person has signed in; 0 = nobody. */
void busy_plant_work_as (BusyPlant *plant, gint64 person);
/* Closes it, and with it the file; another window can be opened. */
void busy_plant_close_window (BusyPlant *plant);

G_END_DECLS
