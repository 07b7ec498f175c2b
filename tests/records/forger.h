/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An attacker who knows the file's format (docs/file-format.md), has the disk, and not this PC's
 * key: edits what he likes with every trigger out of the way, computes the chain anew to its end,
 * signs the file's checkpoints with a key of his own. Written from the page alone: nothing here
 * calls the program's own code for journal or checkpoints. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  FORGER_KEEP,  /* leaves the checkpoint rows as they are */
  FORGER_RESIGN /* signs them with his own key */
} ForgerCheckpoints;

/* Runs @sql on the closed file; every trigger is dropped before and put back after, word for word.
 */
void forger_edit (const char *path, const char *sql);
/* Makes every entry and hash from row 1 on fit again. */
void forger_rechain (const char *path, ForgerCheckpoints checkpoints);

G_END_DECLS
