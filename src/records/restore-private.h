/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A restore that a test may cut short. */
#pragma once

#include "records/restore.h"
#include "records/store-private.h"

G_BEGIN_DECLS

typedef struct
{
  SwStoreOptions store;
  /* Called after each step that left something on the disk, with its number from 1; may not return.
   */
  void (*step) (int number, gpointer data);
  gpointer data;
} SwRestoreOptions;

gboolean sw_backup_restore_with (const SwRestoreOrder *order,
                                 const SwClock *clock,
                                 const SwRestoreOptions *options,
                                 GError **error);

G_END_DECLS
