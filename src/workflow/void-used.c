/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What rests on a set-up record keeps it in use; what has no meaning without it goes with it. */
#include "workflow/void-private.h"

#include "workflow/guided.h"

typedef struct
{
  SwTable table;
  SwTable other;
  const char *column; /* of the other table, by which it refers to the row */
} Link;

/* In use as long as a row of the other table is, and refers to it. */
static const Link rests[] = {
  { SW_TABLE_SOLVENT, SW_TABLE_MACHINE, "solvent" },
  { SW_TABLE_PRODUCT, SW_TABLE_LOT, "product" },
  { SW_TABLE_PRODUCT, SW_TABLE_MACHINE, "neutraliser" },
  { SW_TABLE_PRODUCT, SW_TABLE_METHOD_VERSION, "titrant" },
  { SW_TABLE_PRODUCT, SW_TABLE_METHOD_VERSION, "caustic" },
  { SW_TABLE_LOT, SW_TABLE_TITRATION, "titrant_lot" },
  { SW_TABLE_LOT, SW_TABLE_TITRATION, "caustic_lot" },
  { SW_TABLE_LOT, SW_TABLE_TITRATION, "strip_lot" },
  { SW_TABLE_LOT, SW_TABLE_DOSE, "lot" },
  { SW_TABLE_MACHINE, SW_TABLE_SAMPLE, "machine" },
  { SW_TABLE_FILL, SW_TABLE_SAMPLE, "fill" },
  { SW_TABLE_METHOD, SW_TABLE_PLAN, "method" },
  { SW_TABLE_METHOD_VERSION, SW_TABLE_TITRATION, "method_version" },
  { SW_TABLE_COLOUR_FIELD, SW_TABLE_READING, "colour_field" },
  { SW_TABLE_CALIBRATION, SW_TABLE_TITRATION, "calibration" },
};

/* Has no meaning without it; what rests on a part rests on the whole. */
static const Link parts[] = {
  { SW_TABLE_PRODUCT, SW_TABLE_CALIBRATION, "product" },
  { SW_TABLE_MACHINE, SW_TABLE_COMPARTMENT, "machine" },
  { SW_TABLE_MACHINE, SW_TABLE_SAMPLING_POINT, "machine" },
  { SW_TABLE_MACHINE, SW_TABLE_FILL, "machine" },
  { SW_TABLE_MACHINE, SW_TABLE_PLAN, "machine" },
  { SW_TABLE_METHOD, SW_TABLE_METHOD_VERSION, "method" },
  { SW_TABLE_METHOD_VERSION, SW_TABLE_COLOUR_FIELD, "method_version" },
  { SW_TABLE_METHOD_VERSION, SW_TABLE_METHOD_TEXT, "method_version" },
};

/* ---- names ---- */

typedef struct
{
  SwTable table;
  SwTable of; /* what it is named by; SW_N_TABLES: by its own text */
  gsize offset;
} Naming;

#define BY_TEXT(TABLE, Type, member)                                                               \
  {                                                                                                \
    SW_TABLE_##TABLE, SW_N_TABLES, G_STRUCT_OFFSET (Type, member)                                  \
  }
#define BY_OWNER(TABLE, OF, Type, member)                                                          \
  {                                                                                                \
    SW_TABLE_##TABLE, SW_TABLE_##OF, G_STRUCT_OFFSET (Type, member)                                \
  }
static const Naming namings[] = {
  BY_TEXT (SITE, SwSite, name),
  BY_TEXT (PERSON, SwPerson, name),
  BY_TEXT (SOLVENT, SwSolvent, name),
  BY_TEXT (PRODUCT, SwProduct, name),
  BY_TEXT (LOT, SwLot, code),
  BY_TEXT (MACHINE, SwMachine, tag),
  BY_TEXT (METHOD, SwMethod, name),
  BY_TEXT (CALIBRATION, SwCalibration, dropper),
  BY_TEXT (SAMPLE, SwSample, code),
  BY_OWNER (PLAN, MACHINE, SwPlan, machine),
  BY_OWNER (FILL, MACHINE, SwFill, machine),
  BY_OWNER (METHOD_VERSION, METHOD, SwMethodVersion, method),
  BY_OWNER (TITRATION, SAMPLE, SwTitration, sample),
  BY_OWNER (READING, TITRATION, SwReadingRow, titration),
  BY_OWNER (DOSE, TITRATION, SwDoseRow, titration),
};
#undef BY_TEXT
#undef BY_OWNER

static const Naming *
find_naming (SwTable table)
{
  for (gsize i = 0; i < G_N_ELEMENTS (namings); i++)
    if (namings[i].table == table)
      return &namings[i];
  return NULL;
}

char *
sw_void_dup_name (SwStore *store, SwTable table, gint64 id, GError **error)
{
  const Naming *naming = find_naming (table);
  char *name = NULL;
  gint64 owner = 0;
  gpointer row;

  if (naming == NULL)
    return NULL;
  row = sw_record_load (store, table, id, error);
  if (row == NULL)
    return NULL;
  if (naming->of == SW_N_TABLES)
    name = g_strdup (*(char **)(gpointer)((char *)row + naming->offset));
  else
    owner = *(gint64 *)(gpointer)((char *)row + naming->offset);
  sw_record_free (table, row);
  return owner != 0 ? sw_void_dup_name (store, naming->of, owner, error) : name;
}

/* ---- what rests on it ---- */

/* A lot that is used up needs its product no longer. */
static gboolean
still_counts (SwStore *store, SwTable table, gint64 id, gboolean *counts, GError **error)
{
  g_autoptr (SwLot) lot = NULL;

  *counts = TRUE;
  if (table != SW_TABLE_LOT)
    return TRUE;
  lot = sw_lot_load (store, id, error);
  if (lot == NULL)
    return FALSE;
  *counts = !lot->used_up;
  return TRUE;
}

static gboolean
check_link (SwStore *store, const Link *link, gint64 id, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, link->other, link->column, id, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gint64 other = g_array_index (ids, gint64, i);
      g_autofree char *name = NULL;
      gboolean counts;

      if (!still_counts (store, link->other, other, &counts, error))
        return FALSE;
      if (!counts)
        continue;
      name = sw_void_dup_name (store, link->other, other, error);
      return name != NULL && sw_correction_refuse (SW_FACT_STILL_USED, name, error);
    }
  return ids != NULL;
}

/* A machine, or a plan of it, is tested to the end of its open test first. */
static gboolean
check_no_open_test (SwStore *store, gint64 machine, gint64 plan, GError **error)
{
  g_autoptr (GArray) ids = sw_titration_open_ids (store, machine, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwTitration) titration
          = sw_titration_load (store, g_array_index (ids, gint64, i), error);
      g_autoptr (SwSample) sample = NULL;

      if (titration != NULL)
        sample = sw_sample_load (store, titration->sample, error);
      if (sample == NULL)
        return FALSE;
      if (plan == 0 || sample->plan == plan)
        return sw_correction_refuse (SW_FACT_MACHINE_HAS_OPEN_TEST, sample->code, error);
    }
  return ids != NULL;
}

static gboolean
check_plan (SwStore *store, gint64 id, GError **error)
{
  g_autoptr (SwPlan) plan = sw_plan_load (store, id, error);

  return plan != NULL && check_no_open_test (store, plan->machine, id, error);
}

/* The newest version of a planned method is the method. */
static gboolean
check_version (SwStore *store, gint64 id, GError **error)
{
  g_autoptr (SwMethodVersion) version = sw_method_version_load (store, id, error);
  GError *failure = NULL;
  gint64 latest;
  const Link planned = { SW_TABLE_METHOD, SW_TABLE_PLAN, "method" };

  if (version == NULL)
    return FALSE;
  latest = sw_method_latest_version (store, version->method, &failure);
  return sw_answered (failure, error)
         && (latest != id || check_link (store, &planned, version->method, error));
}

/* One with a secret is followed only by another one with a secret: the file stays guarded. */
static gboolean
can_follow (const SwPerson *person, const SwPerson *other)
{
  return other->record.id != person->record.id && other->active
         && (person->secret == NULL || other->secret != NULL);
}

static gboolean
check_person (SwStore *store, gint64 id, GError **error)
{
  g_autoptr (SwPerson) person = sw_person_load (store, id, error);
  g_autoptr (GArray) ids = NULL;
  gboolean followed = FALSE;

  if (person == NULL || person->role != SW_ROLE_ADMINISTRATOR || !person->active)
    return person != NULL;
  ids = sw_record_ids (store, SW_TABLE_PERSON, "role", SW_ROLE_ADMINISTRATOR, error);
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwPerson) other = sw_person_load (store, g_array_index (ids, gint64, i), error);

      if (other == NULL)
        return FALSE;
      followed = followed || can_follow (person, other);
    }
  if (ids == NULL)
    return FALSE;
  return followed || sw_correction_refuse (SW_FACT_LAST_ADMINISTRATOR, NULL, error);
}

static gboolean
check_special (SwStore *store, SwTable table, gint64 id, GError **error)
{
  switch ((int)table)
    {
    case SW_TABLE_MACHINE:
      return check_no_open_test (store, id, 0, error);
    case SW_TABLE_PLAN:
      return check_plan (store, id, error);
    case SW_TABLE_METHOD_VERSION:
      return check_version (store, id, error);
    case SW_TABLE_PERSON:
      return check_person (store, id, error);
    default:
      return TRUE;
    }
}

static gboolean
check_part (SwStore *store, const Link *link, gint64 id, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, link->other, link->column, id, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    if (!sw_void_check_unused (store, link->other, g_array_index (ids, gint64, i), error))
      return FALSE;
  return ids != NULL;
}

gboolean
sw_void_check_unused (SwStore *store, SwTable table, gint64 id, GError **error)
{
  if (!check_special (store, table, id, error))
    return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (rests); i++)
    if (rests[i].table == table && !check_link (store, &rests[i], id, error))
      return FALSE;
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    if (parts[i].table == table && !check_part (store, &parts[i], id, error))
      return FALSE;
  return TRUE;
}

/* ---- what hangs on it ---- */

/* A change of solvent that never was: the fill before goes on, with all that was dosed in it. */
static gboolean
continue_fill_before (SwStore *store, gint64 id, GError **error)
{
  g_autoptr (SwFill) fill = sw_fill_load (store, id, error);
  g_autoptr (GArray) ids = NULL;

  if (fill == NULL || fill->ended_ms != 0)
    return fill != NULL;
  ids = sw_record_ids (store, SW_TABLE_FILL, "machine", fill->machine, error);
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwFill) before = sw_fill_load (store, g_array_index (ids, gint64, i), error);

      if (before == NULL)
        return FALSE;
      if (before->record.id == id || before->ended_ms != fill->record.happened_ms)
        continue;
      before->ended_ms = 0;
      return sw_fill_update (store, before, error);
    }
  return ids != NULL;
}

static gboolean
void_parts (SwStore *store, const Link *link, gint64 id, GError **error)
{
  g_autoptr (GArray) ids = sw_record_ids (store, link->other, link->column, id, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    if (!sw_void_with_parts (store, link->other, g_array_index (ids, gint64, i), error))
      return FALSE;
  return ids != NULL;
}

gboolean
sw_void_with_parts (SwStore *store, SwTable table, gint64 id, GError **error)
{
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    if (parts[i].table == table && !void_parts (store, &parts[i], id, error))
      return FALSE;
  if (table == SW_TABLE_FILL && !continue_fill_before (store, id, error))
    return FALSE;
  return sw_record_void (store, table, id, error);
}
