/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asks workflow what may be done with a record. */
#include "app/records/record-may.h"

#include "app/plant-words.h"
#include "app/records/amend-forms.h"
#include "wording/sentence-list.h"
#include "workflow/amend.h"
#include "workflow/review.h"

typedef gboolean (*MayFunction) (SwStore *store,
                                 const SwActor *actor,
                                 SwTable table,
                                 gint64 id,
                                 SwFact *refusal,
                                 GError **error);

static gboolean
may_review (
    SwStore *store, const SwActor *actor, SwTable table, gint64 id, SwFact *refusal, GError **error)
{
  return sw_review_may (store, actor, id, refusal, error);
}

/* Who works is asked when the button is pressed. */
static gboolean
is_about_signing_in (const SwFact *refusal)
{
  return refusal->code == SW_FACT_NOBODY || refusal->code == SW_FACT_NEEDS_SECRET;
}

static SwMay
ask (SwContext *context, SwTable table, gint64 id, MayFunction function)
{
  SwStore *store = sw_context_get_store (context);
  const SwWording *wording = sw_context_get_wording (context);
  SwFact refusal = sw_fact (SW_FACT_NONE);
  g_autoptr (GError) error = NULL;

  if (sw_store_is_read_only (store))
    {
      refusal = sw_fact (SW_FACT_READ_ONLY);
      return (SwMay){ .applies = TRUE, .why = sw_say_fact (wording, &refusal) };
    }
  if (function (store, sw_context_get_actor (context), table, id, &refusal, &error)
      || (error == NULL && is_about_signing_in (&refusal)))
    return (SwMay){ .applies = TRUE, .may = TRUE };
  return (SwMay){ .applies = TRUE,
                  .why = error != NULL ? sw_plant_say_error (wording, error)
                                       : sw_say_fact (wording, &refusal) };
}

/* One line per reason: "Review, Amend: only a reviewer may ...". */
static char *
say_reasons (const SwWording *wording, const SwRecordMay *may)
{
  const SwMay *const deeds[] = { &may->review, &may->amend, &may->voiding };
  const char *const names[]
      = { sw_trc (wording, "deed", "Review"), sw_trc (wording, "deed", "Amend"),
          sw_trc (wording, "deed", "Void") };
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < G_N_ELEMENTS (deeds); i++)
    {
      const char *same[G_N_ELEMENTS (deeds)] = { NULL };
      gboolean said = FALSE;

      for (guint j = 0; j < G_N_ELEMENTS (deeds); j++)
        if (deeds[i]->why != NULL && g_strcmp0 (deeds[i]->why, deeds[j]->why) == 0)
          {
            said = said || j < i;
            same[j] = names[j];
          }
      if (deeds[i]->why == NULL || said)
        continue;
      g_autofree char *who = sw_say_listed (wording, same, G_N_ELEMENTS (same));
      g_ptr_array_add (lines, sw_say_total (wording, who, deeds[i]->why));
    }
  g_ptr_array_add (lines, NULL);
  return g_strjoinv ("\n", (char **)lines->pdata);
}

/* Kinds that can be taken out of use by themselves. */
static gboolean
can_be_voided (int kind)
{
  switch (kind)
    {
    case SW_TABLE_SAMPLE:
    case SW_TABLE_TITRATION:
    case SW_TABLE_DOSE:
    case SW_TABLE_INCIDENT:
    case SW_TABLE_REVIEW:
      return TRUE;
    default:
      return sw_kind_find (kind)->section != NULL && kind != SW_TABLE_SITE;
    }
}

SwRecordMay *
sw_record_may_ask (SwContext *context, int kind, gint64 id)
{
  SwRecordMay *may = g_new0 (SwRecordMay, 1);

  if (kind != SW_KIND_JOURNAL && id != 0)
    {
      SwTable table = (SwTable)kind;

      if (kind == SW_TABLE_TITRATION)
        may->review = ask (context, table, id, may_review);
      if (sw_amend_spec_find (table) != NULL || sw_kind_find (kind)->section != NULL)
        may->amend = ask (context, table, id, sw_amend_may);
      if (can_be_voided (kind))
        may->voiding = ask (context, table, id, sw_void_may);
    }
  may->words = say_reasons (sw_context_get_wording (context), may);
  return may;
}

void
sw_record_may_free (SwRecordMay *may)
{
  if (may == NULL)
    return;
  g_free (may->review.why);
  g_free (may->amend.why);
  g_free (may->voiding.why);
  g_free (may->words);
  g_free (may);
}

/* ---- set-up ---- */

/* What is a part of a machine or of a method is changed on its form. */
static gint64
find_owner (SwStore *store, int kind, gint64 id)
{
  g_autoptr (SwBrowseRow) row = NULL;
  g_autoptr (SwMethodVersion) version = NULL;

  switch (kind)
    {
    case SW_TABLE_COMPARTMENT:
    case SW_TABLE_SAMPLING_POINT:
    case SW_TABLE_FILL:
    case SW_TABLE_PLAN:
      row = sw_browse_load (store, (SwTable)kind, id, NULL);
      return row != NULL ? row->machine : 0;
    case SW_TABLE_METHOD_VERSION:
      version = sw_method_version_load (store, id, NULL);
      return version != NULL ? version->method : 0;
    default:
      return id;
    }
}

const char *
sw_record_may_section (SwContext *context, int kind, gint64 id, gint64 *section_id)
{
  const char *section = kind != SW_KIND_JOURNAL ? sw_kind_find (kind)->section : NULL;

  *section_id = section != NULL ? find_owner (sw_context_get_store (context), kind, id) : 0;
  return *section_id != 0 ? section : NULL;
}
