/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A machine's history from the file: signed tests, added doses, fills and incidents. */
#include "workflow/due.h"

#include "workflow/check-private.h"
#include "workflow/result-private.h"

typedef struct
{
  SwStore *store;
  SwHistory *history; /* Borrowed */
  SwMachine *machine; /* Owned */
  double product_mmol_ml;
  GHashTable *itself; /* Owned: method version id -> whether its titrant is the product */
  gint64 oldest_ms;   /* of the tests shown; 0 = all there are */
} Work;

/* ---- tests ---- */

static gboolean
is_product_itself (Work *work, gint64 version_id, gboolean *itself, GError **error)
{
  g_autoptr (SwMethodVersion) version = NULL;
  gpointer known;

  if (g_hash_table_lookup_extended (work->itself, &version_id, NULL, &known))
    {
      *itself = GPOINTER_TO_INT (known);
      return TRUE;
    }
  version = sw_method_version_load (work->store, version_id, error);
  if (version == NULL)
    return FALSE;
  *itself = version->titrant != 0 && version->titrant == work->machine->neutraliser;
  g_hash_table_insert (work->itself, g_memdup2 (&version_id, sizeof version_id),
                       GINT_TO_POINTER (*itself));
  return TRUE;
}

static gboolean
add_test (Work *work, gint64 id, GError **error)
{
  g_autoptr (SwTitration) titration = sw_titration_load (work->store, id, error);
  g_autoptr (SwSample) sample = NULL;
  SwHistoryTest test;
  gboolean itself;

  if (titration == NULL || titration->signed_ms == 0)
    return titration != NULL;
  sample = sw_sample_load (work->store, titration->sample, error);
  if (sample == NULL)
    return FALSE;
  if (sample->purpose == SW_PURPOSE_CONTROL)
    return TRUE;
  if (!is_product_itself (work, titration->method_version, &itself, error))
    return FALSE;
  test = (SwHistoryTest){ .at_ms = sample->record.happened_ms,
                          .titration = id,
                          .kind = titration->outcome,
                          .net = { titration->net_low, titration->net_high },
                          .per_step = sw_result_per_step (titration, itself, work->product_mmol_ml),
                          .retest = sample->purpose == SW_PURPOSE_RETEST };
  g_array_append_val (work->history->tests, test);
  return TRUE;
}

/* The file gives the newest first, the history is the other way round. */
static gboolean
add_tests (Work *work, guint limit, GError **error)
{
  g_autoptr (GArray) ids
      = sw_titration_closed_ids (work->store, work->machine->record.id, 0, 0, limit, error);

  if (ids == NULL)
    return FALSE;
  for (guint i = ids->len; i > 0; i--)
    if (!add_test (work, g_array_index (ids, gint64, i - 1), error))
      return FALSE;
  if (limit != 0 && ids->len == limit && work->history->tests->len > 0)
    work->oldest_ms = g_array_index (work->history->tests, SwHistoryTest, 0).at_ms;
  return TRUE;
}

/* ---- doses ---- */

static int
compare_dose_cb (gconstpointer a, gconstpointer b)
{
  const SwHistoryDose *one = a;
  const SwHistoryDose *other = b;

  return (one->at_ms > other->at_ms) - (one->at_ms < other->at_ms);
}

static gboolean
add_doses (Work *work, GError **error)
{
  g_autoptr (GArray) ids
      = sw_dose_ids_in_state (work->store, work->machine->record.id, SW_DOSE_ADDED, error);

  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwDoseRow) row
          = sw_dose_row_load (work->store, g_array_index (ids, gint64, i), error);
      SwHistoryDose dose;

      if (row == NULL)
        return FALSE;
      if (row->added_ms < work->oldest_ms)
        continue;
      dose = (SwHistoryDose){ .at_ms = row->added_ms,
                              .dose = row->record.id,
                              .added_ml = row->added.value,
                              .steps = row->added.value / row->per_step_ml };
      g_array_append_val (work->history->doses, dose);
    }
  g_array_sort (work->history->doses, compare_dose_cb);
  return TRUE;
}

/* ---- events ---- */

static int
compare_event_cb (gconstpointer a, gconstpointer b)
{
  const SwHistoryEvent *one = a;
  const SwHistoryEvent *other = b;

  return (one->at_ms > other->at_ms) - (one->at_ms < other->at_ms);
}

static void
add_event (Work *work, SwHistoryEventKind kind, gint64 row, gint64 at_ms)
{
  SwHistoryEvent event = { .at_ms = at_ms, .kind = kind, .row = row };

  if (at_ms >= work->oldest_ms)
    g_array_append_val (work->history->events, event);
}

static gboolean
add_fills (Work *work, GError **error)
{
  g_autoptr (GArray) ids
      = sw_record_ids (work->store, SW_TABLE_FILL, "machine", work->machine->record.id, error);

  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwFill) fill = sw_fill_load (work->store, g_array_index (ids, gint64, i), error);

      if (fill == NULL)
        return FALSE;
      add_event (work, SW_HISTORY_FILL, fill->record.id, fill->record.happened_ms);
    }
  return TRUE;
}

static gboolean
add_incidents (Work *work, GError **error)
{
  g_autoptr (GArray) ids
      = sw_record_ids (work->store, SW_TABLE_INCIDENT, "machine", work->machine->record.id, error);

  if (ids == NULL)
    return FALSE;
  for (guint i = 0; i < ids->len; i++)
    {
      g_autoptr (SwIncident) incident
          = sw_incident_load (work->store, g_array_index (ids, gint64, i), error);

      if (incident == NULL)
        return FALSE;
      add_event (work, SW_HISTORY_INCIDENT, incident->record.id, incident->record.happened_ms);
    }
  return TRUE;
}

/* ---- what comes next ---- */

static gboolean
fill_due (Work *work, GError **error)
{
  SwMachineState state;
  g_autoptr (SwPlan) plan = NULL;
  g_autoptr (SwMethodVersion) version = NULL;
  GError *failure = NULL;
  gint64 id;

  if (!sw_machine_state (work->store, work->machine->record.id, work->history->now_ms, &state,
                         error))
    return FALSE;
  work->history->due_ms = state.due_ms;
  if (state.plan == 0)
    return TRUE;
  plan = sw_plan_load (work->store, state.plan, error);
  if (plan == NULL)
    return FALSE;
  id = sw_method_latest_version (work->store, plan->method, &failure);
  if (!sw_answered (failure, error))
    return FALSE;
  version = id != 0 ? sw_method_version_load (work->store, id, error) : NULL;
  if (version != NULL)
    work->history->burette = version->burette;
  return id == 0 || version != NULL;
}

static gboolean
load_machine (Work *work, gint64 machine, GError **error)
{
  g_autoptr (SwProduct) product = NULL;

  work->machine = sw_machine_load (work->store, machine, error);
  if (work->machine == NULL || work->machine->neutraliser == 0)
    return work->machine != NULL;
  product = sw_product_load (work->store, work->machine->neutraliser, error);
  if (product == NULL)
    return FALSE;
  work->product_mmol_ml = product->strength_mmol_ml;
  return TRUE;
}

SwHistory *
sw_machine_history (SwStore *store, gint64 machine, gint64 now_ms, guint limit, GError **error)
{
  g_autoptr (SwHistory) history = sw_history_new ();
  g_autoptr (GHashTable) itself = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  Work work = { .store = store, .history = history, .product_mmol_ml = NAN, .itself = itself };
  gboolean done;

  g_return_val_if_fail (store != NULL, NULL);
  history->now_ms = now_ms;
  done = load_machine (&work, machine, error) && add_tests (&work, limit, error)
         && add_doses (&work, error) && add_fills (&work, error) && add_incidents (&work, error)
         && fill_due (&work, error);
  sw_machine_free (work.machine);
  if (!done)
    return NULL;
  g_array_sort (history->events, compare_event_cb);
  return g_steal_pointer (&history);
}
