/* SPDX-License-Identifier: GPL-3.0-or-later */
/* This PC's key: made on first use, kept in the trust folder, readable by its owner alone.
 *
 * The seed is written under another name and linked to its own, so that it is there whole or not at
 * all, and two programs that make one at the same time end up with the same.
 */
#include "records/trust-folder-private.h"

#include "records/checkpoint.h"
#include "records/path-private.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define SEED_DIGITS (2 * crypto_sign_SEEDBYTES)

char *
sw_trust_folder_dup_default (void)
{
  return g_build_filename (g_get_user_data_dir (), "stillwarden", "trust", NULL);
}

/* ---- keys ---- */

gboolean
sw_trust_key_from_seed (const unsigned char *seed, SwTrustKey *key)
{
  unsigned char public_key[crypto_sign_PUBLICKEYBYTES];

  if (sodium_init () < 0 || crypto_sign_seed_keypair (public_key, key->secret, seed) != 0)
    return FALSE;
  sodium_bin2hex (key->public_key, sizeof key->public_key, public_key, sizeof public_key);
  return TRUE;
}

void
sw_trust_key_wipe (SwTrustKey *key)
{
  sodium_memzero (key->secret, sizeof key->secret);
}

char *
sw_trust_key_sign (const SwTrustKey *key, const char *message)
{
  unsigned char signature[crypto_sign_BYTES];
  char digits[SW_SIGNATURE_LENGTH + 1];

  crypto_sign_detached (signature, NULL, (const unsigned char *)message, strlen (message),
                        key->secret);
  sodium_bin2hex (digits, sizeof digits, signature, sizeof signature);
  return g_strdup (digits);
}

/* ---- the key's file ---- */

static gboolean
fail (GError **error, const char *path, int number)
{
  SwRecordsError code = SW_RECORDS_ERROR_IO;

  if (number == EACCES || number == EROFS || number == EPERM)
    code = SW_RECORDS_ERROR_READ_ONLY;
  else if (number == ENOSPC || number == EDQUOT)
    code = SW_RECORDS_ERROR_DISK_FULL;
  return sw_path_error (error, code, path, g_strerror (number));
}

/* A copy or a restored backup of the folder may have lost the narrow mode. */
static gboolean
narrow_mode (int fd)
{
  struct stat state;

  return fstat (fd, &state) == 0
         && ((state.st_mode & 077) == 0 || fchmod (fd, state.st_mode & 0700) == 0);
}

/* Sets errno; EINVAL for a file that is no key. */
static gboolean
read_key (const char *path, SwTrustKey *key)
{
  char text[SEED_DIGITS + 1] = { 0 };
  unsigned char seed[crypto_sign_SEEDBYTES];
  int fd = open (path, O_RDONLY | O_CLOEXEC);
  gsize length = 0;
  gboolean good;

  if (fd < 0)
    return FALSE;
  good = narrow_mode (fd) && read (fd, text, SEED_DIGITS) == SEED_DIGITS
         && sodium_hex2bin (seed, sizeof seed, text, SEED_DIGITS, NULL, &length, NULL) == 0
         && length == sizeof seed && sw_trust_key_from_seed (seed, key);
  close (fd);
  sodium_memzero (text, sizeof text);
  sodium_memzero (seed, sizeof seed);
  errno = EINVAL;
  return good;
}

static gboolean
write_seed (int fd)
{
  unsigned char seed[crypto_sign_SEEDBYTES];
  char text[SEED_DIGITS + 1];
  gboolean written;

  randombytes_buf (seed, sizeof seed);
  sodium_bin2hex (text, sizeof text, seed, sizeof seed);
  text[SEED_DIGITS] = '\n';
  written = write (fd, text, sizeof text) == (ssize_t)sizeof text && fsync (fd) == 0;
  sodium_memzero (seed, sizeof seed);
  sodium_memzero (text, sizeof text);
  return written;
}

/* Sets errno. A key that somebody else made meanwhile is as good. */
static gboolean
make_key (const char *path)
{
  g_autofree char *fresh = g_strdup_printf ("%s.%d.new", path, (int)getpid ());
  int fd = open (fresh, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
  int number = 0;

  if (fd < 0)
    return FALSE;
  if (!write_seed (fd) || (link (fresh, path) != 0 && errno != EEXIST))
    number = errno;
  close (fd);
  g_unlink (fresh);
  errno = number;
  return number == 0;
}

gboolean
sw_trust_key_load (const char *folder, SwTrustKey *key, GError **error)
{
  g_autofree char *path = g_build_filename (folder, "key", NULL);

  if (sodium_init () < 0)
    return sw_path_error (error, SW_RECORDS_ERROR_FAILED, path, "no source of random numbers");
  if (g_mkdir_with_parents (folder, 0700) != 0)
    return fail (error, folder, errno);
  if (!g_file_test (path, G_FILE_TEST_EXISTS) && !make_key (path))
    return fail (error, path, errno);
  if (read_key (path, key))
    return TRUE;
  return fail (error, path, errno);
}

gboolean
sw_trust_folder_check (const char *folder, GError **error)
{
  SwTrustKey key;
  gboolean there;

  g_return_val_if_fail (folder != NULL, FALSE);
  there = sw_trust_key_load (folder, &key, error);
  sw_trust_key_wipe (&key);
  return there;
}

gboolean
sw_trust_key_peek (const char *folder, char public_key[SW_KEY_LENGTH + 1])
{
  g_autofree char *path = g_build_filename (folder, "key", NULL);
  SwTrustKey key;
  gboolean there = sodium_init () >= 0 && read_key (path, &key);

  g_strlcpy (public_key, there ? key.public_key : "", SW_KEY_LENGTH + 1);
  sw_trust_key_wipe (&key);
  return there;
}
