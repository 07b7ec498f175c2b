/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Restoring a backup, by an administrator and with a reason. */
#pragma once

#include "records/restore.h"
#include "workflow/rights.h"

G_BEGIN_DECLS

/* sw_backup_restore after asking whether order->actor may (SW_RIGHT_SET_UP) and has a reason. Asked
 * are the people of the file as it stands; where it cannot be read, those of the backup. Errors:
 * SW_WORKFLOW_ERROR, SW_FAULT_ERROR (SW_QUANTITY_REASON), SW_RECORDS_ERROR. */
gboolean sw_restore_run (const SwRestoreOrder *order, const SwClock *clock, GError **error);

G_END_DECLS
