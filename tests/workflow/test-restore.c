/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who may restore a backup: asked of the file, or, where it cannot be read, of the backup. */
#include "support/plant.h"
#include "workflow/guided.h"
#include "workflow/restore.h"

typedef struct
{
  const char *name;
  glong person; /* offset of the id in SwTestPlant */
  SwIdentified identified;
  const char *reason;
  gboolean damaged; /* the file */
  SwFactCode refusal;
} Row;

#define PERSON(member) G_STRUCT_OFFSET (SwTestPlant, member)

static const Row rows[] = {
  { "administrator", PERSON (administrator), SW_IDENTIFIED_SECRET, "wrong", FALSE, SW_FACT_NONE },
  { "administrator by name", PERSON (administrator), SW_IDENTIFIED_SELECTED, "wrong", FALSE,
    SW_FACT_NEEDS_SECRET },
  { "technician", PERSON (technician), SW_IDENTIFIED_SECRET, "wrong", FALSE,
    SW_FACT_NEEDS_ADMINISTRATOR },
  { "reviewer", PERSON (reviewer), SW_IDENTIFIED_SECRET, "wrong", FALSE,
    SW_FACT_NEEDS_ADMINISTRATOR },
  { "auditor", PERSON (auditor), SW_IDENTIFIED_SECRET, "wrong", FALSE, SW_FACT_AUDITOR_READS },
  { "damaged, administrator", PERSON (administrator), SW_IDENTIFIED_SECRET, "wrong", TRUE,
    SW_FACT_NONE },
  { "damaged, technician", PERSON (technician), SW_IDENTIFIED_SECRET, "wrong", TRUE,
    SW_FACT_NEEDS_ADMINISTRATOR },
};

static SwBackupInfo *
set_scene (SwTestPlant *plant, gboolean damaged)
{
  GError *error = NULL;
  SwBackupInfo *backup
      = sw_backup_write (plant->path, NULL, SW_BACKUP_BY_HAND, plant->now_ms, NULL, NULL, &error);

  g_assert_no_error (error);
  g_clear_pointer (&plant->store, sw_store_close);
  if (damaged)
    g_assert_true (g_file_set_contents (plant->path, "no database", -1, NULL));
  return backup;
}

static gboolean
restore (SwTestPlant *plant,
         const char *backup,
         gint64 person,
         SwIdentified identified,
         const char *reason,
         GError **error)
{
  const SwRestoreOrder order = {
    .path = plant->path,
    .backup = backup,
    .actor = { .person = person, .identified = identified, .reason = reason },
  };
  const SwClock clock = sw_test_plant_clock (plant);

  return sw_restore_run (&order, &clock, error);
}

static void
test_right (gconstpointer data)
{
  const Row *row = data;
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autoptr (SwBackupInfo) backup = set_scene (plant, row->damaged);
  g_autoptr (GError) error = NULL;
  gint64 person = G_STRUCT_MEMBER (gint64, plant, row->person);
  gboolean done = restore (plant, backup->path, person, row->identified, row->reason, &error);

  g_assert_cmpint (done, ==, row->refusal == SW_FACT_NONE);
  if (done)
    return;
  g_assert_nonnull (sw_workflow_error_get_fact (error));
  g_assert_cmpint ((int)sw_workflow_error_get_fact (error)->code, ==, (int)row->refusal);
}

static void
test_reason (void)
{
  g_autoptr (SwTestPlant) plant = sw_test_plant_new ();
  g_autoptr (SwBackupInfo) backup = set_scene (plant, FALSE);
  GError *error = NULL;

  g_assert_false (
      restore (plant, backup->path, plant->administrator, SW_IDENTIFIED_SECRET, "", &error));
  sw_assert_fault (&error, SW_FAULT_MISSING, SW_QUANTITY_REASON);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SW_TEST_ROWS ("/workflow/restore", rows, test_right);
  g_test_add_func ("/workflow/restore/reason", test_reason);
  return g_test_run ();
}
