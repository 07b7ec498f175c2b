/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One line of a list of records, in words. Read it with the getters: the first of them loads it. */
#pragma once

#include <gio/gio.h>

#include "app/records/kind-table.h"
#include "app/widgets/verdict.h"
#include "wording/sentence-list.h"

G_BEGIN_DECLS

#define SW_TYPE_RECORD_ITEM (sw_record_item_get_type ())
G_DECLARE_FINAL_TYPE (SwRecordItem, sw_record_item, SW, RECORD_ITEM, GObject)

/* @id is a row of the kind's table, or the first journal seq of an act. */
SwRecordItem *sw_record_item_new (SwContext *context, int kind, gint64 id);

int sw_record_item_get_kind (SwRecordItem *self);
gint64 sw_record_item_get_id (SwRecordItem *self);
/* Never NULL; "" where the record has no such thing. (transfer none) */
const char *sw_record_item_get_when (SwRecordItem *self); /* "2026-05-24 06:20", as wide as any */
const char *sw_record_item_get_machine (SwRecordItem *self); /* the tag */
const char *sw_record_item_get_what (SwRecordItem *self);
const char *sw_record_item_get_detail (SwRecordItem *self); /* what it belongs to, or its code */
const char *sw_record_item_get_person (SwRecordItem *self); /* initials */
const char *sw_record_item_get_state (SwRecordItem *self);  /* the marks in words */
guint sw_record_item_get_marks (SwRecordItem *self);        /* SwMark bits */
/* The shape in front of it; SW_N_VERDICT_KINDS: none. */
SwVerdictKind sw_record_item_get_verdict (SwRecordItem *self);
gint64 sw_record_item_get_machine_id (SwRecordItem *self); /* 0 = none */

/* The next getter loads it anew; emits "changed". The context's "changed" does this by itself. */
void sw_record_item_forget (SwRecordItem *self);
/* How many lines were loaded in this process, for tests of what a list loads. */
guint64 sw_record_item_count_loads (void);

G_END_DECLS
