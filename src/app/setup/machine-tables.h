/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The machine's form as tables: its own fields, compartments, sampling points, plans. */
#pragma once

#include "app/setup/form-list.h"
#include "app/setup/record-editor.h"

G_BEGIN_DECLS

#define SW_N_MACHINE_FIELDS 12
extern const SwFormSpec sw_machine_fields[SW_N_MACHINE_FIELDS];
extern const SwFormListSpec sw_machine_compartments, sw_machine_points, sw_machine_plans;

/* Rows in use of a machine, element a record, owned by the array. Sampling points by rank.
 * (transfer full) */
GPtrArray *sw_machine_load_compartments (SwStore *store, gint64 machine, GError **error);
GPtrArray *sw_machine_load_points (SwStore *store, gint64 machine, GError **error);
GPtrArray *sw_machine_load_plans (SwStore *store, gint64 machine, GError **error);

G_END_DECLS
