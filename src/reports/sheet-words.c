/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for the choices that a record holds, as cells show them. */
#include "reports/sheet-private.h"

#include <glib/gi18n.h>

static const char *
choose (const SwWording *wording,
        const char *context,
        const char *const *words,
        guint n_words,
        guint choice)
{
  return choice < n_words && words[choice] != NULL ? sw_trc (wording, context, words[choice]) : "";
}

const char *
sw_word_purpose (const SwWording *wording, SwPurpose purpose)
{
  static const char *const words[SW_N_PURPOSES]
      = { NC_ ("purpose of a sample", "routine"), NC_ ("purpose of a sample", "re-test"),
          NC_ ("purpose of a sample", "control"), NC_ ("purpose of a sample", "duplicate") };

  return choose (wording, "purpose of a sample", words, SW_N_PURPOSES, purpose);
}

const char *
sw_word_answer (const SwWording *wording, SwAnswer answer)
{
  static const char *const words[SW_N_ANSWERS]
      = { NULL, NC_ ("answer", "yes"), NC_ ("answer", "no"), NC_ ("answer", "not known") };

  return choose (wording, "answer", words, SW_N_ANSWERS, answer);
}

const char *
sw_word_step (const SwWording *wording, SwStep step)
{
  static const char *const words[SW_N_STEPS] = {
    [SW_STEP_DRAW] = NC_ ("step of a test", "draw"),
    [SW_STEP_PREPARE] = NC_ ("step of a test", "prepare"),
    [SW_STEP_READ] = NC_ ("step of a test", "read"),
    [SW_STEP_RESULT] = NC_ ("step of a test", "result"),
    [SW_STEP_CHECK] = NC_ ("step of a test", "check and sign"),
    [SW_STEP_DOSE] = NC_ ("step of a test", "dose"),
    [SW_STEP_ADDED] = NC_ ("step of a test", "added"),
    [SW_STEP_DONE] = NC_ ("step of a test", "done"),
    [SW_STEP_ABANDONED] = NC_ ("step of a test", "abandoned"),
  };

  return choose (wording, "step of a test", words, SW_N_STEPS, step);
}

const char *
sw_word_dose_state (const SwWording *wording, SwDoseState state)
{
  static const char *const words[SW_N_DOSE_STATES] = {
    [SW_DOSE_OPEN] = NC_ ("state of a dose", "worked out, not recorded"),
    [SW_DOSE_ADDED] = NC_ ("state of a dose", "added"),
    [SW_DOSE_NOT_ADDED] = NC_ ("state of a dose", "not added"),
    [SW_DOSE_NOT_KNOWN] = NC_ ("state of a dose", "not known"),
    [SW_DOSE_LAPSED] = NC_ ("state of a dose", "lapsed"),
  };

  return choose (wording, "state of a dose", words, SW_N_DOSE_STATES, state);
}

const char *
sw_word_service (const SwWording *wording, SwServiceState state)
{
  static const char *const words[SW_N_SERVICE_STATES]
      = { NC_ ("state of a machine", "running"), NC_ ("state of a machine", "stopped"),
          NC_ ("state of a machine", "retired") };

  return choose (wording, "state of a machine", words, SW_N_SERVICE_STATES, state);
}
