/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A random walk: moves over several machines in any order, with the clock running, people changing,
 * the file closed and opened.
 *
 * After each move, whether it succeeded or not:
 * 1. it succeeded exactly when sw_guided_test_can had said that it may (an argument that cannot be
 * is never used here);
 * 2. a refused move wrote nothing: the journal's head is the same;
 * 3. a machine has at most one open test; one decided dose at most is not recorded;
 * 4. at most one incident of a machine is open, and a machine that is over range or acid and not
 *    re-tested has one;
 * 5. no dose was decided while another one waited for its re-test;
 * 6. the titration in memory is that of the file.
 * At the end verify finds nothing and every result is recomputed.
 */
#include "scene.h"

#include "records/verify.h"
#include "workflow/transition.h"

#define MACHINES 4
#define MOVES 2000
#define SEED 20261124

typedef struct
{
  Scene *scene; /* its test is that of `current` */
  GRand *random;
  SwTestMachine machines[MACHINES];
  gint64 titrations[MACHINES]; /* the machine's open test; 0 = none */
  guint current;
  guint done[SW_N_MOVES]; /* how often each succeeded */
  guint refused;
} Walk;

static double
draw_number (Walk *walk)
{
  return g_rand_double (walk->random);
}

static int
draw_below (Walk *walk, int end)
{
  return g_rand_int_range (walk->random, 0, end);
}

/* (transfer full) */
static char *
get_head (Walk *walk)
{
  g_autoptr (GError) error = NULL;
  char *head = sw_journal_head (walk->scene->plant->store, &error);

  g_assert_no_error (error);
  return head;
}

/* ---- invariants ---- */

static void
check_memory (Walk *walk)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwTitration) stored = NULL;
  const SwTitration *held;

  if (walk->scene->test == NULL)
    return;
  held = sw_guided_test_get_titration (walk->scene->test);
  stored = sw_titration_load (walk->scene->plant->store, held->record.id, &error);
  g_assert_no_error (error);
  g_assert_cmpint (held->step, ==, stored->step);
  g_assert_cmpint (held->outcome, ==, stored->outcome);
  g_assert_cmpint (held->record.journal_seq, ==, stored->record.journal_seq);
}

static void
check_invariants (Walk *walk)
{
  gint64 machine = walk->machines[walk->current].machine;

  scene_assert_machine (walk->scene, machine);
  check_memory (walk);
}

/* ---- moves ---- */

/* The sample holds so many drops of acid, by its row; the strip shows it nineteen times in twenty.
 */
static SwField
draw_field (Walk *walk)
{
  const SwTitration *titration = sw_guided_test_get_titration (walk->scene->test);
  double acid = (double)(titration->sample % 7) / 7.0 * (titration->sample % 5 == 0 ? 40.0 : 4.0);

  if (draw_number (walk) < 0.05)
    return (SwField)draw_below (walk, SW_N_FIELDS);
  return sw_guided_test_get_total (walk->scene->test) < acid ? SW_FIELD_ACID : SW_FIELD_NEUTRAL;
}

static gboolean
read_strip (Walk *walk, GError **error)
{
  return sw_guided_test_read (walk->scene->test, scene_field (walk->scene, draw_field (walk)),
                              error);
}

static gboolean
add_steps (Walk *walk, GError **error)
{
  double left = sw_guided_test_get_titration (walk->scene->test)->maximum
                - sw_guided_test_get_total (walk->scene->test);
  double steps = draw_number (walk) < 0.95 ? 1.0 : 8.0;

  return sw_guided_test_add (walk->scene->test, MIN (steps, MAX (left, 1.0)), error);
}

/* Where only unread titrant can be taken back, it is "not added" that is said. */
static gboolean
strike (Walk *walk, GError **error)
{
  GPtrArray *readings = sw_guided_test_get_readings (walk->scene->test);
  gboolean counted = FALSE;

  for (guint i = 0; i < readings->len; i++)
    counted = counted || !((SwReadingRow *)readings->pdata[i])->struck;
  return sw_guided_test_strike (walk->scene->test, !counted || draw_number (walk) < 0.5,
                                "at random", error);
}

static gboolean
make_move (Walk *walk, SwMove move, GError **error)
{
  if (move == SW_MOVE_READ)
    return read_strip (walk, error);
  if (move == SW_MOVE_ADD)
    return add_steps (walk, error);
  if (move == SW_MOVE_STRIKE)
    return strike (walk, error);
  return scene_try (walk->scene, move, error);
}

/* Whether the dose that the sample answers has circulated by now. */
static gboolean
has_circulated (Walk *walk)
{
  gint64 answers = sw_guided_test_get_sample (walk->scene->test)->answers_dose;
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDoseRow) dose = NULL;

  if (answers == 0)
    return TRUE;
  dose = sw_dose_row_load (walk->scene->plant->store, answers, &error);
  g_assert_no_error (error);
  return scene_now (walk->scene) >= dose->retest_due_ms;
}

/* Arguments, not the table, decide when a sample was drawn and a dose added: here always now. */
static gboolean
may_succeed (Walk *walk, SwMove move)
{
  const SwDoseRow *dose = sw_guided_test_get_dose (walk->scene->test);
  gint64 now_ms = scene_now (walk->scene);

  if (!sw_guided_test_can (walk->scene->test, move, now_ms, NULL))
    return FALSE;
  if (move == SW_MOVE_DRAW)
    return has_circulated (walk);
  return move != SW_MOVE_RECORD_ADDED || dose == NULL
         || (dose->state == SW_DOSE_OPEN && now_ms - dose->decided_ms <= 8 * SW_TEST_HOUR_MS);
}

static void
check_refusal (Walk *walk, const GError *error, const char *before)
{
  g_autofree char *after = get_head (walk);

  g_assert_nonnull (sw_workflow_error_get_fact (error));
  g_assert_cmpstr (after, ==, before);
  walk->refused++;
}

static void
try_move (Walk *walk, SwMove move)
{
  g_autofree char *before = get_head (walk);
  g_autoptr (GError) error = NULL;
  gboolean may = may_succeed (walk, move);
  gboolean moved = make_move (walk, move, &error);

  if (moved != may)
    g_error ("%s at %s: may %d, moved %d: %s", sw_move_name (move),
             sw_step_name (scene_step (walk->scene)), may, moved,
             error != NULL ? error->message : "no error");
  if (moved)
    walk->done[move]++;
  else
    check_refusal (walk, error, before);
}

/* How likely a possible move is taken up; those that lead nowhere seldom, or the walk would. */
static double
get_weight (Walk *walk, SwMove move)
{
  gboolean unread = !isnan (sw_guided_test_get_titration (walk->scene->test)->pending_total);

  switch ((int)move)
    {
    case SW_MOVE_ABANDON:
    case SW_MOVE_FRESH_PORTION:
    case SW_MOVE_NO_DOSE:
      return 0.03;
    case SW_MOVE_BACK:
    case SW_MOVE_STRIKE:
    case SW_MOVE_SHAKE:
      return 0.1;
    case SW_MOVE_ADD:
      /* Many drops between two strips leave a step too wide for a dose. */
      return unread ? 0.05 : 1.0;
    default:
      return 1.0;
    }
}

/* Mostly a move that is possible, one time in five any. */
static SwMove
pick_move (Walk *walk)
{
  SwMove possible[SW_N_MOVES];
  int n = 0;

  for (int move = 0; move < SW_N_MOVES; move++)
    if (may_succeed (walk, (SwMove)move) && draw_number (walk) < get_weight (walk, (SwMove)move))
      possible[n++] = (SwMove)move;
  if (n == 0 || draw_number (walk) < 0.2)
    return (SwMove)draw_below (walk, SW_N_MOVES);
  return possible[draw_below (walk, n)];
}

/* ---- tests of machines ---- */

static gint64
find_unanswered (Walk *walk, gint64 machine)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) ids = sw_dose_unanswered_ids (walk->scene->plant->store, machine, &error);

  g_assert_no_error (error);
  return ids->len > 0 ? g_array_index (ids, gint64, 0) : 0;
}

/* A dose that waits is mostly answered by its re-test, sometimes not. */
static void
begin_test (Walk *walk)
{
  gint64 dose = find_unanswered (walk, walk->scene->machine.machine);
  gboolean retest = dose != 0 && draw_number (walk) < 0.8;
  SwPurpose purpose = draw_number (walk) < 0.1 ? SW_PURPOSE_CONTROL : SW_PURPOSE_ROUTINE;

  scene_begin (walk->scene, retest ? SW_PURPOSE_RETEST : purpose, retest ? dose : 0);
}

/* Goes to a machine and takes up what stands there. */
static void
go_to_machine (Walk *walk, guint machine)
{
  walk->current = machine;
  walk->scene->machine = walk->machines[machine];
  if (walk->titrations[machine] != 0)
    scene_resume (walk->scene, walk->titrations[machine]);
  else
    begin_test (walk);
}

static gboolean
is_over (Walk *walk)
{
  SwStep step = scene_step (walk->scene);

  return step == SW_STEP_DONE || step == SW_STEP_ABANDONED;
}

static void
note_titration (Walk *walk)
{
  walk->titrations[walk->current] = is_over (walk) ? 0 : scene_titration (walk->scene);
}

static void
change_person (Walk *walk)
{
  const SwTestPlant *plant = walk->scene->plant;
  /* The reviewer releases doses, so does not titrate. */
  const gint64 people[] = { plant->technician, plant->colleague, plant->administrator };

  walk->scene->person = people[draw_below (walk, G_N_ELEMENTS (people))];
}

/* Between two moves: mostly a minute or two, sometimes a pause, sometimes a night. */
static void
let_time_pass (Walk *walk)
{
  double chance = draw_number (walk);

  sw_test_plant_advance (walk->scene->plant, 1.0 + draw_number (walk));
  if (chance < 0.02)
    sw_test_plant_advance (walk->scene->plant, 40.0);
  else if (chance < 0.025)
    sw_test_plant_advance (walk->scene->plant, 13.0 * 60.0);
}

static void
step_walk (Walk *walk, guint i)
{
  if (i % 97 == 0)
    {
      scene_leave (walk->scene);
      sw_test_plant_reopen (walk->scene->plant, SW_OPEN_WRITE);
    }
  if (walk->scene->test == NULL || is_over (walk) || draw_number (walk) < 0.05)
    {
      change_person (walk);
      go_to_machine (walk, (guint)draw_below (walk, MACHINES));
    }
  try_move (walk, pick_move (walk));
  note_titration (walk);
  check_invariants (walk);
  let_time_pass (walk);
}

static void
set_up_walk (Walk *walk)
{
  static const char *const tags[MACHINES] = { "M-07", "M-08", "M-09", "M-10" };

  walk->scene = scene_new ();
  walk->random = g_rand_new_with_seed (SEED);
  walk->machines[0] = walk->scene->plant->first;
  for (guint i = 1; i < MACHINES; i++)
    walk->machines[i] = sw_test_plant_add_machine (walk->scene->plant, tags[i]);
}

static void
test_walk (void)
{
  Walk walk = { 0 };

  set_up_walk (&walk);
  for (guint i = 0; i < MOVES; i++)
    step_walk (&walk, i);
  scene_assert_sound (walk.scene);
  g_test_message ("%u refused of %d", walk.refused, MOVES);
  for (int move = 0; move < SW_N_MOVES; move++)
    {
      g_test_message ("%s: %u", sw_move_name ((SwMove)move), walk.done[move]);
      /* A walk that never got somewhere would prove nothing about it. */
      g_assert_cmpuint (walk.done[move], >, 0);
    }
  g_assert_cmpuint (walk.refused, >, MOVES / 20);
  g_rand_free (walk.random);
  scene_free (walk.scene);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/walk", test_walk);
  return g_test_run ();
}
