/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The trust folder: this PC's key, and the copies of checkpoints. Its form: checkpoint.h. */
#pragma once

#include "records/store-private.h"

#include <sodium.h>

G_BEGIN_DECLS

#define SW_KEY_LENGTH 64        /* hex digits of a public key */
#define SW_SIGNATURE_LENGTH 128 /* hex digits of a signature */

typedef struct
{
  unsigned char secret[crypto_sign_SECRETKEYBYTES];
  char public_key[SW_KEY_LENGTH + 1];
} SwTrustKey;

/* One line of a site's checkpoints. */
typedef struct
{
  gint64 seq;
  char head[SW_HASH_LENGTH + 1];
  gint64 utc_ms;
  char key[SW_KEY_LENGTH + 1];
  char signature[SW_SIGNATURE_LENGTH + 1];
} SwTrustLine;

gboolean sw_trust_key_from_seed (const unsigned char *seed, SwTrustKey *key);
/* Makes folder and key when they are not there. Wipe the key after use. */
gboolean sw_trust_key_load (const char *folder, SwTrustKey *key, GError **error);
/* Only looks: FALSE when there is no key that can be read. */
gboolean sw_trust_key_peek (const char *folder, char public_key[SW_KEY_LENGTH + 1]);
void sw_trust_key_wipe (SwTrustKey *key);
/* The signature in hex of a message. (transfer full) */
char *sw_trust_key_sign (const SwTrustKey *key, const char *message);

/* One line without its end; FALSE when it is none. Its signature is not looked at. */
gboolean sw_trust_line_parse (const char *text, SwTrustLine *line);
/* SwTrustLine in the order of the file; empty when there is no file. *n_unreadable: lines that are
 * none. Signatures are not looked at. (transfer full) */
GArray *
sw_trust_lines_read (const char *folder, const char *uuid, guint *n_unreadable, GError **error);
/* On the disk when it returns. */
gboolean sw_trust_line_append (const char *folder,
                               const char *uuid,
                               const SwTrustLine *line,
                               GError **error);

G_END_DECLS
