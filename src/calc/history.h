/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A machine's history as numbers: what the demand fit and the chart both consume. Filled by
 * workflow. */
#pragma once

#include "calc/outcome.h"

G_BEGIN_DECLS

typedef struct
{
  gint64 at_ms;     /* when it was drawn */
  gint64 titration; /* row id, for selection */
  SwOutcomeKind kind;
  SwInterval net;  /* net acid, in steps of that test; +-INFINITY = open */
  double per_step; /* what a step was worth then, mL of product per L of solvent */
  gboolean retest;
} SwHistoryTest;

typedef struct
{
  gint64 at_ms; /* when it was added */
  gint64 dose;  /* row id */
  double added_ml;
  double steps; /* the same in steps of the test that asked for it */
} SwHistoryDose;

typedef enum
{
  SW_HISTORY_FILL, /* solvent changed in full */
  SW_HISTORY_INCIDENT
} SwHistoryEventKind;

typedef struct
{
  gint64 at_ms;
  SwHistoryEventKind kind;
  gint64 row;
} SwHistoryEvent;

typedef struct
{
  GArray *tests;  /* Owned: SwHistoryTest, oldest first */
  GArray *doses;  /* Owned: SwHistoryDose, oldest first */
  GArray *events; /* Owned: SwHistoryEvent, oldest first */
  gint64 now_ms;
  gint64 due_ms; /* next test; 0 = none */
  gboolean burette;
} SwHistory;

SwHistory *sw_history_new (void);
void sw_history_free (SwHistory *history);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwHistory, sw_history_free)

G_END_DECLS
