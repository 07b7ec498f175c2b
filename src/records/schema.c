/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The schema: numbered SQL files, embedded, applied in order.
 *
 * A file "NNN-x-name.sql" belongs to schema version NNN; the files of a version run in the order of
 * their names, in one act, whose journal row names each file with its SHA-256. A file is never
 * edited once a release holds it: a change is a new version.
 *
 * A file of an older version that is only read is shown with today's tables: "reading/N.sql" puts
 * views into the connection's temporary schema, whose names go before those of the file. Those
 * files are no part of any schema and grow with every version.
 */
#include "records/schema-private.h"
#include "records/path-private.h"

#include "data/records-data.h"

#include <stdlib.h>
#include <string.h>

#define SCHEMA_FOLDER "/org/stillwarden/records/schema/"

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

/* Names of the files of a version, sorted. (transfer full) */
static GPtrArray *
list_files (int version)
{
  GPtrArray *files = g_ptr_array_new_with_free_func (g_free);
  g_auto (GStrv) names = g_resource_enumerate_children (records_data_get_resource (), SCHEMA_FOLDER,
                                                        G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);

  for (guint i = 0; names != NULL && names[i] != NULL; i++)
    if (atoi (names[i]) == version)
      g_ptr_array_add (files, g_strdup (names[i]));
  g_ptr_array_sort (files, compare_names);
  return files;
}

/* NULL when there is none. (transfer full) */
static char *
read_file (const char *name)
{
  g_autofree char *path = g_strconcat (SCHEMA_FOLDER, name, NULL);
  g_autoptr (GBytes) bytes = g_resource_lookup_data (records_data_get_resource (), path,
                                                     G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);

  if (bytes == NULL)
    return NULL;
  return g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

/* The scripts of a version. (transfer full) */
static GPtrArray *
load_scripts (int version)
{
  g_autoptr (GPtrArray) files = list_files (version);
  GPtrArray *scripts = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_script_free);

  for (guint i = 0; i < files->len; i++)
    {
      SwScript *script = g_new (SwScript, 1);

      script->name = g_strdup (files->pdata[i]);
      script->sql = read_file (files->pdata[i]);
      g_ptr_array_add (scripts, script);
    }
  return scripts;
}

void
sw_script_free (SwScript *script)
{
  if (script == NULL)
    return;
  g_free (script->name);
  g_free (script->sql);
  g_free (script);
}

/* The name goes before SQLite's complaint: the fault is in a file of ours. */
static gboolean
run_scripts (SwStore *store, GPtrArray *scripts, GError **error)
{
  for (guint i = 0; i < scripts->len; i++)
    {
      const SwScript *script = scripts->pdata[i];

      if (!sw_sql_execute (store, script->sql, error))
        {
          g_prefix_error (error, "%s: ", script->name);
          return FALSE;
        }
    }
  return TRUE;
}

/* Journal lines: what exactly was run. (transfer full) */
static GPtrArray *
list_digests (GPtrArray *scripts)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < scripts->len; i++)
    {
      const SwScript *script = scripts->pdata[i];
      g_autofree char *digest = g_compute_checksum_for_string (G_CHECKSUM_SHA256, script->sql, -1);

      g_ptr_array_add (lines, g_strconcat ("new.", script->name, "=", digest, NULL));
    }
  return lines;
}

/* Inside an act. The journal is one of the things that version 1 makes, so it is written last. */
static gboolean
migrate_inside (SwStore *store, int version, GPtrArray *scripts, GError **error)
{
  g_autoptr (GPtrArray) lines = list_digests (scripts);
  g_autofree char *pragma = g_strdup_printf ("PRAGMA application_id = %d; PRAGMA user_version = %d",
                                             SW_APPLICATION_ID, version);

  return run_scripts (store, scripts, error) && sw_sql_execute (store, pragma, error)
         && sw_journal_write (store, "migrate", "schema", version, 0, lines, error);
}

gboolean
sw_schema_migrate_with (SwStore *store, int version, GPtrArray *scripts, GError **error)
{
  const SwActor actor = { .identified = SW_IDENTIFIED_SYSTEM };

  if (!sw_act_begin_migration (store, version == 1, &actor, error))
    return FALSE;
  if (migrate_inside (store, version, scripts, error) && sw_act_commit (store, error))
    {
      store->schema_version = version;
      return TRUE;
    }
  sw_act_cancel (store);
  return FALSE;
}

gboolean
sw_schema_migrate (SwStore *store, GError **error)
{
  for (int version = store->schema_version + 1; version <= SW_SCHEMA_VERSION; version++)
    {
      g_autoptr (GPtrArray) scripts = load_scripts (version);

      if (!sw_schema_migrate_with (store, version, scripts, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
sw_schema_apply (SwStore *store, int version, GError **error)
{
  for (int i = 1; i <= version; i++)
    {
      g_autoptr (GPtrArray) scripts = load_scripts (i);

      if (!run_scripts (store, scripts, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
sw_schema_read_as_newest (SwStore *store, GError **error)
{
  g_autofree char *name = g_strdup_printf ("reading/%d.sql", store->schema_version);
  g_autofree char *sql = NULL;

  if (store->schema_version == SW_SCHEMA_VERSION)
    return TRUE;
  sql = read_file (name);
  if (sql != NULL)
    return sw_sql_execute (store, sql, error);
  return sw_path_error (error, SW_RECORDS_ERROR_READ_ONLY, store->path,
                        "is of an older version; open it once for writing");
}
