/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a record is made of, and what it belongs to: other records, with what they are to it. */
#pragma once

#include "app/records/kind-table.h"
#include "records/story.h"

G_BEGIN_DECLS

typedef struct
{
  const char
      *relation; /* "Sample"; untranslated, context "part of a record"; NULL: the kind's name */
  int kind;
  gint64 id;
} SwLink;

/* Element SwLink, in the order in which a person reads them; @chapters is the record's story.
 * (transfer full) */
GArray *sw_record_links_parts (SwContext *context, SwTable table, gint64 id, GPtrArray *chapters);
GArray *sw_record_links_owners (SwTable table, GPtrArray *chapters);

G_END_DECLS
