/* SPDX-License-Identifier: GPL-3.0-or-later */
/* stillwarden backup FILE OUT and snapshot FILE OUT: a verified copy, while others may have the
 * file open. Neither writes to FILE; nor do they let go of older backups, which is the window's
 * work. */
#include "cli/command.h"

#include "records/backup.h"

const SwOption sw_cli_backup_options[] = { { NULL } };
const SwOption sw_cli_snapshot_options[] = { { NULL } };

static const char *
read_out (const SwCliRun *run, GError **error)
{
  const char *out = sw_options_get_word (run->options, 1);

  if (out == NULL)
    g_set_error (error, SW_CLI_ERROR, 0, "OUT: %s", sw_tr (run->wording, "This word is missing."));
  return out;
}

static void
print_copy (SwCliRun *run, const SwBackupInfo *info)
{
  sw_output_text (run->out, SW_OUTPUT_WRITTEN, info->path, NULL);
  sw_output_number (run->out, SW_OUTPUT_BYTES, (double)info->bytes);
  sw_output_number (run->out, SW_OUTPUT_JOURNAL_ROWS, (double)info->seq);
  sw_output_text (run->out, SW_OUTPUT_HEAD, info->head, NULL);
}

static gboolean
is_folder (const char *out)
{
  return g_file_test (out, G_FILE_TEST_IS_DIR);
}

/* A folder gets a backup under the name that the window's have. */
SwExit
sw_cli_backup (SwCliRun *run, GError **error)
{
  const char *path = sw_cli_read_file (run, error);
  const char *out = path != NULL ? read_out (run, error) : NULL;
  g_autoptr (SwBackupInfo) info = NULL;

  if (out == NULL)
    return SW_EXIT_BAD_ARGUMENTS;
  if (is_folder (out))
    info = sw_backup_write (path, out, SW_BACKUP_BY_HAND, g_get_real_time () / 1000, NULL, NULL,
                            error);
  else
    info = sw_backup_write_as (path, out, NULL, NULL, error);
  if (info == NULL)
    return SW_EXIT_BAD_DATA;
  print_copy (run, info);
  return SW_EXIT_DONE;
}

/* Handed to somebody else: the caller names it. */
SwExit
sw_cli_snapshot (SwCliRun *run, GError **error)
{
  const char *path = sw_cli_read_file (run, error);
  const char *out = path != NULL ? read_out (run, error) : NULL;
  g_autoptr (SwBackupInfo) info = NULL;

  if (out == NULL)
    return SW_EXIT_BAD_ARGUMENTS;
  info = sw_backup_write_as (path, out, NULL, NULL, error);
  if (info == NULL)
    return SW_EXIT_BAD_DATA;
  print_copy (run, info);
  return SW_EXIT_DONE;
}
