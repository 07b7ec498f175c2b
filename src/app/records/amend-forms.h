/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The forms that amend a record of a test: one table of fields per kind of record. */
#pragma once

#include "app/setup/record-editor.h"

G_BEGIN_DECLS

typedef struct
{
  SwTable table;
  const SwFormSpec *fields;
  guint n_fields;
  const SwRecordOps *ops;
  /* actor->reason is the reason. */
  gboolean (*amend) (SwStore *store, const SwActor *actor, gpointer record, GError **error);
} SwAmendSpec;

/* NULL: such a record has no form here. (transfer none) */
const SwAmendSpec *sw_amend_spec_find (SwTable table);

G_END_DECLS
