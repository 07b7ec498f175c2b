/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Taking a record out of use: whether, and by whom (amend.h). */
#include "workflow/void-private.h"

#include "workflow/guided.h"

/* Kinds of records that are what happened, and go with nothing but the file. */
static gboolean
is_lasting (SwTable table)
{
  return table == SW_TABLE_SITE || table == SW_TABLE_READING || table == SW_TABLE_DECISION
         || table >= SW_TABLE_SIGN_IN;
}

static gboolean
is_test (SwTable table)
{
  return table == SW_TABLE_SAMPLE || table == SW_TABLE_TITRATION || table == SW_TABLE_DOSE;
}

/* A second person may take back what was signed by mistake; who did the test amends it instead. */
static gboolean
check_review (SwStore *store, const SwActor *actor, gint64 id, GError **error)
{
  g_autoptr (SwReview) review = sw_review_load (store, id, error);

  if (review == NULL)
    return FALSE;
  if (review->meaning != SW_MEANING_REVIEWED)
    return sw_correction_refuse (SW_FACT_NEVER_VOIDED, NULL, error);
  return sw_right_check (store, actor, SW_RIGHT_REVIEW, error);
}

static gboolean
check_by_table (SwStore *store, const SwActor *actor, SwTable table, gint64 id, GError **error)
{
  if (is_test (table))
    return sw_correction_check_void_test (store, actor, table, id, error);
  if (table == SW_TABLE_REVIEW)
    return check_review (store, actor, id, error);
  if (table == SW_TABLE_INCIDENT)
    return sw_right_check (store, actor, SW_RIGHT_REVIEW, error)
           && sw_void_check_incident (store, id, error);
  return sw_correction_check_set_up (store, actor, table, error)
         && sw_void_check_unused (store, table, id, error);
}

static gboolean
check_void (SwStore *store, const SwActor *actor, SwTable table, gint64 id, GError **error)
{
  if (is_lasting (table))
    return sw_correction_refuse (SW_FACT_NEVER_VOIDED, NULL, error);
  return sw_correction_check_in_use (store, table, id, error)
         && check_by_table (store, actor, table, id, error);
}

gboolean
sw_void_may (
    SwStore *store, const SwActor *actor, SwTable table, gint64 id, SwFact *refusal, GError **error)
{
  GError *failure = NULL;

  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  check_void (store, actor, table, id, &failure);
  return sw_correction_answer (failure, refusal, error);
}

static gboolean
write_void (SwCorrection *correction, SwTable table, gint64 id, GError **error)
{
  if (is_test (table) || table == SW_TABLE_INCIDENT)
    return sw_void_test (correction, table, id, error);
  return sw_void_with_parts (correction->store, table, id, error);
}

gboolean
sw_void_record (SwStore *store, const SwActor *actor, SwTable table, gint64 id, GError **error)
{
  g_auto (SwCorrection) correction = { 0 };

  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  g_return_val_if_fail ((int)table >= 0 && table < SW_N_TABLES, FALSE);
  return sw_correction_begin (&correction, store, actor, SW_ACT_VOID, error)
         && check_void (store, actor, table, id, error)
         && write_void (&correction, table, id, error) && sw_correction_finish (&correction, error);
}

/* ---- undo ---- */

/* The texts that no two rows may share, out of use or not. */
static const struct
{
  SwTable table;
  gsize offset;
} unique[] = {
  { SW_TABLE_PERSON, G_STRUCT_OFFSET (SwPerson, initials) },
  { SW_TABLE_SOLVENT, G_STRUCT_OFFSET (SwSolvent, name) },
  { SW_TABLE_PRODUCT, G_STRUCT_OFFSET (SwProduct, name) },
  { SW_TABLE_LOT, G_STRUCT_OFFSET (SwLot, code) },
  { SW_TABLE_MACHINE, G_STRUCT_OFFSET (SwMachine, tag) },
  { SW_TABLE_METHOD, G_STRUCT_OFFSET (SwMethod, name) },
};

static gboolean
number_text (SwStore *store, SwTable table, gint64 id, gsize offset, GError **error)
{
  gpointer row = sw_record_load (store, table, id, error);
  gboolean written;
  char **text;
  char *numbered;

  if (row == NULL)
    return FALSE;
  text = (char **)(gpointer)((char *)row + offset);
  numbered = g_strdup_printf ("%s ~%" G_GINT64_FORMAT, *text, id);
  g_free (*text);
  *text = numbered;
  written = sw_record_update (store, table, row, error);
  sw_record_free (table, row);
  return written;
}

/* What was undone is about to be typed again, mostly with the same name. */
static gboolean
free_name (SwStore *store, SwTable table, gint64 id, GError **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (unique); i++)
    if (unique[i].table == table)
      return number_text (store, table, id, unique[i].offset, error);
  return TRUE;
}

gboolean
sw_undo_record (SwStore *store, const SwActor *actor, SwTable table, gint64 id, GError **error)
{
  g_auto (SwCorrection) correction = { 0 };
  SwActor undoing;

  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  g_return_val_if_fail ((int)table >= 0 && table < SW_N_TABLES, FALSE);
  undoing = *actor;
  undoing.reason = SW_UNDO_REASON;
  return sw_correction_begin (&correction, store, &undoing, SW_ACT_VOID, error)
         && check_void (store, &undoing, table, id, error) && free_name (store, table, id, error)
         && write_void (&correction, table, id, error) && sw_correction_finish (&correction, error);
}
