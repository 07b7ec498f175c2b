/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside wording: what several sentence-*.c files need. */
#pragma once

#include "wording/sentence.h"

G_BEGIN_DECLS

/* Two whole sentences, one after the other, as the language separates them. (transfer full) */
char *sw_say_both (const SwWording *wording, const char *first, const char *second);
/* The same words with a capital letter in front. (transfer full) */
char *sw_say_capital (const SwWording *wording, const char *words);
/* @message with its %s, or %1$s to %9$s, replaced by the strings that follow, in their order: for
 * sentences that stand in tables, where no compiler checks a printf. (transfer full) */
#define sw_say_filled(message, ...)                                                                \
  sw_say_filled_with (message, (const char *const[]){ __VA_ARGS__, NULL })
char *sw_say_filled_with (const char *message, const char *const *values);
/* What to do next, without an outcome at hand. (transfer none) */
const char *sw_say_next_step (const SwWording *wording, SwNext next, gboolean burette);

G_END_DECLS
