/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What every fuzz target defines. It aborts where an invariant is broken, and returns 0. */
#pragma once

#include <glib.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

/* The input as a string; what follows a NUL is left out. (transfer full) */
static inline char *
fuzz_text (const uint8_t *data, size_t size)
{
  return g_strndup ((const char *)data, size);
}
