/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inside wording: a typed number split into its parts, still as text. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  /* Owned */
  char *decimal; /* "-1.234e3", as the C locale writes it */
  char *grouped; /* the second reading of an ambiguous number, "-1234"; else NULL */
  char *unit;    /* what stands behind the number, "" for nothing */
} SwNumberText;

void sw_number_text_clear (SwNumberText *number);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwNumberText, sw_number_text_clear)

/* @text is UTF-8. FALSE when it is no number. */
gboolean sw_number_scan (const char *text, SwNumberText *number);
/* Skips a number of the strict form (digits, one point, an exponent); NULL when there is none. */
const char *sw_number_skip_strict (const char *at);

G_END_DECLS
