/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings of verify in whole sentences: one function per kind, found through a table. */
#include "wording/sentence-verify.h"

#include <glib/gi18n.h>

#include "wording/number.h"
#include "wording/sentence.h"
#include "wording/time.h"

static const char *
or_nothing (const SwWording *wording, const char *text)
{
  /* Translators: stands for a value that is not there. */
  return text != NULL ? text : sw_trc (wording, "value", "nothing");
}

/* Whole, whatever its size. */
static char *
say_count (const SwWording *wording, gint64 count)
{
  return sw_number_format (wording, (double)count, 15);
}

/* ---- findings ---- */

static char *
say_integrity (const SwWording *wording, const SwVerifyFact *fact)
{
  if (fact->record != NULL)
    /* Translators: %s is a record, such as "Lot L-1". */
    return g_strdup_printf (sw_tr (wording, "%s belongs to a record that is not there."),
                            fact->record);
  /* Translators: %s are the database engine's own words, in English. */
  return g_strdup_printf (sw_tr (wording, "The database itself is damaged: %s"),
                          or_nothing (wording, fact->text));
}

static char *
say_schema (const SwWording *wording, const SwVerifyFact *fact)
{
  /* Translators: %s is a part of the database, such as "trigger reading_update". */
  return g_strdup_printf (
      sw_tr (wording,
             "Another tool changed the structure of the file: %s is not as this program made it."),
      or_nothing (wording, fact->text));
}

static char *
say_chain (const SwWording *wording, const SwVerifyFact *fact)
{
  g_autofree char *seq = say_count (wording, fact->seq);

  /* Translators: number of a journal entry; name of a part of it, such as "hash". */
  return g_strdup_printf (
      sw_tr (wording, "Journal entry %s was changed by another tool, or one before it is gone: its "
                      "%s does not fit."),
      seq, or_nothing (wording, fact->column));
}

static char *
say_row_changed (const SwWording *wording, const SwVerifyFact *fact)
{
  /* Translators: a record, the name of a field, what the journal says, what stands there. */
  return g_strdup_printf (
      sw_tr (wording, "%s: another tool changed the field “%s”. By the journal it is %s, in the "
                      "file stands %s."),
      fact->record, or_nothing (wording, fact->column), or_nothing (wording, fact->expected),
      or_nothing (wording, fact->found));
}

static char *
say_row_unknown (const SwWording *wording, const SwVerifyFact *fact)
{
  /* Translators: %s is a record. */
  return g_strdup_printf (
      sw_tr (wording, "%s was put into the file by another tool: the journal does not know it."),
      fact->record);
}

static char *
say_row_missing (const SwWording *wording, const SwVerifyFact *fact)
{
  /* Translators: %s is a record. */
  return g_strdup_printf (
      sw_tr (wording, "%s was taken out of the file by another tool: the journal has it."),
      fact->record);
}

static char *
say_result (const SwWording *wording, const SwVerifyFact *fact)
{
  if (fact->text != NULL)
    /* Translators: %s is a record. */
    return g_strdup_printf (
        sw_tr (wording, "%s: the result cannot be worked out from what was read."), fact->record);
  /* Translators: a record, the name of a field, what it should be, what stands there. */
  return g_strdup_printf (
      sw_tr (wording, "%s: the field “%s” does not follow from what was read. It should be %s, and "
                      "is %s."),
      fact->record, or_nothing (wording, fact->column), or_nothing (wording, fact->expected),
      or_nothing (wording, fact->found));
}

static char *
say_checkpoint (const SwWording *wording, const SwVerifyFact *fact)
{
  g_autofree char *time = sw_date_time_format (wording, fact->utc_ms);

  if (g_strcmp0 (fact->column, "signature") == 0)
    /* Translators: %s is a date and time. */
    return g_strdup_printf (
        sw_tr (wording, "The checkpoint of %s is not genuine: its signature does not fit."), time);

  g_autofree char *seq = say_count (wording, fact->seq);
  /* Translators: a date and time; the number of a journal entry. */
  return g_strdup_printf (
      sw_tr (wording, "The checkpoint of %s signed another journal: entry %s is not the one that "
                      "stood there then."),
      time, seq);
}

/* ---- heads ---- */

static char *
say_lost_checkpoint (const SwWording *wording, const SwVerifyFact *fact)
{
  g_autofree char *time = sw_date_time_format (wording, fact->utc_ms);
  g_autofree char *seq = say_count (wording, fact->seq);
  g_autofree char *kept = say_count (wording, fact->kept_seq);

  if (fact->kept_seq == 0)
    /* Translators: the number of a journal entry; a date and time. */
    return g_strdup_printf (
        sw_tr (wording, "The file was put back to an earlier state, shortened, or rewritten: entry "
                        "%s, which was signed on %s, is not in it. None of what was signed before "
                        "is there either."),
        seq, time);
  /* Translators: numbers of journal entries and a date and time: lost entry, when signed, last
   * entry that is there. */
  return g_strdup_printf (
      sw_tr (wording,
             "The file was put back to an earlier state, shortened, or rewritten: entry %s, "
             "which was signed on %s, is not in it. What was signed up to entry %s is "
             "there."),
      seq, time, kept);
}

static char *
say_head (const SwWording *wording, const SwVerifyFact *fact)
{
  if (g_strcmp0 (fact->table, "restoration") == 0)
    {
      g_autofree char *time = sw_date_time_format (wording, fact->utc_ms);

      /* Translators: %s is a date and time. */
      return g_strdup_printf (
          sw_tr (wording, "The restoration of %s says that it went on from another journal than "
                          "this one."),
          time);
    }
  if (fact->seq != 0)
    return say_lost_checkpoint (wording, fact);
  /* Translators: %s is a row of 64 digits. */
  return g_strdup_printf (
      sw_tr (wording, "The head %s is not in this file. It was put back to an earlier state, "
                      "shortened, or rewritten since that head was printed, or the head is of "
                      "another file."),
      or_nothing (wording, fact->expected));
}

/* ---- notes ---- */

static char *
say_key_note (const SwWording *wording, const SwVerifyFact *fact)
{
  g_autofree char *time = sw_date_time_format (wording, fact->utc_ms);

  if (g_strcmp0 (fact->column, "line") == 0)
    {
      gulong n = (gulong)fact->count;

      return g_strdup_printf (
          sw_trn (wording,
                  "%lu line of this PC's folder of checkpoints cannot be read or is not genuine.",
                  "%lu lines of this PC's folder of checkpoints cannot be read or are not genuine.",
                  n),
          n);
    }
  /* Translators: a date and time; a row of 64 digits. */
  return g_strdup_printf (
      sw_tr (wording, "The checkpoint of %s was signed with a key that this PC does not know, as "
                      "when the file was used on another PC. Compare it there: %s"),
      time, or_nothing (wording, fact->found));
}

static char *
say_restoration_note (const SwWording *wording, const SwVerifyFact *fact)
{
  g_autofree char *time = sw_date_time_format (wording, fact->utc_ms);
  g_autofree char *kept = say_count (wording, fact->kept_seq);
  g_autofree char *lost = say_count (wording, fact->seq);
  /* Translators: stands where a name would, for what the program did by itself. */
  const char *person = fact->person != NULL ? fact->person : sw_trc (wording, "who", "the program");

  if (fact->seq == 0)
    /* Translators: a date and time, a person, a file's name, the number of a journal entry. */
    return g_strdup_printf (
        sw_tr (wording, "On %s %s put the backup %s in the place of a file that could not be read. "
                        "Whatever came after entry %s was given up."),
        time, person, or_nothing (wording, fact->text), kept);
  /* Translators: a date and time, a person, a file's name, numbers of two journal entries. */
  return g_strdup_printf (
      sw_tr (wording,
             "On %s %s put the backup %s in the place of the file. What came after entry %s, "
             "up to entry %s, was given up."),
      time, person, or_nothing (wording, fact->text), kept, lost);
}

static char *
say_version_note (const SwWording *wording, const SwVerifyFact *fact)
{
  g_autofree char *version = say_count (wording, fact->count);

  /* Translators: a record, the number of a version, the name of a field, today's value, the stored
   * value. */
  return g_strdup_printf (
      sw_tr (wording, "%s was worked out by version %s of the calculation. Today's gives for the "
                      "field “%s” %s instead of %s. A changed calculation is no tampering."),
      fact->record, version, or_nothing (wording, fact->column),
      or_nothing (wording, fact->expected), or_nothing (wording, fact->found));
}

/* ---- the table ---- */

#define KEEP_AND_ASK                                                                               \
  N_ ("Copy the file as it is, before anybody works in it. Then ask who had access to it, and "    \
      "compare it with a backup from before.")
#define TRUST_NOTHING_SINCE                                                                        \
  N_ ("Find out who did it, and compare with backups and earlier exports. Until then treat every " \
      "machine as not tested since the last entry that is there: a dose may have been added that " \
      "this file does not know. Test before you dose.")

static const struct
{
  char *(*say) (const SwWording *, const SwVerifyFact *);
  const char *advice;
} kinds[] = {
  [SW_TOLD_INTEGRITY]
  = { say_integrity, N_ ("Do not work in this file. Restore the newest backup in which nothing is "
                         "found, and keep this file for whoever looks into it.") },
  [SW_TOLD_SCHEMA] = { say_schema, KEEP_AND_ASK },
  [SW_TOLD_CHAIN] = { say_chain, KEEP_AND_ASK },
  [SW_TOLD_ROW_CHANGED] = { say_row_changed, KEEP_AND_ASK },
  [SW_TOLD_ROW_UNKNOWN] = { say_row_unknown, KEEP_AND_ASK },
  [SW_TOLD_ROW_MISSING] = { say_row_missing, KEEP_AND_ASK },
  [SW_TOLD_RESULT] = { say_result, N_ ("Do not dose by it. Repeat the test.") },
  [SW_TOLD_CHECKPOINT] = { say_checkpoint, TRUST_NOTHING_SINCE },
  [SW_TOLD_HEAD] = { say_head, TRUST_NOTHING_SINCE },
  [SW_TOLD_VERSION] = { say_version_note, NULL },
};
G_STATIC_ASSERT (G_N_ELEMENTS (kinds) == SW_N_TOLD);

char *
sw_say_finding (const SwWording *wording, const SwVerifyFact *fact)
{
  g_return_val_if_fail ((int)fact->kind >= 0 && fact->kind < SW_N_TOLD, NULL);
  return kinds[fact->kind].say (wording, fact);
}

const char *
sw_say_finding_advice (const SwWording *wording, SwTold kind)
{
  g_return_val_if_fail ((int)kind >= 0 && kind < SW_N_TOLD, NULL);
  return kinds[kind].advice != NULL ? sw_tr (wording, kinds[kind].advice) : NULL;
}

char *
sw_say_note (const SwWording *wording, const SwVerifyFact *fact)
{
  if (fact->kind == SW_TOLD_CHECKPOINT)
    return say_key_note (wording, fact);
  if (fact->kind == SW_TOLD_HEAD)
    return say_restoration_note (wording, fact);
  return sw_say_finding (wording, fact);
}

/* ---- the whole ---- */

char *
sw_say_verify_headline (const SwWording *wording, guint n_findings)
{
  if (n_findings == 0)
    return g_strdup (sw_tr (wording, "Nothing was found"));
  return g_strdup_printf (sw_trn (wording, "%lu finding", "%lu findings", (gulong)n_findings),
                          (gulong)n_findings);
}

char *
sw_say_verify_scope (const SwWording *wording,
                     gint64 journal_rows,
                     gint64 record_rows,
                     gint64 chain_from,
                     gint64 outside)
{
  g_autofree char *entries = say_count (wording, journal_rows);
  g_autofree char *records = say_count (wording, record_rows);
  g_autofree char *from = say_count (wording, chain_from);
  g_autofree char *checkpoints = say_count (wording, MAX (outside, 0));
  /* Translators: numbers of journal entries and of records. */
  g_autofree char *looked = g_strdup_printf (
      sw_tr (wording, "%s journal entries and %s records were looked at."), entries, records);
  /* Translators: %s is the number of a journal entry. */
  g_autofree char *quick
      = chain_from > 1 ? g_strdup_printf (
            sw_tr (wording, "The chain was computed from entry %s on; up to there "
                            "a checkpoint was believed."),
            from)
                       : NULL;
  /* Translators: %s is a number. */
  g_autofree char *compared = g_strdup_printf (
      sw_tr (wording, "Checkpoints of this PC that it was compared with: %s."), checkpoints);
  const char *with
      = outside > 0 ? compared
                    : sw_tr (wording, "This PC has no checkpoint of this file to compare it with.");

  /* sentences in a row, each whole by itself */
  return quick != NULL ? g_strjoin (" ", looked, quick, with, NULL)
                       : g_strjoin (" ", looked, with, NULL);
}

static const char *const limits[] = {
  N_ ("A strip that was read wrongly, a number that was wrong when it was typed, a sample from "
      "another machine."),
  N_ ("What was lost after the newest checkpoint or printed head: nobody has signed for it yet."),
  N_ ("What was done by somebody who has both this PC's disk and its key. Heads that were printed "
      "and "
      "kept elsewhere find that, too."),
  N_ ("Who really sat at the PC, where people work by name alone or leave it signed in."),
};

const char *
sw_say_verify_limit (const SwWording *wording, guint i)
{
  return i < G_N_ELEMENTS (limits) ? sw_tr (wording, limits[i]) : NULL;
}

/* ---- the banner ---- */

char *
sw_say_loss (const SwWording *wording, const SwLossFacts *facts)
{
  g_autofree char *seq = say_count (wording, facts->seq);
  g_autofree char *lost = say_count (wording, facts->seq - facts->kept_seq);
  g_autofree char *time = sw_date_time_format (wording, facts->utc_ms);
  g_autofree char *kept = sw_date_time_format (wording, facts->kept_utc_ms);

  if (facts->read_only)
    /* Translators: the number of a journal entry; a date and time. */
    return g_strdup_printf (
        sw_tr (wording,
               "This file does not hold what this PC signed as entry %s on %s. A backup or a "
               "snapshot does not; of the records in use it would mean that they were put "
               "back to an earlier state, or shortened."),
        seq, time);
  if (facts->kept_seq == 0)
    /* Translators: the number of a journal entry; a date and time. */
    return g_strdup_printf (
        sw_tr (wording,
               "This file was put back to an earlier state, or shortened: nothing is in it "
               "of the %s entries that were signed up to %s. Test before you dose, and see "
               "Verify Records."),
        seq, time);
  /* Translators: a number of journal entries; two dates and times. */
  return g_strdup_printf (
      sw_tr (wording, "This file was put back to an earlier state, or shortened: up to %s entries "
                      "written between %s and %s are missing. Test before you dose, and see Verify "
                      "Records."),
      lost, kept, time);
}

char *
sw_say_trust_failed (const SwWording *wording, const char *folder, const char *why)
{
  /* Translators: a folder; a whole sentence that says why. */
  return g_strdup_printf (
      sw_tr (wording,
             "Work goes on, but no checkpoints can be kept in the folder %s: records that are "
             "put back or shortened would not be noticed on this PC. %s"),
      folder, why);
}
