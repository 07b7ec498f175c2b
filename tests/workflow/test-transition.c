/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of the guided test's moves: sound in itself, the same as its diagram, and obeyed. */
#include "scene.h"

#include "records/verify.h"
#include "workflow/transition.h"

/* ---- the table in itself ---- */

static void
test_declared_once (void)
{
  gsize n;
  const SwTransition *table = sw_transition_table (&n);

  for (gsize i = 0; i < n; i++)
    for (gsize j = 0; j < i; j++)
      g_assert_false (table[i].from == table[j].from && table[i].move == table[j].move
                      && table[i].guard == table[j].guard);
}

/* A row behind one that always applies could never be taken. */
static void
test_no_dead_row (void)
{
  gsize n;
  const SwTransition *table = sw_transition_table (&n);

  for (gsize i = 1; i < n; i++)
    g_assert_false (table[i].from == table[i - 1].from && table[i].move == table[i - 1].move
                    && table[i - 1].guard == SW_GUARD_NONE);
}

static void
test_every_step_is_reached (void)
{
  gboolean reached[SW_N_STEPS] = { [SW_STEP_DRAW] = TRUE };
  gsize n;
  const SwTransition *table = sw_transition_table (&n);

  for (int round = 0; round < SW_N_STEPS; round++)
    for (gsize i = 0; i < n; i++)
      if (reached[table[i].from] && table[i].guard != SW_GUARD_NEVER)
        reached[table[i].to] = TRUE;
  for (int step = 0; step < SW_N_STEPS; step++)
    g_assert_true (reached[step]);
}

static void
test_every_move_is_used (void)
{
  gboolean used[SW_N_MOVES] = { FALSE };
  gsize n;
  const SwTransition *table = sw_transition_table (&n);

  for (gsize i = 0; i < n; i++)
    if (table[i].guard != SW_GUARD_NEVER)
      used[table[i].move] = TRUE;
  for (int move = 0; move < SW_N_MOVES; move++)
    g_assert_true (used[move]);
}

static void
test_ends_have_no_way_out (void)
{
  gsize n;
  const SwTransition *table = sw_transition_table (&n);

  for (gsize i = 0; i < n; i++)
    g_assert_true (table[i].from != SW_STEP_DONE && table[i].from != SW_STEP_ABANDONED);
}

/* From every other step an end can be reached: nobody is caught in a test. */
static void
test_every_step_ends (void)
{
  gboolean ends[SW_N_STEPS] = { [SW_STEP_DONE] = TRUE, [SW_STEP_ABANDONED] = TRUE };
  gsize n;
  const SwTransition *table = sw_transition_table (&n);

  for (int round = 0; round < SW_N_STEPS; round++)
    for (gsize i = 0; i < n; i++)
      if (ends[table[i].to] && table[i].guard != SW_GUARD_NEVER)
        ends[table[i].from] = TRUE;
  for (int step = 0; step < SW_N_STEPS; step++)
    g_assert_true (ends[step]);
}

static void
test_never_over_the_signature (void)
{
  gsize n;
  const SwTransition *table = sw_transition_table (&n);

  for (gsize i = 0; i < n; i++)
    if (table[i].from >= SW_STEP_DOSE && table[i].to < SW_STEP_DOSE)
      g_assert_cmpint (table[i].guard, ==, SW_GUARD_NEVER);
}

/* ---- the table and its diagram ---- */

/* "draw --draw--> prepare" for each edge of the table that can be taken. (transfer full) */
static GHashTable *
list_table_edges (void)
{
  GHashTable *edges = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  gsize n;
  const SwTransition *table = sw_transition_table (&n);

  for (gsize i = 0; i < n; i++)
    if (table[i].guard != SW_GUARD_NEVER)
      g_hash_table_add (edges,
                        g_strdup_printf ("%s --%s--> %s", sw_step_name (table[i].from),
                                         sw_move_name (table[i].move), sw_step_name (table[i].to)));
  return edges;
}

/* The same from the lines of transition.c's head comment. (transfer full) */
static GHashTable *
list_drawn_edges (void)
{
  GHashTable *edges = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *path = sw_test_source_path ("src/workflow/transition.c");
  g_autofree char *source = NULL;
  g_autoptr (GRegex) regex
      = g_regex_new ("^ \\* +([a-z]+) +--([a-z_]+)--> +([a-z]+)$", G_REGEX_MULTILINE, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &source, NULL, &error);
  g_assert_no_error (error);
  for (g_regex_match (regex, source, 0, &match); g_match_info_matches (match);
       g_match_info_next (match, NULL))
    {
      g_autofree char *from = g_match_info_fetch (match, 1);
      g_autofree char *move = g_match_info_fetch (match, 2);
      g_autofree char *to = g_match_info_fetch (match, 3);

      g_hash_table_add (edges, g_strdup_printf ("%s --%s--> %s", from, move, to));
    }
  return edges;
}

static void
check_contains (GHashTable *all, GHashTable *some)
{
  GHashTableIter iter;
  gpointer edge;

  g_hash_table_iter_init (&iter, some);
  while (g_hash_table_iter_next (&iter, &edge, NULL))
    if (!g_hash_table_contains (all, edge))
      g_error ("only on one side: %s", (const char *)edge);
}

static void
test_diagram (void)
{
  g_autoptr (GHashTable) table = list_table_edges ();
  g_autoptr (GHashTable) drawn = list_drawn_edges ();

  g_assert_cmpuint (g_hash_table_size (drawn), >, 0);
  check_contains (table, drawn);
  check_contains (drawn, table);
}

/* ---- every move at every step ----
 *
 * What each page allows, written down from the design's description of the pages, not from the
 * table: + possible, x there but refused now (with another fact than "not from here"), . not from
 * here. Read stands with a prepared, untouched flask; Result, Check, Dose and Added after acid was
 * found at 2 drops. */
/* clang-format off */
static const struct { SwStep step; const char *moves; } expected[] = {
  /*                   draw prep shake add read strike close accept sign decide no rec notadd
                       notknown back abandon fresh */
  { SW_STEP_DRAW,      "+............" "..+." },
  { SW_STEP_PREPARE,   ".+..........." ".+++" },
  { SW_STEP_READ,      "..+x+xx......" ".+++" },
  { SW_STEP_RESULT,    ".......+....." ".+++" },
  { SW_STEP_CHECK,     "........+...." ".+++" },
  { SW_STEP_DOSE,      ".........++.." ".xxx" },
  { SW_STEP_ADDED,     "...........++" "+xxx" },
  { SW_STEP_DONE,      "............." "...." },
  { SW_STEP_ABANDONED, "............." "...." },
};
/* clang-format on */
G_STATIC_ASSERT (G_N_ELEMENTS (expected) == SW_N_STEPS);

typedef struct
{
  SwStep step;
  SwMove move;
  char expected;
} Pair;

static void
go_beyond_read (Scene *scene, SwStep step)
{
  scene_titrate (scene, 2);
  scene_close (scene);
  if (step == SW_STEP_RESULT)
    return;
  scene_accept (scene);
  if (step == SW_STEP_CHECK)
    return;
  scene_sign (scene);
  if (step == SW_STEP_DOSE)
    return;
  scene_decide (scene, 0.0);
  if (step == SW_STEP_DONE)
    scene_record (scene, 840.0);
}

static void
go_to_step (Scene *scene, SwStep step)
{
  GError *error = NULL;

  scene_begin (scene, SW_PURPOSE_ROUTINE, 0);
  if (step == SW_STEP_ABANDONED)
    {
      sw_guided_test_abandon (scene->test, "for a test", &error);
      g_assert_no_error (error);
    }
  if (step == SW_STEP_DRAW || step == SW_STEP_ABANDONED)
    return;
  scene_draw (scene);
  if (step == SW_STEP_PREPARE)
    return;
  scene_prepare (scene);
  if (step != SW_STEP_READ)
    go_beyond_read (scene, step);
}

static char *
get_head (Scene *scene)
{
  g_autoptr (GError) error = NULL;
  char *head = sw_journal_head (scene->plant->store, &error);

  g_assert_no_error (error);
  return head;
}

/* A refused move writes nothing: the journal's head and the step are as before. */
static void
check_refused (Scene *scene, const Pair *pair, const GError *error, const char *head)
{
  g_autofree char *now = get_head (scene);
  const SwFact *fact = sw_workflow_error_get_fact (error);

  if (fact == NULL)
    g_error ("not refused with a fact: %s", error != NULL ? error->message : "it succeeded");
  g_assert_cmpint (fact->code == SW_FACT_NOT_FROM_HERE, ==, pair->expected == '.');
  g_assert_cmpstr (now, ==, head);
  g_assert_cmpint (scene_step (scene), ==, pair->step);
}

static void
test_pair (gconstpointer data)
{
  const Pair *pair = data;
  g_autoptr (Scene) scene = scene_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *head = NULL;
  gboolean moved;

  go_to_step (scene, pair->step);
  g_assert_cmpint (scene_step (scene), ==, pair->step);
  head = get_head (scene);
  g_assert_cmpint (sw_guided_test_can (scene->test, pair->move, scene_now (scene), NULL), ==,
                   pair->expected == '+');
  moved = scene_try (scene, pair->move, &error);
  g_assert_cmpint (moved, ==, pair->expected == '+');
  if (moved)
    g_assert_no_error (error);
  else
    check_refused (scene, pair, error, head);
}

static void
add_pairs (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (expected); i++)
    for (int move = 0; move < SW_N_MOVES; move++)
      {
        Pair *pair = g_new (Pair, 1);
        g_autofree char *path = g_strdup_printf (
            "/transition/pair/%s/%s", sw_step_name (expected[i].step), sw_move_name ((SwMove)move));

        *pair = (Pair){ expected[i].step, (SwMove)move, expected[i].moves[move] };
        g_test_add_data_func_full (path, pair, test_pair, g_free);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/transition/table/declared-once", test_declared_once);
  g_test_add_func ("/transition/table/no-dead-row", test_no_dead_row);
  g_test_add_func ("/transition/table/every-step-reached", test_every_step_is_reached);
  g_test_add_func ("/transition/table/every-move-used", test_every_move_is_used);
  g_test_add_func ("/transition/table/ends", test_ends_have_no_way_out);
  g_test_add_func ("/transition/table/every-step-ends", test_every_step_ends);
  g_test_add_func ("/transition/table/signature", test_never_over_the_signature);
  g_test_add_func ("/transition/diagram", test_diagram);
  add_pairs ();
  return g_test_run ();
}
