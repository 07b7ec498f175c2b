/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Who may do what. Asked by every function of this layer that writes, inside its act; a window asks
 * before, so that nobody types for nothing.
 *
 *                      test, dose   lots, calibration   review, release   set-up, people
 *   technician             x               x
 *   reviewer               x               x                   x
 *   administrator          x               x                   x                x
 *   auditor
 *
 * How sure the program must be of the person: whoever has a secret is believed with it alone
 * (SW_IDENTIFIED_SECRET). Without one, a technician picked by name (SW_IDENTIFIED_SELECTED) may
 * work where the plant allows it (the setting SW_SETTING_NAME_ONLY is "yes"); nobody else may. The
 * demo plant's people (site.demo), the program itself (person 0, SW_IDENTIFIED_SYSTEM) and imports
 * pass; a person who imports needs the role for it. A file in which no active administrator has a
 * secret yet cannot be written (SW_FACT_UNGUARDED) except to give one (sw_secret_set); once it is
 * guarded, its last such administrator cannot be taken away (SW_FACT_LAST_ADMINISTRATOR).
 */
#pragma once

#include "calc/fact.h"
#include "records/test.h"

G_BEGIN_DECLS

typedef enum
{
  SW_RIGHT_TEST,   /* sample, titrate, dose, log; amend and void one's own unreviewed work */
  SW_RIGHT_BENCH,  /* lots, droppers */
  SW_RIGHT_REVIEW, /* review, release, close incidents; amend and void others' work */
  SW_RIGHT_SET_UP, /* machines, methods, products, plans, people, site, settings */
  SW_N_RIGHTS
} SwRight;

#define SW_SETTING_NAME_ONLY "name_only"     /* "yes": technicians may work without a secret */
#define SW_SETTING_IDLE_LOCK "idle_lock_min" /* minutes without input until one is signed out */
#define SW_IDLE_LOCK_MIN 10.0 /* when the setting is not there, or is no such number */
#define SW_IDLE_LOCK_LEAST_MIN 1.0
#define SW_IDLE_LOCK_MOST_MIN 480.0

/* FALSE with a refusal (SW_WORKFLOW_ERROR) whose fact says why, or with SW_RECORDS_ERROR. */
gboolean sw_right_check (SwStore *store, const SwActor *actor, SwRight right, GError **error);

/* Who signs, and how the program knows. */
typedef struct
{
  gint64 person; /* 0 = nobody */
  SwIdentified identified;
} SwSigner;

/* The same for a signer, who need not be the actor (a reviewer releases a technician's dose). */
gboolean
sw_right_check_signer (SwStore *store, const SwSigner *signer, SwRight right, GError **error);

/* TRUE when the plant lets technicians work by name. FALSE also on an error. */
gboolean sw_right_name_only (SwStore *store);
/* Minutes without input until one is signed out; 0 = never. Range 1 to 480. */
double sw_right_idle_lock_min (SwStore *store);
/* The same two set: SW_RIGHT_SET_UP, one act. Minutes out of range: SW_FAULT_ERROR,
 * SW_QUANTITY_IDLE_LOCK. */
gboolean
sw_right_set_name_only (SwStore *store, const SwActor *actor, gboolean allowed, GError **error);
gboolean
sw_right_set_idle_lock_min (SwStore *store, const SwActor *actor, double minutes, GError **error);

G_END_DECLS
