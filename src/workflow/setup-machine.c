/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of machines with their compartments, sampling points and solvent fills. */
#include "workflow/setup-private.h"

/* ---- checks ---- */

/* What is dosed is a neutraliser; a caustic never is. */
static gboolean
check_neutraliser (SwStore *store, gint64 id, GError **error)
{
  g_autoptr (SwProduct) product = NULL;

  if (id == 0)
    return TRUE;
  product = sw_product_load (store, id, error);
  if (!sw_setup_check_in_use ((SwRecord *)product, SW_QUANTITY_NAME, error))
    return FALSE;
  return product->use == SW_PRODUCT_NEUTRALISER
         || sw_check_fail (SW_FAULT_COMBINATION, SW_QUANTITY_NAME, error);
}

/* Without a solvent nobody knows whether a method suits it. */
static gboolean
check_solvent (SwStore *store, gint64 id, GError **error)
{
  g_autoptr (SwSolvent) solvent = NULL;

  if (id == 0)
    return sw_check_fail (SW_FAULT_MISSING, SW_QUANTITY_NAME, error);
  solvent = sw_solvent_load (store, id, error);
  return sw_setup_check_in_use ((SwRecord *)solvent, SW_QUANTITY_NAME, error);
}

/* A band is both marks, the low one below. */
static gboolean
check_reserve (const SwMachine *machine, GError **error)
{
  SwFault order = { .code = SW_FAULT_ORDER,
                    .quantity = SW_QUANTITY_RESERVE_HIGH,
                    .value = machine->reserve_high,
                    .low = machine->reserve_low,
                    .high = INFINITY,
                    .unit = SW_UNIT_STEP };

  if (isnan (machine->reserve_low) && isnan (machine->reserve_high))
    return TRUE;
  return sw_check_number (SW_QUANTITY_RESERVE_LOW, machine->reserve_low, NULL, error)
         && sw_check_number (SW_QUANTITY_RESERVE_HIGH, machine->reserve_high, NULL, error)
         && (machine->reserve_high > machine->reserve_low || sw_fault_set (error, &order));
}

static gboolean
check_machine (SwStore *store, SwMachine *machine, GError **error)
{
  return sw_setup_check_unique (store, SW_TABLE_MACHINE, "tag", SW_QUANTITY_CODE, machine->tag,
                                machine->record.id, error)
         && sw_check_optional_text (SW_QUANTITY_NAME, machine->name, SW_LONGEST_NAME, error)
         && sw_check_optional_text (SW_QUANTITY_NAME, machine->area, SW_LONGEST_NAME, error)
         && check_solvent (store, machine->solvent, error)
         && check_neutraliser (store, machine->neutraliser, error)
         && sw_check_optional (SW_QUANTITY_CHAMBER_VOLUME, machine->chamber_l, NULL, error)
         && sw_check_optional_text (SW_QUANTITY_NAME, machine->dosing_place, SW_LONGEST_TEXT, error)
         && sw_check_optional (SW_QUANTITY_CIRCULATION_TIME, machine->circulation_min, NULL, error)
         && sw_check_optional (SW_QUANTITY_GRADUATION, machine->graduation.value,
                               machine->graduation.typed, error)
         && check_reserve (machine, error);
}

/* The running volumes add up to the system volume, which has a range of its own. */
static gboolean
check_compartments (GPtrArray *compartments, GError **error)
{
  double sum = 0.0;

  for (guint i = 0; i < compartments->len; i++)
    {
      const SwCompartment *compartment = compartments->pdata[i];

      if (!sw_check_number (SW_QUANTITY_COMPARTMENT_VOLUME, compartment->volume.value,
                            compartment->volume.typed, error)
          || !sw_check_uncertainty (SW_QUANTITY_COMPARTMENT_VOLUME, compartment->volume.value,
                                    compartment->volume_u_l, error)
          || !sw_check_optional_text (SW_QUANTITY_NAME, compartment->name, SW_LONGEST_NAME, error))
        return FALSE;
      sum += compartment->volume.value;
    }
  return compartments->len == 0 || sw_check_number (SW_QUANTITY_SYSTEM_VOLUME, sum, NULL, error);
}

static gboolean
check_point (GPtrArray *points, guint index, GError **error)
{
  SwSamplingPoint *point = points->pdata[index];
  SwFault taken = { .code = SW_FAULT_TEXT, .quantity = SW_QUANTITY_NAME, .value = NAN };

  if (!sw_check_text (SW_QUANTITY_NAME, point->name, SW_LONGEST_NAME, error)
      || !sw_check_optional_text (SW_QUANTITY_NAME, point->directions, SW_LONGEST_TEXT, error)
      || !sw_check_within (SW_QUANTITY_COUNT, point->rank, NULL, 1.0, 1000.0, error))
    return FALSE;
  taken.typed = g_strstrip (point->name);
  for (guint i = 0; i < index; i++)
    if (g_str_equal (((SwSamplingPoint *)points->pdata[i])->name, point->name))
      return sw_fault_set (error, &taken);
  return TRUE;
}

static gboolean
check_points (GPtrArray *points, GError **error)
{
  for (guint i = 0; i < points->len; i++)
    if (!check_point (points, i, error))
      return FALSE;
  return TRUE;
}

/* ---- writing ---- */

static gboolean
has_id (GPtrArray *rows, gint64 id)
{
  for (guint i = 0; i < rows->len; i++)
    if (((SwRecord *)rows->pdata[i])->id == id)
      return TRUE;
  return FALSE;
}

/* Rows of the machine that the caller no longer lists are taken out of use. */
static gboolean
void_missing (SwStore *store, SwTable table, gint64 machine, GPtrArray *rows, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, table, "machine", machine, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);

      if (!has_id (rows, id) && !sw_record_void (store, table, id, error))
        return FALSE;
    }
  return ids != NULL;
}

static gboolean
write_compartments (SwStore *store, gint64 machine, GPtrArray *rows, GError **error)
{
  if (rows == NULL)
    return TRUE;
  if (!void_missing (store, SW_TABLE_COMPARTMENT, machine, rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      SwCompartment *row = rows->pdata[i];

      row->machine = machine;
      if (!(row->record.id != 0 ? sw_compartment_update (store, row, error)
                                : sw_compartment_insert (store, row, error)))
        return FALSE;
    }
  return TRUE;
}

static gboolean
write_points (SwStore *store, gint64 machine, GPtrArray *rows, GError **error)
{
  if (rows == NULL)
    return TRUE;
  if (!void_missing (store, SW_TABLE_SAMPLING_POINT, machine, rows, error))
    return FALSE;
  for (guint i = 0; i < rows->len; i++)
    {
      SwSamplingPoint *row = rows->pdata[i];

      row->machine = machine;
      if (!(row->record.id != 0 ? sw_sampling_point_update (store, row, error)
                                : sw_sampling_point_insert (store, row, error)))
        return FALSE;
    }
  return TRUE;
}

static gboolean
insert_fill (SwStore *store, const SwMachine *machine, gint64 happened_ms, GError **error)
{
  g_autoptr (SwFill) fill = sw_fill_new ();

  fill->machine = machine->record.id;
  fill->solvent = machine->solvent;
  fill->record.happened_ms = happened_ms;
  return sw_fill_insert (store, fill, error);
}

static gboolean
write_all (
    SwStore *store, SwMachine *machine, GPtrArray *compartments, GPtrArray *points, GError **error)
{
  gboolean is_new = machine->record.id == 0;

  if (!(is_new ? sw_machine_insert (store, machine, error)
               : sw_machine_update (store, machine, error)))
    return FALSE;
  return write_compartments (store, machine->record.id, compartments, error)
         && write_points (store, machine->record.id, points, error)
         && (!is_new || insert_fill (store, machine, 0, error));
}

/* ---- the caller's structs on failure ---- */

static void
keep_records (GArray *kept, GPtrArray *rows)
{
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    g_array_append_vals (kept, rows->pdata[i], 1);
}

static guint
restore_records (GArray *kept, guint from, GPtrArray *rows)
{
  for (guint i = 0; rows != NULL && i < rows->len; i++)
    *(SwRecord *)rows->pdata[i] = g_array_index (kept, SwRecord, from++);
  return from;
}

gboolean
sw_setup_machine (SwStore *store,
                  const SwActor *actor,
                  SwMachine *machine,
                  GPtrArray *compartments,
                  GPtrArray *points,
                  GError **error)
{
  g_autoptr (GArray) kept = g_array_new (FALSE, FALSE, sizeof (SwRecord));
  const SwRecord before = machine->record;
  GError *failure = NULL;

  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  g_return_val_if_fail ((int)machine->service >= 0 && machine->service < SW_N_SERVICE_STATES,
                        FALSE);
  if (!check_machine (store, machine, error)
      || (compartments != NULL && !check_compartments (compartments, error))
      || (points != NULL && !check_points (points, error))
      || !sw_setup_begin (store, actor, before.id, SW_RIGHT_SET_UP, error))
    return FALSE;
  keep_records (kept, compartments);
  keep_records (kept, points);
  write_all (store, machine, compartments, points, &failure);
  if (sw_setup_end (store, failure, SW_QUANTITY_CODE, error))
    return TRUE;
  machine->record = before;
  restore_records (kept, restore_records (kept, 0, compartments), points);
  return FALSE;
}

/* ---- a full change of solvent ---- */

/* Ends the present fill; a new one cannot begin before it did, nor in the future. */
static gboolean
end_fill (SwStore *store, gint64 machine, gint64 at_ms, GError **error)
{
  g_autoptr (SwFill) fill = NULL;
  GError *failure = NULL;
  gint64 id = sw_machine_fill (store, machine, &failure);

  if (!sw_answered (failure, error))
    return FALSE;
  if (id == 0)
    return sw_check_time (at_ms, 1, sw_act_now (store), error);
  fill = sw_fill_load (store, id, error);
  if (fill == NULL || !sw_check_time (at_ms, fill->record.happened_ms, sw_act_now (store), error))
    return FALSE;
  fill->ended_ms = at_ms;
  return sw_fill_update (store, fill, error);
}

gboolean
sw_setup_new_fill (
    SwStore *store, const SwActor *actor, gint64 machine_id, gint64 at_ms, GError **error)
{
  g_autoptr (SwMachine) machine = NULL;
  GError *failure = NULL;

  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  machine = sw_machine_load (store, machine_id, error);
  if (!sw_setup_check_in_use ((SwRecord *)machine, SW_QUANTITY_NAME, error)
      || !sw_setup_begin (store, actor, 0, SW_RIGHT_SET_UP, error))
    return FALSE;
  if (at_ms == 0)
    at_ms = sw_act_now (store);
  if (end_fill (store, machine_id, at_ms, &failure))
    insert_fill (store, machine, at_ms, &failure);
  return sw_setup_end (store, failure, SW_QUANTITY_NONE, error);
}
