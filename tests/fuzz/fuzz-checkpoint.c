/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of the trust folder, and the signatures in them.
 *
 * Invariants: a line that is read has a head, a key and a signature of their length in small hex
 * digits; written again it is read as the same; and no signature that the fuzzer makes up is right.
 */
#include "fuzz.h"

#include "records/checkpoint.h"
#include "records/trust-folder-private.h"

#include <string.h>

static void
check_digits (const char *digits, gsize length)
{
  g_assert_cmpuint (strlen (digits), ==, length);
  g_assert_cmpuint (strspn (digits, "0123456789abcdef"), ==, length);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *text = fuzz_text (data, size);
  g_autofree char *again = NULL;
  g_autofree char *message = NULL;
  SwTrustLine line;
  SwTrustLine same;

  if (!sw_trust_line_parse (text, &line))
    return 0;
  g_assert_cmpint (line.seq, >, 0);
  check_digits (line.head, SW_HASH_LENGTH);
  check_digits (line.key, SW_KEY_LENGTH);
  check_digits (line.signature, SW_SIGNATURE_LENGTH);
  again = g_strdup_printf ("%" G_GINT64_FORMAT " %s %" G_GINT64_FORMAT " %s %s", line.seq,
                           line.head, line.utc_ms, line.key, line.signature);
  g_assert_true (sw_trust_line_parse (again, &same));
  g_assert_true (same.seq == line.seq && same.utc_ms == line.utc_ms);
  g_assert_cmpstr (same.head, ==, line.head);
  /* the lines of the corpus are signed for another site; a signature cannot be guessed */
  message = sw_checkpoint_message ("00000000-0000-4000-8000-000000000000", line.seq, line.head,
                                   line.utc_ms);
  g_assert_false (sw_checkpoint_check (message, line.key, line.signature));
  return 0;
}
