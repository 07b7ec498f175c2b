/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of the plant, checked: each function writes one act or nothing. Used by window, demo and
 * tests. */
#pragma once

#include "records/test.h"

G_BEGIN_DECLS

/* Every member is checked against its range (calc/range.h), names and codes for being there and
 * unique: SW_FAULT_ERROR names the quantity. Updates when record.id is set, inserts otherwise; the
 * id is set. An amendment of a row needs actor->reason. Lots and calibrations: SW_RIGHT_BENCH, all
 * else SW_RIGHT_SET_UP. */
gboolean sw_setup_site (SwStore *store, const SwActor *actor, SwSite *site, GError **error);
/* Not the secret (sw_secret_set), and never so that the file is left without an administrator who
 * has one. */
gboolean sw_setup_person (SwStore *store, const SwActor *actor, SwPerson *person, GError **error);
gboolean
sw_setup_solvent (SwStore *store, const SwActor *actor, SwSolvent *solvent, GError **error);
gboolean
sw_setup_product (SwStore *store, const SwActor *actor, SwProduct *product, GError **error);
gboolean sw_setup_lot (SwStore *store, const SwActor *actor, SwLot *lot, GError **error);
/* Machine with its compartments (SwCompartment) and sampling points (SwSamplingPoint), their
 * machine ids filled in; a first fill begins with a new machine. */
gboolean sw_setup_machine (SwStore *store,
                           const SwActor *actor,
                           SwMachine *machine,
                           GPtrArray *compartments,
                           GPtrArray *points,
                           GError **error);
/* Adopts a template; @caustic_mmol NAN = not known. */
gboolean sw_setup_adopt_method (SwStore *store,
                                const SwActor *actor,
                                const char *template_name,
                                const char *name,
                                gint64 titrant,
                                gint64 caustic,
                                double caustic_mmol,
                                gboolean caustic_counts,
                                gint64 *method,
                                GError **error);
gboolean sw_setup_calibration (SwStore *store,
                               const SwActor *actor,
                               SwCalibration *calibration,
                               GError **error);
/* With its first decision: due at once, interval 1 day. */
gboolean sw_setup_plan (SwStore *store, const SwActor *actor, SwPlan *plan, GError **error);
/* A full change of solvent: ends the present fill and begins a new one. */
gboolean sw_setup_new_fill (
    SwStore *store, const SwActor *actor, gint64 machine, gint64 at_ms, GError **error);
/* Rows are taken out of use by sw_void_record (amend.h). */

/* What is still missing before a machine can be tested and dosed, as SW_FACT_NO_DOSE_...,
 * _CALIBRATION_... facts. Element SwFact. (transfer full) */
GArray *sw_setup_missing (SwStore *store, gint64 machine, GError **error);
/* The same, and besides: no plan, no good lot of what a test or a dose needs, out of service. For
 * the list that a set-up page shows. (transfer full) */
GArray *sw_setup_unready (SwStore *store, gint64 machine, GError **error);
/* What the compartments add up to while they are being typed: as sw_machine_volume. Element
 * SwCompartment. */
void sw_setup_sum_compartments (GPtrArray *compartments, SwQuantity *system_l, gboolean *complete);
/* Labels and swatches ("#E8C53A") of colour fields on file, as the site's strips show them; refused
 * once a titration uses their version. Element SwColourField. */
gboolean
sw_setup_colour_fields (SwStore *store, const SwActor *actor, GPtrArray *fields, GError **error);

G_END_DECLS
