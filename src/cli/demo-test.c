/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One invented person does one guided test, page by page, as the program asks for it. */
#include "cli/demo-private.h"

#include "workflow/incident.h"

#define SAMPLE_ML 50.0
#define STRONG_DROPS 4.0 /* further off than this the strip is so yellow that two drops go in */
#define STRUCK_SHARE 0.02

/* What the flask would need, and who holds the dropper. */
typedef struct
{
  SwDemo *demo;
  SwDemoMachine *machine;
  SwGuidedTest *test; /* Owned */
  gint64 person;
  double needs; /* drops; 0 or less: passes at once */
} Bench;

static gint64
find_field (const SwGuidedTest *test, SwField meaning)
{
  GPtrArray *fields = sw_guided_test_get_fields (test);

  for (guint i = 0; i < fields->len; i++)
    {
      const SwColourField *field = fields->pdata[i];

      if (field->meaning == meaning)
        return field->record.id;
    }
  return 0;
}

static char *
pick_appearance (SwDemo *demo)
{
  gsize n = 0;
  g_auto (GStrv) words = g_key_file_get_string_list (demo->texts, "words", "appearance", &n, NULL);

  g_return_val_if_fail (n > 0, NULL);
  return g_strdup (words[g_rand_int_range (demo->random, 0, (gint32)n)]);
}

/* ---- draw and prepare ---- */

static gboolean
draw (Bench *bench, GError **error)
{
  SwDemo *demo = bench->demo;
  const double volume = 10.0 * g_rand_int_range (demo->random, 12, 19);
  const double temperature = 0.5 * g_rand_int_range (demo->random, 38, 50);
  g_autofree char *volume_text = g_strdup_printf ("%g mL", volume);
  g_autofree char *temperature_text = g_strdup_printf ("%.1f degC", temperature);
  g_autofree char *appearance = pick_appearance (demo);
  const SwDrawEntry entry = { .point = bench->machine->point,
                              .running = SW_ANSWER_YES,
                              .level_ok = SW_ANSWER_YES,
                              .added_since = SW_ANSWER_NO,
                              .volume = { .value = volume, .typed = volume_text },
                              .temperature = { .value = temperature, .typed = temperature_text },
                              .appearance = appearance,
                              .retained = TRUE };

  sw_demo_wait (demo, 3.0);
  return sw_guided_test_draw (bench->test, &entry, error);
}

static gboolean
prepare (Bench *bench, GError **error)
{
  const SwPrepareEntry entry = { .portion = { .value = SAMPLE_ML, .typed = (char *)"50 mL" },
                                 .titrant_lot = bench->demo->product_lot,
                                 .strip_lot = bench->demo->strip_lot };

  /* the sample cools, closed */
  sw_demo_wait (bench->demo, 12.0);
  return sw_guided_test_prepare (bench->test, &entry, error);
}

/* ---- read ---- */

static gboolean
shake_and_read (Bench *bench, SwField meaning, GError **error)
{
  if (!sw_guided_test_shake (bench->test, error))
    return FALSE;
  sw_demo_wait (bench->demo, 1.3);
  return sw_guided_test_read (bench->test, find_field (bench->test, meaning), error);
}

/* Now and then a strip is read too late: the reading is struck and made again. */
static gboolean
read_strip (Bench *bench, SwField meaning, GError **error)
{
  g_autofree char *reason = NULL;

  if (!shake_and_read (bench, meaning, error))
    return FALSE;
  if (g_rand_double (bench->demo->random) > STRUCK_SHARE)
    return TRUE;
  reason = sw_demo_text (bench->demo, "words", "struck");
  return sw_guided_test_strike (bench->test, FALSE, reason, error)
         && shake_and_read (bench, meaning, error);
}

static gboolean
titrate (Bench *bench, GError **error)
{
  double total = 0.0;

  while (total < bench->needs)
    {
      const double steps = bench->needs - total > STRONG_DROPS ? 2.0 : 1.0;

      if (!read_strip (bench, SW_FIELD_ACID, error)
          || !sw_guided_test_add (bench->test, steps, error))
        return FALSE;
      total += steps;
      sw_demo_wait (bench->demo, 0.2);
    }
  /* it must hold on a second strip */
  if (!read_strip (bench, SW_FIELD_NEUTRAL, error))
    return FALSE;
  return read_strip (bench, SW_FIELD_NEUTRAL, error);
}

/* ---- result, signature ---- */

static gboolean
finish (Bench *bench, GError **error)
{
  const SwSigner signer = sw_demo_signer (bench->person);

  if (!sw_guided_test_close (bench->test, error))
    return FALSE;
  sw_demo_wait (bench->demo, 0.5);
  if (sw_guided_test_get_step (bench->test) == SW_STEP_RESULT
      && !sw_guided_test_accept (bench->test, error))
    return FALSE;
  sw_demo_wait (bench->demo, 1.0);
  if (!sw_guided_test_sign (bench->test, &signer, error))
    return FALSE;
  bench->demo->counts.tests++;
  return TRUE;
}

/* ---- dose ---- */

static gboolean
add_dose (Bench *bench, GError **error)
{
  SwDemo *demo = bench->demo;
  SwDemoMachine *machine = bench->machine;
  const SwDoseRow *dose = sw_guided_test_get_dose (bench->test);
  g_autofree char *typed = g_strdup_printf ("%g mL", dose->measured_ml);
  const SwAddedEntry entry
      = { .added = { .value = dose->measured_ml, .typed = typed }, .lot = demo->product_lot };
  const double drops = dose->measured_ml / dose->per_step_ml;
  const gint64 id = dose->record.id;

  sw_demo_wait (demo, 9.0);
  if (!sw_guided_test_record_added (bench->test, &entry, error))
    return FALSE;
  sw_demo_machine_age (demo, machine, demo->now_ms);
  machine->acid -= drops;
  machine->answers_dose = id;
  machine->next_ms = sw_guided_test_get_dose (bench->test)->retest_due_ms;
  demo->counts.doses++;
  return TRUE;
}

static gboolean
dose (Bench *bench, GError **error)
{
  SwDemo *demo = bench->demo;
  g_auto (SwDoseProposal) proposal = { 0 };
  g_autofree char *reason = sw_demo_text (demo, "words", "extra");
  const double extra = bench->machine->extra;
  const SwSigner release = sw_demo_signer (demo->reviewer);

  sw_demo_wait (demo, 2.0);
  if (!sw_guided_test_propose (bench->test, extra, &proposal, error))
    return FALSE;
  if (proposal.refusal.code != SW_FACT_NONE)
    return sw_guided_test_no_dose (bench->test, error);
  return sw_guided_test_decide_dose (bench->test, extra, reason, &release, error)
         && add_dose (bench, error);
}

/* ---- incident ---- */

/* The reviewer signs an incident whose re-test passed, some hours later; the newest ones wait. */
static gboolean
close_incident (SwDemo *demo, SwDemoMachine *machine, GError **error)
{
  const SwActor actor = sw_demo_actor (demo, demo->reviewer);
  const SwSigner signer = sw_demo_signer (demo->reviewer);
  const gint64 id = sw_incident_open_id (demo->store, machine->id, error);
  g_autoptr (SwIncident) incident = id != 0 ? sw_incident_load (demo->store, id, error) : NULL;
  g_autofree char *cause = sw_demo_text (demo, "words", "cause");

  if (incident == NULL)
    return id == 0 && (error == NULL || *error == NULL);
  if (incident->state != SW_INCIDENT_RETEST_PASSED
      || demo->now_ms > demo->end_ms - 2 * SW_DEMO_DAY_MS)
    return TRUE;
  sw_demo_wait (demo, 20.0);
  return sw_incident_close (demo->store, &actor, id, cause, &signer, error);
}

/* ---- whole tests ---- */

static gboolean
begin (Bench *bench, GError **error)
{
  SwDemo *demo = bench->demo;
  const gint64 answers = bench->machine->answers_dose;
  SwActor actor;

  sw_demo_machine_age (demo, bench->machine, demo->now_ms);
  bench->needs = bench->machine->acid + bench->machine->noise * sw_demo_gauss (demo);
  bench->person = g_rand_double (demo->random) < 0.6 ? demo->technician : demo->colleague;
  actor = sw_demo_actor (demo, bench->person);
  bench->test = sw_guided_test_begin (demo->store, &actor, bench->machine->plan,
                                      answers != 0 ? SW_PURPOSE_RETEST : SW_PURPOSE_ROUTINE,
                                      answers, error);
  return bench->test != NULL && draw (bench, error) && prepare (bench, error);
}

/* When the plan wants the next one, or a little before: the plant works around the clock. */
static void
set_next (Bench *bench)
{
  const SwDecision *decision = sw_guided_test_get_decision (bench->test);
  SwDemo *demo = bench->demo;
  const double days = decision->interval_days * g_rand_double_range (demo->random, 0.86, 1.0);

  bench->machine->next_ms = demo->now_ms + (gint64)(days * (double)SW_DEMO_DAY_MS);
}

gboolean
sw_demo_test (SwDemo *demo, SwDemoMachine *machine, GError **error)
{
  Bench bench = { .demo = demo, .machine = machine };
  gboolean done = begin (&bench, error) && titrate (&bench, error) && finish (&bench, error);

  machine->answers_dose = 0;
  if (done)
    set_next (&bench);
  if (done && sw_guided_test_get_step (bench.test) == SW_STEP_DOSE)
    done = dose (&bench, error);
  sw_guided_test_free (bench.test);
  return done && close_incident (demo, machine, error);
}

gboolean
sw_demo_open_test (SwDemo *demo, SwDemoMachine *machine, GError **error)
{
  Bench bench = { .demo = demo, .machine = machine };
  gboolean done = begin (&bench, error) && read_strip (&bench, SW_FIELD_ACID, error)
                  && sw_guided_test_add (bench.test, 1.0, error)
                  && read_strip (&bench, SW_FIELD_ACID, error)
                  && sw_guided_test_add (bench.test, 1.0, error);

  sw_guided_test_free (bench.test);
  return done;
}
