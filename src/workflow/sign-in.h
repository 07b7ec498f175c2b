/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Secrets: set, and asked for again. Argon2id through libsodium; the text never reaches the file, a
 * log, or memory longer than the call (the caller wipes its own copy: sodium_memzero).
 *
 * Wrong attempts in a row make the next one wait: 0, 0, 2, 4, 8, ... s, at most 5 min. They are
 * counted from the file (sign_in), so a restart does not help.
 */
#pragma once

#include "workflow/rights.h"

G_BEGIN_DECLS

/* Length of a secret, characters (UTF-8): NIST SP 800-63B 5.1.1.2 asks for at least 8 and no rules
 * about which. */
#define SW_SECRET_SHORTEST 8
#define SW_SECRET_LONGEST 256
/* Secrets are compared in Unicode form NFC, so that another keyboard types the same one. */

/* One attempt, written as a sign_in row. TRUE: @signer is that person, SW_IDENTIFIED_SECRET.
 * FALSE: refusal SW_FACT_WRONG_SECRET, SW_FACT_WAIT (number[0] minutes still to wait; the secret
 * was not looked at), SW_FACT_NO_SECRET_YET, SW_FACT_PERSON_INACTIVE; or SW_RECORDS_ERROR. */
gboolean
sw_sign_in (SwStore *store, gint64 person, const char *secret, SwSigner *signer, GError **error);
/* The same question for a signature. A wrong one counts; a right one writes a row only when it ends
 * a run of wrong ones. */
gboolean
sw_sign_again (SwStore *store, gint64 person, const char *secret, SwSigner *signer, GError **error);
/* Milliseconds that @person has still to wait; 0 = none. Also 0 when the clock was set back since
 * the last wrong attempt: nobody knows how long ago that was, so the next attempt is refused and
 * begins the wait anew by the present clock. */
gint64 sw_sign_in_wait_ms (SwStore *store, gint64 person, gint64 now_ms);

/* Sets a secret. For oneself: @old must be right when there is one, and the new one another. For
 * somebody else: @actor needs SW_RIGHT_SET_UP and the secret is marked as given (secret_given_by).
 * A first secret of one's own can be set by the first administrator (no active administrator has
 * one) and by a technician who may work by name; to all others it is given (SW_FACT_NO_SECRET_YET).
 * Too short or too long (in characters): SW_FAULT_ERROR, SW_QUANTITY_SECRET; the fault never holds
 * the text. */
gboolean sw_secret_set (SwStore *store,
                        const SwActor *actor,
                        gint64 person,
                        const char *old,
                        const char *secret,
                        GError **error);
/* Wipes a copy of a secret and frees it. Accepts NULL. */
void sw_secret_wipe (char *secret);
/* Whether it can be a secret. Else SW_FAULT_ERROR about SW_QUANTITY_SECRET: its length, or no valid
 * UTF-8; the fault holds the number of characters, never the text. */
gboolean sw_secret_check (const char *secret, GError **error);
/* TRUE when an active administrator has a secret: the file is guarded. */
gboolean sw_secret_guarded (SwStore *store, gboolean *guarded, GError **error);

G_END_DECLS
