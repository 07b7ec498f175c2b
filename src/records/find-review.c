/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who took part in a test: whoever did cannot be the second person who reviews it. */
#include "records/store-private.h"
#include "records/test.h"

/* ?1 is the titration, ?2 the person. */
#define AMENDED(table, rows)                                                                       \
  " OR EXISTS (SELECT 1 FROM journal WHERE journal.table_name = '" table "'"                       \
  " AND journal.row_id IN (" rows ") AND journal.kind = 'amend' AND journal.person = ?2)"
#define DID                                                                                        \
  "EXISTS (SELECT 1 FROM titration JOIN sample ON sample.id = titration.sample"                    \
  " WHERE titration.id = ?1"                                                                       \
  " AND ?2 IN (titration.analyst, titration.second_reader, sample.drawn_by))"                      \
  " OR EXISTS (SELECT 1 FROM reading WHERE titration = ?1 AND reader = ?2)"                        \
  " OR EXISTS (SELECT 1 FROM dose WHERE titration = ?1 AND added_by = ?2)"
#define AMENDED_TITRATION AMENDED ("titration", "?1")
#define AMENDED_SAMPLE AMENDED ("sample", "SELECT sample FROM titration WHERE id = ?1")
#define AMENDED_READING AMENDED ("reading", "SELECT id FROM reading WHERE titration = ?1")
#define AMENDED_DOSE AMENDED ("dose", "SELECT id FROM dose WHERE titration = ?1")

gboolean
sw_titration_took_part (
    SwStore *store, gint64 titration, gint64 person, gboolean *took_part, GError **error)
{
  const SwCell keys[] = { sw_cell_integer (titration), sw_cell_integer (person) };
  gint64 found = 0;

  g_return_val_if_fail (store != NULL && took_part != NULL, FALSE);
  if (!sw_sql_integer (store,
                       "SELECT " DID AMENDED_TITRATION AMENDED_SAMPLE AMENDED_READING AMENDED_DOSE,
                       keys, G_N_ELEMENTS (keys), &found, error))
    return FALSE;
  *took_part = found != 0;
  return TRUE;
}

GArray *
sw_titration_ids_of_person (SwStore *store, gint64 person, GError **error)
{
  const SwCell key = sw_cell_integer (person);

  g_return_val_if_fail (store != NULL, NULL);
  return sw_sql_ids (store,
                     "SELECT id FROM titration WHERE ?1 IN (analyst, second_reader)"
                     " OR sample IN (SELECT id FROM sample WHERE drawn_by = ?1)"
                     " OR id IN (SELECT titration FROM reading WHERE reader = ?1)"
                     " OR id IN (SELECT titration FROM dose WHERE added_by = ?1) ORDER BY id",
                     &key, 1, error);
}
