/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The text of a secret: measured, hashed, compared.
 *
 * A letter with a mark on it comes as one character from one keyboard and as two from another
 * (Unicode Standard Annex 15): all is brought to form NFC first, and its copy is wiped.
 */
#include "workflow/secret-private.h"

#include "calc/fault.h"

#include <math.h>
#include <sodium.h>
#include <string.h>

/* The least of libsodium's three levels for people who wait ("interactive", about 0.1 s and 64 MiB
 * on a PC of today): the PCs at a bench are old, have little memory and do it in the window's
 * thread. Guessing away from the file is what this slows down; guessing at the bench is slowed down
 * by the waits of sign-in.c. */
const SwSecretCost sw_secret_cost = { .operations = crypto_pwhash_OPSLIMIT_INTERACTIVE,
                                      .memory_bytes = crypto_pwhash_MEMLIMIT_INTERACTIVE };

/* ---- form NFC, wiped after use ---- */

void
sw_secret_wipe (char *secret)
{
  if (secret == NULL)
    return;
  sodium_memzero (secret, strlen (secret));
  g_free (secret);
}

typedef char Wiped;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Wiped, sw_secret_wipe)

/* NULL: no valid UTF-8. (transfer full) */
static Wiped *
normalise (const char *secret)
{
  return secret != NULL ? g_utf8_normalize (secret, -1, G_NORMALIZE_NFC) : NULL;
}

gboolean
sw_secret_check (const char *secret, GError **error)
{
  g_autoptr (Wiped) text = normalise (secret);
  SwFault fault = { .code = SW_FAULT_RANGE,
                    .quantity = SW_QUANTITY_SECRET,
                    .value = NAN,
                    .low = SW_SECRET_SHORTEST,
                    .high = SW_SECRET_LONGEST };

  if (secret == NULL || *secret == '\0')
    fault.code = SW_FAULT_MISSING;
  else if (text == NULL)
    fault.code = SW_FAULT_TEXT;
  else
    {
      fault.value = (double)g_utf8_strlen (text, -1);
      if (fault.value >= fault.low && fault.value <= fault.high)
        return TRUE;
    }
  return sw_fault_set (error, &fault);
}

/* ---- Argon2id ---- */

static gboolean
start_library (void)
{
  return sodium_init () >= 0;
}

char *
sw_secret_hash (const char *secret, const SwSecretCost *cost, GError **error)
{
  g_autoptr (Wiped) text = normalise (secret);
  char hash[crypto_pwhash_STRBYTES];

  g_return_val_if_fail (text != NULL && cost != NULL, NULL);
  if (start_library ()
      && crypto_pwhash_str_alg (hash, text, strlen (text), cost->operations, cost->memory_bytes,
                                crypto_pwhash_ALG_ARGON2ID13)
             == 0)
    return g_strdup (hash);
  g_set_error_literal (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED,
                       "not enough memory to work on a secret");
  return NULL;
}

gboolean
sw_secret_matches (const char *hash, const char *secret)
{
  g_autoptr (Wiped) text = normalise (secret);

  return hash != NULL && text != NULL && start_library ()
         && crypto_pwhash_str_verify (hash, text, strlen (text)) == 0;
}
