/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the dropper's form shows: the volume of one drop of one liquid, typed or worked out from
 * weighings. Weighings are not kept one by one: their mean, its uncertainty and their number are.
 */
#pragma once

#include "app/setup/form-list.h"
#include "calc/calibration.h"

G_BEGIN_DECLS

typedef enum
{
  SW_DROPPER_TYPED,
  SW_DROPPER_WEIGHED,
  SW_N_DROPPER_WAYS
} SwDropperWay;

/* The form's record: an SwCalibration, and what it can be worked out from. */
typedef struct
{
  SwRecord record; /* first, as in every record: the calibration's own */
  gint64 product;
  char *dropper; /* Owned */
  gint64 measured_ms;
  gint64 due_ms;
  SwDropperWay way;
  SwAmount drop; /* its text is Owned */
  double drop_u_ml;
  double drops;
  double density_g_ml;
  double density_u_g_ml;
} SwDropperEntry;

void sw_dropper_entry_clear (SwDropperEntry *entry);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwDropperEntry, sw_dropper_entry_clear)

/* The fields of the form, and the list of weighings below it. */
#define SW_N_DROPPER_FIELDS 10
extern const SwFormSpec sw_dropper_fields[SW_N_DROPPER_FIELDS];
extern const SwFormListSpec sw_dropper_weighings;

/* @entry is empty before. */
void sw_dropper_entry_fill (SwDropperEntry *entry, const SwCalibration *row);
/* The drop from @weighings, element as sw_dropper_weighings makes them. */
gboolean sw_dropper_entry_work_out (const SwDropperEntry *entry,
                                    GPtrArray *weighings,
                                    SwCalibrationResult *result,
                                    GError **error);
/* Writes @entry to @row; @result NULL: the drop as typed. Takes the texts out of @entry. */
void sw_dropper_entry_put (SwDropperEntry *entry,
                           const SwCalibrationResult *result,
                           guint n_weighings,
                           SwCalibration *row);

G_END_DECLS
