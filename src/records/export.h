/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an export reads: whole tables, voided rows too, from one moment. */
#pragma once

#include "records/record.h"

G_BEGIN_DECLS

typedef struct
{
  gint64 machine; /* 0 = all */
  gint64 from_ms; /* when the sample was drawn, [from_ms, to_ms); 0 = unbounded */
  gint64 to_ms;
} SwExportFilter;

/* Ids (gint64) of the rows of SW_TABLE_MACHINE, _SAMPLE, _TITRATION, _READING or _DOSE that
 * @filter lets through, in the order in which a person reads them: machines by tag, the rest as
 * they were drawn. Dates do not limit machines. (transfer full) */
GArray *sw_export_ids (SwStore *store, SwTable table, const SwExportFilter *filter, GError **error);

/* From begin to end every question is answered from the state at begin, whatever others write. No
 * act may run. */
gboolean sw_snapshot_begin (SwStore *store, GError **error);
void sw_snapshot_end (SwStore *store);

G_END_DECLS
