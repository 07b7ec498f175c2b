/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the invented machines turn sour.
 *
 *   d acid = rate(t) * (0.6 .. 1.4, another each day) * dt - doses
 *
 * with a rate that goes in a straight line from its first to its last value. The numbers are made
 * up; the shape is that of 2-calculations 2.6.
 */
#include "cli/demo-private.h"

#define SPREAD 0.4

double
sw_demo_gauss (SwDemo *demo)
{
  double sum = 0.0;

  /* Irwin-Hall: twelve uniform numbers have the variance 1 */
  for (int i = 0; i < 12; i++)
    sum += g_rand_double (demo->random);
  return sum - 6.0;
}

static gint64
days_before_end (const SwDemo *demo, double days)
{
  return demo->end_ms - (gint64)(days * (double)SW_DEMO_DAY_MS);
}

static SwDemoEnding
parse_ending (const char *word)
{
  if (g_str_equal (word, "due_today"))
    return SW_DEMO_ENDING_DUE_TODAY;
  if (g_str_equal (word, "retest"))
    return SW_DEMO_ENDING_RETEST;
  return g_str_equal (word, "open") ? SW_DEMO_ENDING_OPEN : SW_DEMO_ENDING_NONE;
}

static void
load_visits (SwDemo *demo, SwDemoMachine *machine, const char *group)
{
  gsize n = 0;
  g_autofree double *days = g_key_file_get_double_list (demo->texts, group, "visits", &n, NULL);

  if (days == NULL)
    return;
  machine->visits = g_array_new (FALSE, FALSE, sizeof (gint64));
  for (gsize i = 0; i < n; i++)
    {
      const gint64 at_ms = days_before_end (demo, days[i]);

      g_array_append_val (machine->visits, at_ms);
    }
}

void
sw_demo_machine_load (SwDemo *demo, SwDemoMachine *machine, const char *tag)
{
  g_autofree char *group = g_strconcat ("machine ", tag, NULL);
  g_autofree char *ending = sw_demo_text (demo, group, "ending");

  *machine = (SwDemoMachine){ .tag = tag, .end_ms = demo->end_ms };
  machine->start_ms = days_before_end (demo, sw_demo_number (demo, group, "start"));
  machine->next_ms = machine->start_ms;
  machine->acid = sw_demo_number (demo, group, "acid");
  machine->acid_ms = machine->rate_from_ms = machine->start_ms;
  machine->rate = sw_demo_number (demo, group, "rate");
  machine->rate_end = sw_demo_number (demo, group, "rate_end");
  machine->noise = sw_demo_number (demo, group, "noise");
  machine->extra = sw_demo_number (demo, group, "extra");
  machine->ending = parse_ending (ending);
  if (g_key_file_has_key (demo->texts, group, "change", NULL))
    {
      machine->change_ms = days_before_end (demo, sw_demo_number (demo, group, "change"));
      machine->rate_after = sw_demo_number (demo, group, "rate_after");
      machine->rate_after_end = sw_demo_number (demo, group, "rate_after_end");
    }
  load_visits (demo, machine, group);
  machine->random = g_rand_new_with_seed (g_str_hash (tag));
}

void
sw_demo_machine_clear (SwDemoMachine *machine)
{
  g_clear_pointer (&machine->visits, g_array_unref);
  g_clear_pointer (&machine->random, g_rand_free);
}

static double
get_rate (const SwDemoMachine *machine)
{
  const double share = (double)(machine->acid_ms - machine->rate_from_ms)
                       / (double)(machine->end_ms - machine->rate_from_ms);

  return machine->rate + (machine->rate_end - machine->rate) * share;
}

void
sw_demo_machine_age (SwDemo *demo, SwDemoMachine *machine, gint64 at_ms)
{
  while (machine->acid_ms < at_ms)
    {
      const gint64 step_ms = MIN (SW_DEMO_DAY_MS, at_ms - machine->acid_ms);
      const double days = (double)step_ms / (double)SW_DEMO_DAY_MS;
      const double luck = g_rand_double_range (demo->random, 1.0 - SPREAD, 1.0 + SPREAD);

      machine->acid += get_rate (machine) * luck * days;
      machine->acid_ms += step_ms;
    }
}

void
sw_demo_machine_renew (SwDemoMachine *machine, gint64 at_ms)
{
  machine->acid = -2.5;
  machine->acid_ms = machine->rate_from_ms = at_ms;
  machine->rate = machine->rate_after;
  machine->rate_end = machine->rate_after_end;
  machine->change_ms = 0;
}
