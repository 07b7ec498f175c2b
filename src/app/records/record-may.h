/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the person at the bench may do with a record now, and why not. */
#pragma once

#include "app/records/kind-table.h"

G_BEGIN_DECLS

typedef struct
{
  gboolean applies; /* there is such a thing for this kind of record */
  gboolean may;
  char *why; /* Owned: a sentence when not; else NULL */
} SwMay;

typedef struct
{
  SwMay review;
  SwMay amend;
  SwMay voiding;
  char *words; /* Owned: all the reasons, each once; "" for none */
} SwRecordMay;

/* Whoever is not signed in may press all the same: the button asks who works. (transfer full) */
SwRecordMay *sw_record_may_ask (SwContext *context, int kind, gint64 id);
void sw_record_may_free (SwRecordMay *may);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRecordMay, sw_record_may_free)

/* The section of the set-up where a record is changed, and which record is opened there; NULL = it
 * is amended on its own page. (transfer none) */
const char *sw_record_may_section (SwContext *context, int kind, gint64 id, gint64 *section_id);

G_END_DECLS
