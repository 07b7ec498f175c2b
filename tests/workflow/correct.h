/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Corrections on the scene's machine: how it stands before and after, and each amendment in one
 * line. */
#pragma once

#include "scene.h"
#include "workflow/amend.h"
#include "workflow/due.h"

G_BEGIN_DECLS

/* What a correction must not make worse. */
typedef struct
{
  gint64 due_day_ms; /* end of the local day on which the machine's next test is due, or today */
  guint open;        /* incidents of the machine that are not closed */
  double dosed_ml;   /* in the present fill */
  SwMachineState state;
} Standing;

/* The actor with a reason; "" stands for none. */
SwActor correct_actor (const Scene *scene, gint64 person, const char *reason);
Standing correct_look (Scene *scene);
/* Verify and recompute find nothing, nothing was put off, nothing was closed, every acid last test
 * has its incident. */
void correct_assert_safe (Scene *scene, const Standing *before);

/* Each (transfer full), asserts that it is there. */
SwTitration *correct_titration (Scene *scene, gint64 id);
SwSample *correct_sample (Scene *scene, gint64 id);
SwDoseRow *correct_dose (Scene *scene, gint64 id);
/* The reading of a titration by its ordinal; negative from the end. */
SwReadingRow *correct_reading (Scene *scene, gint64 titration, int ordinal);
/* The state of the machine's newest incident, closed ones too; SW_N_INCIDENT_STATES = none. */
SwIncidentState correct_incident_state (Scene *scene);
/* The colour field with that meaning of the plant's method. */
gint64 correct_field (Scene *scene, SwField meaning);

/* A whole test like scene_test that finds acid, but with two strips read before the first drop:
 * both of them corrected to neutral, it has passed. */
void correct_acid_test (Scene *scene, SwPurpose purpose, gint64 answers_dose, int drops);

/* By the reviewer; assert that they succeed. */
void correct_set_reading (Scene *scene, gint64 titration, int ordinal, SwField field);
void correct_strike (Scene *scene, gint64 titration, int ordinal);
void correct_void (Scene *scene, SwTable table, gint64 id);

G_END_DECLS
