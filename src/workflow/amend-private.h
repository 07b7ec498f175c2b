/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The start of every amendment: what differs, and whether it may. */
#pragma once

#include "workflow/correction-private.h"

G_BEGIN_DECLS

typedef enum
{
  SW_AMEND_FAILED,
  SW_AMEND_SAME, /* nothing differs: nothing is written */
  SW_AMEND_GO    /* the act runs, the person may, the machine is watched */
} SwAmendStart;

/* @old: the row as the file has it, @row as it should read; @columns may differ, NULL-terminated.
 * @sample NULL: nothing about the machine follows. */
SwAmendStart sw_amend_start (SwCorrection *correction,
                             SwStore *store,
                             const SwActor *actor,
                             SwTable table,
                             gconstpointer old,
                             gconstpointer row,
                             const char *const *columns,
                             const SwSample *sample,
                             GError **error);

/* "" is no text. */
void sw_amend_drop_blank (char **text);
/* A lot that was good for @product (0: any product of @use) when it was used: what was used up or
 * has expired since is no matter, what had expired then needs @reason. 0 is none. */
gboolean sw_amend_check_lot (SwStore *store,
                             gint64 lot,
                             gint64 product,
                             SwProductUse use,
                             gint64 used_ms,
                             const char *reason,
                             GError **error);
/* A person who can be named: on file, and not out of use. 0 is nobody. */
gboolean sw_amend_check_person (SwStore *store, gint64 person, GError **error);

G_END_DECLS
