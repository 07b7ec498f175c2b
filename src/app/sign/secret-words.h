/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the box for a new secret is called, and what it says before anything is typed. */
#pragma once

#include "app/sign/secret-box.h"

G_BEGIN_DECLS

/* (transfer full) */
char *
sw_secret_words_title (SwContext *context, SwSecretWhy why, gint64 person, gboolean has_secret);
/* NULL: nothing needs saying. (transfer full) */
char *sw_secret_words_text (SwContext *context, SwSecretWhy why, gint64 person);

G_END_DECLS
