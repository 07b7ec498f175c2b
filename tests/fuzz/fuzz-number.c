/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as typed. The first byte chooses the quantity, the rest is the text.
 *
 * Invariants: a number that is read lies in the range of its quantity; a refusal is a fault about
 * that quantity, and has a sentence; what the strict form reads, the other form reads as the same
 * number or asks back about it. */
#include "fuzz.h"

#include "calc/range.h"
#include "wording/sentence.h"

static void
check_refusal (const GError *error, SwQuantityName quantity)
{
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  g_autofree char *sentence = NULL;

  g_assert_nonnull (sw_fault_get (error));
  g_assert_true (sw_fault_get (error)->quantity == quantity);
  sentence = sw_say_error (wording, error);
  g_assert_true (*sentence != '\0' && g_utf8_validate (sentence, -1, NULL));
}

static void
check_strict (const char *text, SwQuantityName quantity, SwUnit unit)
{
  SwParsedAmount strict;
  SwParsedAmount loose;
  g_autoptr (GError) error = NULL;

  if (!sw_number_parse_strict (text, quantity, unit, &strict, &error))
    {
      check_refusal (error, quantity);
      return;
    }
  g_assert_no_error (error);
  g_assert_true (sw_range_check (quantity, strict.value, NULL));
  if (sw_number_parse (text, quantity, unit, &loose, &error))
    g_assert_true (loose.value == strict.value);
  else
    g_assert_true (error->code == SW_FAULT_AMBIGUOUS && sw_fault_get (error)->low == strict.value);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  SwQuantityName quantity;
  SwUnit unit = SW_UNIT_NONE;
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  SwParsedAmount parsed;

  if (size < 1)
    return 0;
  quantity = (SwQuantityName)(data[0] % SW_N_QUANTITIES);
  /* The range's own unit, so that its range can be asked about the result. */
  if (!sw_range_get (quantity, NULL, NULL, &unit))
    return 0;
  text = fuzz_text (data + 1, size - 1);
  if (sw_number_parse (text, quantity, unit, &parsed, &error))
    g_assert_true (sw_range_check (quantity, parsed.value, NULL));
  else
    check_refusal (error, quantity);
  check_strict (text, quantity, unit);
  return 0;
}
