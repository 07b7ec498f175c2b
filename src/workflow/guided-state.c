/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The state of a guided test, loaded from the file. */
#include "workflow/guided-private.h"

static gpointer
load_field_cb (SwStore *store, gint64 id, GError **error)
{
  return sw_colour_field_load (store, id, error);
}

static gpointer
load_point_cb (SwStore *store, gint64 id, GError **error)
{
  return sw_sampling_point_load (store, id, error);
}

/* Rows of @table that belong to @owner, unsorted. (transfer full) */
static GPtrArray *
load_list (SwStore *store,
           SwTable table,
           const char *column,
           gint64 owner,
           gpointer (*load_cb) (SwStore *, gint64, GError **),
           GDestroyNotify free_cb,
           GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, table, column, owner, error);
  g_autoptr (GPtrArray) rows = g_ptr_array_new_with_free_func (free_cb);

  if (ids == NULL)
    return NULL;
  for (guint i = 0; i < ids->len; i++)
    {
      gpointer row = load_cb (store, g_array_index (ids, gint64, i), error);

      if (row == NULL)
        return NULL;
      g_ptr_array_add (rows, row);
    }
  return g_steal_pointer (&rows);
}

static int
compare_field_cb (gconstpointer a, gconstpointer b)
{
  const SwColourField *one = *(SwColourField *const *)a;
  const SwColourField *other = *(SwColourField *const *)b;

  return (one->rank > other->rank) - (one->rank < other->rank);
}

static int
compare_point_cb (gconstpointer a, gconstpointer b)
{
  const SwSamplingPoint *one = *(SwSamplingPoint *const *)a;
  const SwSamplingPoint *other = *(SwSamplingPoint *const *)b;

  return (one->rank > other->rank) - (one->rank < other->rank);
}

static gboolean
load_lists (SwStore *store, SwGuidedState *state, GError **error)
{
  state->fields
      = load_list (store, SW_TABLE_COLOUR_FIELD, "method_version", state->method->record.id,
                   load_field_cb, (GDestroyNotify)sw_colour_field_free, error);
  if (state->fields == NULL)
    return FALSE;
  g_ptr_array_sort (state->fields, compare_field_cb);
  state->points = load_list (store, SW_TABLE_SAMPLING_POINT, "machine", state->machine->record.id,
                             load_point_cb, (GDestroyNotify)sw_sampling_point_free, error);
  if (state->points == NULL)
    return FALSE;
  g_ptr_array_sort (state->points, compare_point_cb);
  state->readings = sw_result_load_readings (store, state->titration->record.id, error);
  return state->readings != NULL;
}

/* At most one dose was decided in a titration. */
static gboolean
load_dose (SwStore *store, SwGuidedState *state, GError **error)
{
  g_autoptr (GArray) ids = NULL;

  if (state->titration->signed_ms == 0)
    return TRUE;
  ids = sw_record_ids (store, SW_TABLE_DOSE, "titration", state->titration->record.id, error);
  if (ids == NULL || ids->len == 0)
    return ids != NULL;
  state->dose = sw_dose_row_load (store, g_array_index (ids, gint64, ids->len - 1), error);
  return state->dose != NULL;
}

/* The plan's last decision is nearly always this test's; only an old test is looked up. */
static gboolean
load_decision (SwStore *store, SwGuidedState *state, GError **error)
{
  gint64 titration = state->titration->record.id;
  g_autoptr (GArray) ids = NULL;
  GError *failure = NULL;
  gint64 last;

  if (state->titration->signed_ms == 0)
    return TRUE;
  last = sw_decision_last (store, state->sample->plan, &failure);
  if (!sw_answered (failure, error))
    return FALSE;
  if (last != 0)
    {
      state->decision = sw_decision_load (store, last, error);
      if (state->decision == NULL || state->decision->titration == titration)
        return state->decision != NULL;
      g_clear_pointer (&state->decision, sw_decision_free);
    }
  ids = sw_record_ids (store, SW_TABLE_DECISION, "titration", titration, error);
  if (ids == NULL || ids->len == 0)
    return ids != NULL;
  state->decision = sw_decision_load (store, g_array_index (ids, gint64, ids->len - 1), error);
  return state->decision != NULL;
}

/* Titrant that no strip was read for asks for a strip, whatever the readings before it ask for. */
static gboolean
compute_outcome (SwGuidedState *state, GError **error)
{
  if (!sw_result_outcome (state->titration, state->method, state->readings, &state->outcome, error))
    return FALSE;
  state->total = state->outcome.total;
  if (isnan (state->titration->pending_total))
    return TRUE;
  state->total = state->outcome.total = state->titration->pending_total;
  state->outcome.next = SW_NEXT_READ_AGAIN;
  return TRUE;
}

SwGuidedState *
sw_guided_state_load (SwStore *store, gint64 titration, GError **error)
{
  g_autoptr (SwGuidedState) state = g_new0 (SwGuidedState, 1);

  state->titration = sw_titration_load (store, titration, error);
  if (state->titration == NULL)
    return NULL;
  state->sample = sw_sample_load (store, state->titration->sample, error);
  if (state->sample == NULL)
    return NULL;
  state->machine = sw_machine_load (store, state->sample->machine, error);
  state->method = state->machine == NULL
                      ? NULL
                      : sw_method_version_load (store, state->titration->method_version, error);
  if (state->method == NULL || !load_lists (store, state, error) || !load_dose (store, state, error)
      || !load_decision (store, state, error) || !compute_outcome (state, error))
    return NULL;
  return g_steal_pointer (&state);
}

void
sw_guided_state_free (SwGuidedState *state)
{
  if (state == NULL)
    return;
  sw_titration_free (state->titration);
  sw_sample_free (state->sample);
  sw_machine_free (state->machine);
  sw_method_version_free (state->method);
  g_clear_pointer (&state->fields, g_ptr_array_unref);
  g_clear_pointer (&state->points, g_ptr_array_unref);
  g_clear_pointer (&state->readings, g_ptr_array_unref);
  sw_dose_row_free (state->dose);
  sw_decision_free (state->decision);
  g_free (state);
}
