/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Signed checkpoints: what is written where, what another program makes of it, and what a power cut
 * or a folder that cannot be written leaves behind. The attacks are in test-attack.c. */
#include "fixture.h"
#include "records/checkpoint-private.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>

typedef struct
{
  Fixture file;
  char *trust; /* Owned: the folder's path; not made yet */
} Bench;

static void
set_up (Bench *bench, gconstpointer data)
{
  fixture_set_up (&bench->file, data);
  bench->trust = g_build_filename (bench->file.folder, "data", "trust", NULL);
  fixture_add_person (&bench->file, "NI");
}

static void
tear_down (Bench *bench, gconstpointer data)
{
  fixture_tear_down (&bench->file, data);
  g_free (bench->trust);
}

static gint64
sign (Bench *bench)
{
  GError *error = NULL;
  gint64 seq = -1;

  sw_checkpoint_sign (bench->file.store, bench->trust, &seq, &error);
  g_assert_no_error (error);
  return seq;
}

static char *
get_uuid (Bench *bench)
{
  g_autoptr (SwSite) site = sw_site_get (bench->file.store, NULL);

  return g_strdup (site->uuid);
}

static char *
get_lines_path (Bench *bench)
{
  g_autofree char *uuid = get_uuid (bench);
  g_autofree char *name = g_strconcat (uuid, ".checkpoints", NULL);

  return g_build_filename (bench->trust, name, NULL);
}

static GArray *
read_lines (Bench *bench, guint *n_unreadable)
{
  g_autofree char *uuid = get_uuid (bench);
  GError *error = NULL;
  GArray *lines = sw_trust_lines_read (bench->trust, uuid, n_unreadable, &error);

  g_assert_no_error (error);
  return lines;
}

static guint
get_mode (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  struct stat state;

  g_assert_cmpint (stat (path, &state), ==, 0);
  return state.st_mode & 07777;
}

/* ---- what is written ---- */

static void
test_written (Bench *bench, gconstpointer data)
{
  gint64 before = fixture_ask (&bench->file, "SELECT max(seq) FROM journal");
  gint64 seq = sign (bench);
  g_autoptr (SwCheckpoint) row = sw_checkpoint_last (bench->file.store, NULL);
  guint n_unreadable;
  g_autoptr (GArray) lines = read_lines (bench, &n_unreadable);
  const SwTrustLine *line = &g_array_index (lines, SwTrustLine, 0);
  g_autofree char *uuid = get_uuid (bench);

  g_assert_cmpint (seq, ==, before);
  g_assert_cmpuint (lines->len, ==, 1);
  g_assert_cmpuint (n_unreadable, ==, 0);
  g_assert_cmpint (line->seq, ==, before);
  g_assert_cmpint (line->utc_ms, ==, FIXTURE_START_MS);
  g_assert_true (sw_trust_line_is_signed (line, uuid));
  g_assert_cmpint (row->seq, ==, line->seq);
  g_assert_cmpint (row->record.happened_ms, ==, line->utc_ms);
  g_assert_cmpstr (row->head, ==, line->head);
  g_assert_cmpstr (row->key, ==, line->key);
  g_assert_cmpstr (row->signature, ==, line->signature);
  g_assert_cmpint (fixture_ask (&bench->file, "SELECT count(*) FROM journal WHERE kind ="
                                              " 'checkpoint' AND identified_by = 'system'"),
                   ==, 1);
  fixture_assert_sound (&bench->file);
}

static void
test_modes (Bench *bench, gconstpointer data)
{
  g_autofree char *uuid = get_uuid (bench);
  g_autofree char *name = g_strconcat (uuid, ".checkpoints", NULL);
  g_autofree char *key = g_build_filename (bench->trust, "key", NULL);

  sign (bench);
  g_assert_cmpuint (get_mode (bench->trust, "."), ==, 0700);
  g_assert_cmpuint (get_mode (bench->trust, "key"), ==, 0600);
  g_assert_cmpuint (get_mode (bench->trust, name), ==, 0600);
  /* a copy of the folder may have lost the narrow mode */
  g_assert_cmpint (g_chmod (key, 0644), ==, 0);
  fixture_add_person (&bench->file, "OI");
  sign (bench);
  g_assert_cmpuint (get_mode (bench->trust, "key"), ==, 0600);
}

/* Nothing new, nothing signed; the same key again for what is new; a folder that was lost is
 * started anew, with another key. */
static void
test_again (Bench *bench, gconstpointer data)
{
  g_autoptr (SwCheckpoint) first = NULL;
  g_autoptr (SwCheckpoint) second = NULL;
  g_autoptr (SwCheckpoint) third = NULL;
  gint64 seq;

  g_assert_cmpint (sign (bench), >, 0);
  first = sw_checkpoint_last (bench->file.store, NULL);
  g_assert_cmpint (sign (bench), ==, 0);
  g_assert_cmpint (fixture_ask (&bench->file, "SELECT count(*) FROM checkpoint"), ==, 1);
  fixture_add_person (&bench->file, "OI");
  seq = sign (bench);
  second = sw_checkpoint_last (bench->file.store, NULL);
  g_assert_cmpint (seq, >, first->seq);
  g_assert_cmpstr (second->key, ==, first->key);
  g_free (fixture_run ("rm -r '%s'", bench->trust));
  g_assert_cmpint (sign (bench), >, seq);
  third = sw_checkpoint_last (bench->file.store, NULL);
  g_assert_cmpstr (third->key, !=, first->key);
}

/* The words of docs/file-format.md, by openssl. */
static void
test_openssl (Bench *bench, gconstpointer data)
{
  g_autoptr (SwCheckpoint) row = NULL;
  g_autofree char *uuid = get_uuid (bench);
  g_autofree char *answer = NULL;
  g_autofree char *refusal = NULL;
  static const char command[]
      = "cd '%s' && printf 'stillwarden checkpoint "
        "1\\nsite=%%s\\nseq=%%s\\nhead=%%s\\nutc_ms=%%s\\n'"
        " %s %" G_GINT64_FORMAT " %s %" G_GINT64_FORMAT " > message"
        " && printf 302a300506032b6570032100%%s %s | tr a-f A-F | basenc -d --base16 > key.der"
        " && printf %%s %s | tr a-f A-F | basenc -d --base16 > signature"
        " && openssl pkeyutl -verify -pubin -keyform DER -inkey key.der -rawin -in message"
        " -sigfile signature 2>&1 || true";

  sign (bench);
  row = sw_checkpoint_last (bench->file.store, NULL);
  answer = fixture_run (command, bench->file.folder, uuid, row->seq, row->head,
                        row->record.happened_ms, row->key, row->signature);
  g_assert_nonnull (strstr (answer, "Verified Successfully"));
  refusal = fixture_run (command, bench->file.folder, uuid, row->seq + 1, row->head,
                         row->record.happened_ms, row->key, row->signature);
  g_assert_nonnull (strstr (refusal, "Verification Failure"));
}

/* Another value anywhere in the message is another message. */
static void
test_message (void)
{
  unsigned char seed[crypto_sign_SEEDBYTES] = { 7 };
  g_autofree char *message = sw_checkpoint_message ("u", 12, "ab", 34);
  g_autofree char *signature = NULL;
  SwTrustKey key;

  g_assert_true (sw_trust_key_from_seed (seed, &key));
  signature = sw_trust_key_sign (&key, message);
  g_assert_cmpstr (message, ==, "stillwarden checkpoint 1\nsite=u\nseq=12\nhead=ab\nutc_ms=34\n");
  g_assert_true (sw_checkpoint_check (message, key.public_key, signature));
  for (gsize i = 0; i < strlen (message); i++)
    {
      message[i] ^= 1;
      g_assert_false (sw_checkpoint_check (message, key.public_key, signature));
      message[i] ^= 1;
    }
  g_assert_false (sw_checkpoint_check (message, key.public_key, "00"));
  g_assert_false (sw_checkpoint_check (message, "", signature));
}

/* ---- what goes wrong ---- */

/* The folder cannot be made, or its key or lines cannot be written: an error, and nothing of it in
 * the file, which can be worked in as before. */
typedef struct
{
  const char *name;
  const char *command; /* $T: the trust folder, $U: the site's UUID */
} BrokenCase;

static const BrokenCase broken_cases[] = {
  { "folder-is-file", "mkdir -p $(dirname $T) && touch $T" },
  { "key-is-folder", "mkdir -p $T/key" },
  { "key-is-nonsense", "mkdir -p $T && echo nonsense > $T/key" },
  { "lines-are-folder", "mkdir -p $T/$U.checkpoints" },
};

static void
test_broken (Bench *bench, gconstpointer data)
{
  const BrokenCase *row = data;
  g_autofree char *uuid = get_uuid (bench);
  g_autoptr (GError) error = NULL;
  gint64 before = fixture_ask (&bench->file, "SELECT max(seq) FROM journal");

  g_free (fixture_run ("T='%s'; U='%s'; %s", bench->trust, uuid, row->command));
  g_assert_false (sw_checkpoint_sign (bench->file.store, bench->trust, NULL, &error));
  g_assert_nonnull (error);
  g_assert_cmpint (error->domain, ==, SW_RECORDS_ERROR);
  g_assert_cmpint (fixture_ask (&bench->file, "SELECT max(seq) FROM journal"), ==, before);
  fixture_add_person (&bench->file, "OI");
  fixture_assert_sound (&bench->file);
}

/* The line's write is cut at every length: what was there before still counts, the torn line never
 * counts as another than itself, and the next one stands whole. */
static void
test_power_cut (Bench *bench, gconstpointer data)
{
  g_autofree char *path = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  gsize first;
  gsize both;

  sign (bench);
  path = get_lines_path (bench);
  g_assert_true (g_file_get_contents (path, &before, &first, NULL));
  fixture_add_person (&bench->file, "OI");
  sign (bench);
  g_assert_true (g_file_get_contents (path, &after, &both, NULL));
  for (gsize length = first; length <= both; length++)
    {
      g_autofree char *uuid = get_uuid (bench);
      g_autoptr (GArray) torn = NULL;
      g_autoptr (GArray) next = NULL;
      SwTrustLine line;
      guint n_unreadable;
      GError *error = NULL;
      gboolean whole = length + 1 >= both; /* only its LF is missing */

      g_assert_true (g_file_set_contents (path, after, (gssize)length, NULL));
      torn = read_lines (bench, &n_unreadable);
      g_assert_cmpuint (torn->len, ==, whole ? 2 : 1);
      line = g_array_index (torn, SwTrustLine, 0);
      sw_trust_line_append (bench->trust, uuid, &line, &error);
      g_assert_no_error (error);
      next = read_lines (bench, &n_unreadable);
      g_assert_cmpuint (next->len, ==, torn->len + 1);
      g_assert_cmpuint (n_unreadable, ==, whole || length == first ? 0 : 1);
    }
}

/* The line is on the disk, the row is not: the next signature makes up for it. */
static void
test_cut_between (Bench *bench, gconstpointer data)
{
  g_autofree char *saved = g_strconcat (bench->file.path, ".saved", NULL);
  SwCheckpointLoss loss;
  GError *error = NULL;
  guint n_unreadable;
  g_autoptr (GArray) lines = NULL;

  sw_store_copy (bench->file.store, saved, &error);
  g_assert_no_error (error);
  sign (bench);
  fixture_close (&bench->file);
  g_assert_cmpint (g_rename (saved, bench->file.path), ==, 0);
  fixture_open (&bench->file, SW_OPEN_WRITE);
  sw_checkpoint_compare (bench->file.store, bench->trust, &loss, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (loss.n_lost, ==, 0);
  g_assert_cmpint (sign (bench), >, 0);
  lines = read_lines (bench, &n_unreadable);
  g_assert_cmpuint (lines->len, ==, 2);
  fixture_assert_sound (&bench->file);
}

/* A file that names a path instead of a UUID gets none. */
static void
test_uuid_is_checked (Bench *bench, gconstpointer data)
{
  static const char *const bad[] = { "../../evil", "", "x/y", NULL };

  for (gsize i = 0; bad[i] != NULL; i++)
    {
      g_autoptr (GError) error = NULL;
      guint n_unreadable;

      g_assert_null (sw_trust_lines_read (bench->trust, bad[i], &n_unreadable, &error));
      g_assert_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_FAILED);
    }
}

/* ---- registration ---- */

static void
add (const char *name, gconstpointer data, void (*func) (Bench *, gconstpointer))
{
  g_autofree char *path = g_strdup_printf ("/records/checkpoint/%s", name);

  g_test_add (path, Bench, data, set_up, func, tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("written", NULL, test_written);
  add ("modes", NULL, test_modes);
  add ("again", NULL, test_again);
  add ("openssl", NULL, test_openssl);
  g_test_add_func ("/records/checkpoint/message", test_message);
  for (gsize i = 0; i < G_N_ELEMENTS (broken_cases); i++)
    {
      g_autofree char *name = g_strconcat ("broken/", broken_cases[i].name, NULL);

      add (name, &broken_cases[i], test_broken);
    }
  add ("power-cut", NULL, test_power_cut);
  add ("cut-between", NULL, test_cut_between);
  add ("uuid-is-checked", NULL, test_uuid_is_checked);
  return g_test_run ();
}
