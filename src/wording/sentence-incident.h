/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences about acid incidents. */
#pragma once

#include "wording/wording.h"

G_BEGIN_DECLS

/* "The re-test passed: the acid incident of 24 November 2026 waits for its review." (transfer full)
 */
char *sw_say_incident_waits (const SwWording *wording, gint64 opened_ms);

G_END_DECLS
