/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A guided test on the invented plant, driven move by move. Each move asserts that it succeeded and
 * takes a minute; with `restart` the file is closed and opened again after every one, and the test
 * resumed by its titration, as if the program had been killed between two pages. */
#pragma once

#include "support/plant.h"
#include "workflow/guided.h"

G_BEGIN_DECLS

typedef struct
{
  SwTestPlant *plant; /* Owned */
  SwTestMachine machine;
  SwGuidedTest *test; /* Owned; NULL between tests */
  gint64 person;      /* who acts */
  gboolean restart;
} Scene;

Scene *scene_new (void);
void scene_free (Scene *scene);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Scene, scene_free)

/* ---- moves ---- */
void scene_begin (Scene *scene, SwPurpose purpose, gint64 answers_dose);
void scene_draw (Scene *scene);
void scene_prepare (Scene *scene);
void scene_add (Scene *scene, double steps);
/* The colour field of the method with that meaning; SW_FIELD_BETWEEN for "between two". */
void scene_read (Scene *scene, SwField field);
void scene_strike (Scene *scene, gboolean not_added);
void scene_close (Scene *scene);
void scene_accept (Scene *scene);
void scene_sign (Scene *scene);
void scene_decide (Scene *scene, double extra);
void scene_record (Scene *scene, double added_ml);

/* ---- several moves ---- */
/* Begin, draw, prepare. */
void scene_start (Scene *scene, SwPurpose purpose, gint64 answers_dose);
/* Acid up to @drops - 1, neutral twice at @drops; 0: neutral twice at 0. Not closed. */
void scene_titrate (Scene *scene, int drops);
/* A whole test that ends signed: passes at 0, or acid found with that many drops. */
void scene_test (Scene *scene, SwPurpose purpose, gint64 answers_dose, int drops);
/* scene_test that finds acid and whose dose is decided (released if need be) and added in full;
 * returns the dose. */
gint64 scene_dosed_test (Scene *scene, int drops);
/* One move with arguments that are right for it; asserts nothing. */
gboolean scene_try (Scene *scene, SwMove move, GError **error);
/* The test object goes; the file keeps what it has. */
void scene_leave (Scene *scene);
void scene_resume (Scene *scene, gint64 titration);

/* ---- asking ---- */
SwStep scene_step (const Scene *scene);
gint64 scene_now (const Scene *scene);
gint64 scene_titration (const Scene *scene);
SwActor scene_actor (const Scene *scene);
gint64 scene_field (const Scene *scene, SwField meaning);
SwDrawEntry scene_draw_entry (const Scene *scene);
SwPrepareEntry scene_prepare_entry (const Scene *scene);
/* The machine's open incident, freshly loaded; NULL = none. (transfer full) */
SwIncident *scene_incident (const Scene *scene);

/* A refused move with that fact; clears @error. */
#define scene_assert_fact(error, fact_code)                                                        \
  scene_check_fact (__FILE__, __LINE__, G_STRFUNC, error, fact_code)
void scene_check_fact (
    const char *file, int line, const char *function, GError **error, SwFactCode code);

/* A machine has at most one open test, one dose out (decided or waiting for its re-test) and one
 * open incident; acid or over range has one. */
void scene_assert_machine (Scene *scene, gint64 machine);

/* Every rule of the file holds: verify finds nothing, and every stored result is recomputed. */
void scene_assert_sound (Scene *scene);

G_END_DECLS
