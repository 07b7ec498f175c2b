/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings with the names that people call records, fields and values by. */
#pragma once

#include "app/context.h"
#include "records/verify.h"

G_BEGIN_DECLS

/* (transfer full) */
char *sw_verify_say_finding (SwContext *context, const SwFinding *finding);
char *sw_verify_say_note (SwContext *context, const SwFinding *note);
/* What to do. (transfer none) */
const char *sw_verify_say_advice (SwContext *context, const SwFinding *finding);

G_END_DECLS
