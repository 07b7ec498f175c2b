/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The kinds of record that the Records page lists, in the order of its drop-down. */
#pragma once

#include "app/context.h"
#include "records/browse.h"

G_BEGIN_DECLS

/* Not a table: the journal, one line per act. */
#define SW_KIND_JOURNAL SW_N_TABLES

typedef struct
{
  int kind;            /* SwTable, or SW_KIND_JOURNAL */
  const char *group;   /* a heading that begins here, or NULL; untranslated */
  const char *section; /* of the set-up, where such a record is changed; NULL = none */
} SwKind;

extern const SwKind sw_kinds[];
extern const guint sw_n_kinds;

/* "Tests" (transfer none) */
const char *sw_kind_name (const SwWording *wording, const SwKind *kind);
/* Never NULL for a table of this program. (transfer none) */
const SwKind *sw_kind_find (int kind);
/* Whether records of the kind have a machine, an outcome: else such a filter finds nothing. */
gboolean sw_kind_has_machine (int kind);
gboolean sw_kind_has_outcome (int kind);
/* "1 204 tests" (transfer full) */
char *sw_kind_count (const SwWording *wording, int kind, guint n);

G_END_DECLS
