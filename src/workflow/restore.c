/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who may restore a backup. Nothing is signed here: the window asks for the secret while the file
 * is still open, and hands over how the person was identified. */
#include "workflow/restore.h"

#include "calc/fault.h"

#include <math.h>

/* The people of a file that anybody could put there must not decide over a file that has its own.
 */
static gboolean
check_right (const SwRestoreOrder *order, const SwClock *clock, GError **error)
{
  g_autoptr (SwStore) file = sw_store_open (order->path, SW_OPEN_READ_ONLY, clock, NULL);
  g_autoptr (SwStore) backup = NULL;

  if (file != NULL)
    return sw_right_check (file, &order->actor, SW_RIGHT_SET_UP, error);
  backup = sw_store_open (order->backup, SW_OPEN_READ_ONLY, clock, error);
  return backup != NULL && sw_right_check (backup, &order->actor, SW_RIGHT_SET_UP, error);
}

static gboolean
check_reason (const SwRestoreOrder *order, GError **error)
{
  const SwFault fault = { .code = SW_FAULT_MISSING,
                          .quantity = SW_QUANTITY_REASON,
                          .value = NAN,
                          .low = -INFINITY,
                          .high = INFINITY };

  if (order->actor.reason != NULL && *order->actor.reason != '\0')
    return TRUE;
  return sw_fault_set (error, &fault);
}

gboolean
sw_restore_run (const SwRestoreOrder *order, const SwClock *clock, GError **error)
{
  g_return_val_if_fail (order != NULL && order->path != NULL && order->backup != NULL, FALSE);
  return check_reason (order, error) && check_right (order, clock, error)
         && sw_backup_restore (order, clock, error);
}
