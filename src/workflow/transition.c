/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The moves of the guided test.
 *
 *   [draw] <--> [prepare] <--> [read] <---> [result] <--> [check] --sign--> [dose] --> [added]
 *      |         ^  |  ^        |  |_pass at 0_____________^  |        |      |           |
 *      |         |  |  |________|___ fresh portion ___________|        |      |           |
 *      v         |  v           v              v              v        v      v           v
 *   [abandoned] <---+-----------+--------------+--------------+      [done] <-+-----------+
 *
 * The same edge by edge; a test reads these lines and compares them with the table:
 *
 *   draw    --draw-->          prepare
 *   draw    --abandon-->       abandoned
 *   prepare --prepare-->       read
 *   prepare --back-->          draw
 *   prepare --abandon-->       abandoned
 *   prepare --fresh_portion--> prepare
 *   read    --shake-->         read
 *   read    --add-->           read
 *   read    --read-->          read
 *   read    --strike-->        read
 *   read    --close-->         check
 *   read    --close-->         result
 *   read    --back-->          prepare
 *   read    --abandon-->       abandoned
 *   read    --fresh_portion--> prepare
 *   result  --accept-->        check
 *   result  --back-->          read
 *   result  --abandon-->       abandoned
 *   result  --fresh_portion--> prepare
 *   check   --sign-->          dose
 *   check   --sign-->          done
 *   check   --back-->          read
 *   check   --back-->          result
 *   check   --abandon-->       abandoned
 *   check   --fresh_portion--> prepare
 *   dose    --decide_dose-->   added
 *   dose    --no_dose-->       done
 *   added   --record_added-->  done
 *   added   --not_added-->     done
 *   added   --not_known-->     done
 *
 * Invariants
 * 1. A move that is not in the table does not exist: it is refused with SW_FACT_NOT_FROM_HERE.
 * 2. done and abandoned have no way out.
 * 3. Nothing leads back over the signature: from dose and added, back, abandon and fresh portion
 *    are declared with the guard "never", so that they say why.
 * 4. A fresh portion ends the row it starts from (abandoned); the step it leads to is that of the
 *    next row of the same sample.
 */
#include "workflow/transition.h"

static const char *const step_names[] = {
  [SW_STEP_DRAW] = "draw",     [SW_STEP_PREPARE] = "prepare", [SW_STEP_READ] = "read",
  [SW_STEP_RESULT] = "result", [SW_STEP_CHECK] = "check",     [SW_STEP_DOSE] = "dose",
  [SW_STEP_ADDED] = "added",   [SW_STEP_DONE] = "done",       [SW_STEP_ABANDONED] = "abandoned",
};
G_STATIC_ASSERT (G_N_ELEMENTS (step_names) == SW_N_STEPS);

static const char *const move_names[] = {
  [SW_MOVE_DRAW] = "draw",
  [SW_MOVE_PREPARE] = "prepare",
  [SW_MOVE_SHAKE] = "shake",
  [SW_MOVE_ADD] = "add",
  [SW_MOVE_READ] = "read",
  [SW_MOVE_STRIKE] = "strike",
  [SW_MOVE_CLOSE] = "close",
  [SW_MOVE_ACCEPT] = "accept",
  [SW_MOVE_SIGN] = "sign",
  [SW_MOVE_DECIDE_DOSE] = "decide_dose",
  [SW_MOVE_NO_DOSE] = "no_dose",
  [SW_MOVE_RECORD_ADDED] = "record_added",
  [SW_MOVE_NOT_ADDED] = "not_added",
  [SW_MOVE_NOT_KNOWN] = "not_known",
  [SW_MOVE_BACK] = "back",
  [SW_MOVE_ABANDON] = "abandon",
  [SW_MOVE_FRESH_PORTION] = "fresh_portion",
};
G_STATIC_ASSERT (G_N_ELEMENTS (move_names) == SW_N_MOVES);

/* Shorthand for a table of one line per edge; undefined below it. */
#define ROW(from, move, to, guard, refusal)                                                        \
  {                                                                                                \
    SW_STEP_##from, SW_MOVE_##move, SW_STEP_##to, SW_GUARD_##guard, SW_FACT_##refusal              \
  }

/* clang-format off */
static const SwTransition table[] = {
  ROW (DRAW,    DRAW,          PREPARE,   NONE,           NOT_FROM_HERE),
  ROW (DRAW,    ABANDON,       ABANDONED, NONE,           NOT_FROM_HERE),

  ROW (PREPARE, PREPARE,       READ,      NONE,           NOT_FROM_HERE),
  ROW (PREPARE, BACK,          DRAW,      NONE,           NOT_FROM_HERE),
  ROW (PREPARE, ABANDON,       ABANDONED, NONE,           NOT_FROM_HERE),
  ROW (PREPARE, FRESH_PORTION, PREPARE,   NONE,           NOT_FROM_HERE),

  ROW (READ,    SHAKE,         READ,      PORTION_GOOD,   PAUSED_TOO_LONG),
  ROW (READ,    ADD,           READ,      MAY_ADD,        ADD_ONLY_WHILE_ACID),
  ROW (READ,    READ,          READ,      PORTION_GOOD,   PAUSED_TOO_LONG),
  ROW (READ,    STRIKE,        READ,      TAKE_BACK,      NOTHING_TO_TAKE_BACK),
  ROW (READ,    CLOSE,         CHECK,     PASSED_AT_ZERO, OUTCOME_OPEN),
  ROW (READ,    CLOSE,         RESULT,    OUTCOME_STANDS, OUTCOME_OPEN),
  ROW (READ,    BACK,          PREPARE,   UNTOUCHED,      NOT_FROM_HERE),
  ROW (READ,    ABANDON,       ABANDONED, NONE,           NOT_FROM_HERE),
  ROW (READ,    FRESH_PORTION, PREPARE,   NONE,           NOT_FROM_HERE),

  ROW (RESULT,  ACCEPT,        CHECK,     NONE,           NOT_FROM_HERE),
  ROW (RESULT,  BACK,          READ,      NONE,           NOT_FROM_HERE),
  ROW (RESULT,  ABANDON,       ABANDONED, NONE,           NOT_FROM_HERE),
  ROW (RESULT,  FRESH_PORTION, PREPARE,   NONE,           NOT_FROM_HERE),

  ROW (CHECK,   SIGN,          DOSE,      LEADS_TO_DOSE,  SIGNATURE_MISSING),
  ROW (CHECK,   SIGN,          DONE,      SIGNER,         SIGNATURE_MISSING),
  ROW (CHECK,   BACK,          READ,      PASSED_AT_ZERO, NOT_FROM_HERE),
  ROW (CHECK,   BACK,          RESULT,    NONE,           NOT_FROM_HERE),
  ROW (CHECK,   ABANDON,       ABANDONED, NONE,           NOT_FROM_HERE),
  ROW (CHECK,   FRESH_PORTION, PREPARE,   NONE,           NOT_FROM_HERE),

  ROW (DOSE,    DECIDE_DOSE,   ADDED,     DOSE_SHOWN,     NO_DOSE_OUTCOME),
  ROW (DOSE,    NO_DOSE,       DONE,      NONE,           NOT_FROM_HERE),
  ROW (DOSE,    BACK,          CHECK,     NEVER,          ALREADY_SIGNED),
  ROW (DOSE,    ABANDON,       ABANDONED, NEVER,          ALREADY_SIGNED),
  ROW (DOSE,    FRESH_PORTION, PREPARE,   NEVER,          ALREADY_SIGNED),

  ROW (ADDED,   RECORD_ADDED,  DONE,      NONE,           NOT_FROM_HERE),
  ROW (ADDED,   NOT_ADDED,     DONE,      NONE,           NOT_FROM_HERE),
  ROW (ADDED,   NOT_KNOWN,     DONE,      NONE,           NOT_FROM_HERE),
  ROW (ADDED,   BACK,          DOSE,      NEVER,          ALREADY_SIGNED),
  ROW (ADDED,   ABANDON,       ABANDONED, NEVER,          ALREADY_SIGNED),
  ROW (ADDED,   FRESH_PORTION, PREPARE,   NEVER,          ALREADY_SIGNED),
};
/* clang-format on */
#undef ROW

const SwTransition *
sw_transition_table (gsize *n)
{
  g_return_val_if_fail (n != NULL, NULL);
  *n = G_N_ELEMENTS (table);
  return table;
}

const char *
sw_step_name (SwStep step)
{
  g_return_val_if_fail ((int)step >= 0 && step < SW_N_STEPS, "");
  return step_names[step];
}

const char *
sw_move_name (SwMove move)
{
  g_return_val_if_fail ((int)move >= 0 && move < SW_N_MOVES, "");
  return move_names[move];
}
