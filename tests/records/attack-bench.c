/* SPDX-License-Identifier: GPL-3.0-or-later */
/* See attack-bench.h. */
#include "attack-bench.h"

#include <glib/gstdio.h>

gint64
attack_sign (AttackBench *bench)
{
  GError *error = NULL;
  gint64 seq = 0;

  sw_checkpoint_sign (bench->file.store, bench->trust, &seq, &error);
  g_assert_no_error (error);
  g_assert_cmpint (seq, >, 0);
  return seq;
}

void
attack_add_people (AttackBench *bench, const char *initials, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *one = g_strdup_printf ("%s%u", initials, i);

      bench->file.now_ms += 1000;
      fixture_add_person (&bench->file, one);
    }
}

void
attack_set_up (AttackBench *bench, gconstpointer data)
{
  fixture_set_up (&bench->file, NULL);
  bench->trust = g_build_filename (bench->file.folder, "trust", NULL);
  bench->yesterday = g_strconcat (bench->file.path, ".yesterday", NULL);
  attack_add_people (bench, "A", 4);
  bench->first_seq = attack_sign (bench);
  g_assert_true (sw_store_copy (bench->file.store, bench->yesterday, NULL));
  bench->file.now_ms += DAY_MS;
  attack_add_people (bench, "B", 12);
  bench->exported = sw_journal_head (bench->file.store, NULL);
  bench->second_seq = attack_sign (bench);
  attack_add_people (bench, "C", 1);
  bench->last_seq = fixture_ask (&bench->file, "SELECT max(seq) FROM journal");
  fixture_close (&bench->file);
}

void
attack_tear_down (AttackBench *bench, gconstpointer data)
{
  fixture_tear_down (&bench->file, data);
  g_free (bench->trust);
  g_free (bench->yesterday);
  g_free (bench->exported);
}

void
attack_put_back (AttackBench *bench)
{
  g_assert_cmpint (g_rename (bench->yesterday, bench->file.path), ==, 0);
}

SwVerifyReport *
attack_verify (AttackBench *bench, const SwVerifyOptions *options)
{
  SwVerifyReport *report;
  GError *error = NULL;

  fixture_open (&bench->file, SW_OPEN_READ_ONLY);
  report = sw_verify_with (bench->file.store, options, NULL, NULL, &error);
  g_assert_no_error (error);
  fixture_close (&bench->file);
  return report;
}

const SwFinding *
attack_find (GPtrArray *findings, SwFindingKind kind)
{
  for (guint i = 0; i < findings->len; i++)
    if (((SwFinding *)findings->pdata[i])->kind == kind)
      return findings->pdata[i];
  return NULL;
}

const SwFinding *
attack_get (GPtrArray *findings, SwFindingKind kind)
{
  const SwFinding *finding = attack_find (findings, kind);

  if (finding == NULL)
    g_error ("no finding of kind %d among %u", (int)kind, findings->len);
  return finding;
}

void
attack_assert_finds (AttackBench *bench, const SwVerifyOptions *options, int kind)
{
  g_autoptr (SwVerifyReport) report = attack_verify (bench, options);

  if (kind < 0)
    g_assert_cmpuint (report->findings->len, ==, 0);
  else
    g_assert_nonnull (attack_find (report->findings, (SwFindingKind)kind));
}
