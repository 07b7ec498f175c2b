/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A copy of a backup to sign against, where the file itself cannot be opened: the people of the
 * backup sign, and the backup is not written to. */
#pragma once

#include "app/context.h"

G_BEGIN_DECLS

/* The copy lies in a folder of its own and goes with the context. (transfer full) */
SwContext *sw_stand_in_new (const char *backup, SwWording *wording, GError **error);

G_END_DECLS
