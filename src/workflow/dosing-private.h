/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What set-up must say before a dose can be shown; asked by the dose and by set-up alike. */
#pragma once

#include "workflow/dosing.h"

G_BEGIN_DECLS

/* A machine as the dose sees it. */
typedef struct
{
  SwMachine *machine;  /* Owned */
  SwProduct *product;  /* Owned; NULL when none is decided */
  SwQuantity system_l; /* SW_UNKNOWN when no compartment has a volume */
} SwDosingPlant;

gboolean
sw_dosing_plant_load (SwStore *store, gint64 machine, SwDosingPlant *plant, GError **error);
void sw_dosing_plant_clear (SwDosingPlant *plant);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwDosingPlant, sw_dosing_plant_clear)

/* What is missing on file, the most fundamental first: the product, then what it may do, then the
 * machine. Element SwFact, empty when nothing is. (transfer full) */
GArray *sw_dosing_plant_missing (const SwDosingPlant *plant);

/* Whether strengths allow a dose: the product itself as titrant (ratio exactly 1), or both
 * strengths on file. Fills titrant, product and ratio of @input, whose titrant stands there as the
 * titration knows it. */
gboolean sw_dosing_fill_strengths (const SwDosingPlant *plant, gint64 titrant, SwDoseInput *input);

/* Circulation or reaction time, the longer, min; NAN when there is no circulation time. */
double sw_dosing_wait_min (const SwMachine *machine, const SwProduct *product);

G_END_DECLS
