/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's banner about backups: one that fails unnoticed is worse than none. */
#include "app/window-private.h"

#include "app/backup/backup-keeper.h"
#include "wording/sentence-backup.h"

static void
show_failure (SwWindow *self)
{
  SwBackupKeeper *keeper = sw_backup_keeper_of (self->context);
  const GError *failure = sw_backup_keeper_get_failure (keeper);
  const SwBackupInfo *newest = sw_backup_list_newest (sw_backup_keeper_get_list (keeper));
  const SwWording *wording = sw_context_get_wording (self->context);

  gtk_widget_set_visible (self->backup_banner, failure != NULL);
  if (failure == NULL)
    return;
  g_autofree char *why = sw_say_backup_error (wording, failure);
  g_autofree char *words
      = sw_say_backup_failed (wording, why, newest != NULL ? newest->made_ms : 0);
  gtk_label_set_text (self->backup_text, words);
}

void
sw_window_watch_backups (SwWindow *self)
{
  SwBackupKeeper *keeper = sw_backup_keeper_of (self->context);

  g_signal_connect_object (keeper, "changed", G_CALLBACK (show_failure), self, G_CONNECT_SWAPPED);
  sw_backup_keeper_start (keeper);
}
