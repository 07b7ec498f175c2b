/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One line per kind of record. What an auditor asks for most often comes first; every table of the
 * file is here, so that nothing is kept where nobody can look. */
#include "app/records/kind-table.h"

#include <glib/gi18n.h>

#include "wording/sentence-list.h"
#include "wording/sentence-record.h"

/* clang-format off */
const SwKind sw_kinds[] = {
  /* Translators: headings in the list of kinds of record. */
  { SW_TABLE_TITRATION, NC_ ("kinds of record", "Work"), NULL },
  { SW_TABLE_DOSE, NULL, NULL },
  { SW_TABLE_INCIDENT, NULL, NULL },
  { SW_TABLE_SAMPLE, NULL, NULL },
  { SW_TABLE_READING, NULL, NULL },
  { SW_TABLE_REVIEW, NULL, NULL },
  { SW_TABLE_DECISION, NULL, NULL },
  { SW_KIND_JOURNAL, NC_ ("kinds of record", "Journal"), NULL },
  { SW_TABLE_MACHINE, NC_ ("kinds of record", "Plant"), "machines" },
  { SW_TABLE_COMPARTMENT, NULL, "machines" },
  { SW_TABLE_SAMPLING_POINT, NULL, "machines" },
  { SW_TABLE_FILL, NULL, "machines" },
  { SW_TABLE_PLAN, NULL, "machines" },
  { SW_TABLE_LOT, NC_ ("kinds of record", "Liquids"), "lots" },
  { SW_TABLE_PRODUCT, NULL, "products" },
  { SW_TABLE_SOLVENT, NULL, "solvents" },
  { SW_TABLE_METHOD, NC_ ("kinds of record", "Testing"), "methods" },
  { SW_TABLE_METHOD_VERSION, NULL, "methods" },
  { SW_TABLE_COLOUR_FIELD, NULL, "methods" },
  { SW_TABLE_METHOD_TEXT, NULL, "methods" },
  { SW_TABLE_CALIBRATION, NULL, "droppers" },
  { SW_TABLE_PERSON, NC_ ("kinds of record", "People and File"), "people" },
  { SW_TABLE_SIGN_IN, NULL, NULL },
  { SW_TABLE_SITE, NULL, "site" },
  { SW_TABLE_SETTING, NULL, NULL },
  { SW_TABLE_CHECKPOINT, NULL, NULL },
  { SW_TABLE_RESTORATION, NULL, NULL },
};
/* clang-format on */
const guint sw_n_kinds = G_N_ELEMENTS (sw_kinds);

const SwKind *
sw_kind_find (int kind)
{
  for (guint i = 0; i < sw_n_kinds; i++)
    if (sw_kinds[i].kind == kind)
      return &sw_kinds[i];
  g_return_val_if_reached (&sw_kinds[0]);
}

gboolean
sw_kind_has_machine (int kind)
{
  switch (kind)
    {
    case SW_TABLE_TITRATION:
    case SW_TABLE_DOSE:
    case SW_TABLE_INCIDENT:
    case SW_TABLE_SAMPLE:
    case SW_TABLE_READING:
    case SW_TABLE_REVIEW:
    case SW_TABLE_DECISION:
    case SW_TABLE_MACHINE:
    case SW_TABLE_COMPARTMENT:
    case SW_TABLE_SAMPLING_POINT:
    case SW_TABLE_FILL:
    case SW_TABLE_PLAN:
    case SW_KIND_JOURNAL:
      return TRUE;
    default:
      return FALSE;
    }
}

gboolean
sw_kind_has_outcome (int kind)
{
  switch (kind)
    {
    case SW_TABLE_TITRATION:
    case SW_TABLE_DOSE:
    case SW_TABLE_INCIDENT:
    case SW_TABLE_SAMPLE:
    case SW_TABLE_READING:
    case SW_TABLE_REVIEW:
    case SW_TABLE_DECISION:
    case SW_KIND_JOURNAL:
      return TRUE;
    default:
      return FALSE;
    }
}

const char *
sw_kind_name (const SwWording *wording, const SwKind *kind)
{
  return kind->kind == SW_KIND_JOURNAL
             ? sw_trc (wording, "kind of record", NC_ ("kind of record", "Every act"))
             : sw_say_tables (wording, sw_table_name ((SwTable)kind->kind));
}

char *
sw_kind_count (const SwWording *wording, int kind, guint n)
{
  return kind == SW_KIND_JOURNAL ? sw_say_act_count (wording, n)
                                 : sw_say_table_count (wording, sw_table_name ((SwTable)kind), n);
}
