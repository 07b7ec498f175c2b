/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of the demand line share. */
#pragma once

#include "calc/demand.h"

G_BEGIN_DECLS

/* Why there can be no line, or SW_DEMAND_ANSWERED; *threaded: a line threads every interval, so
 * that a free sigma runs to 0. */
SwDemandCode sw_demand_refusal (const SwDemandPoint *points, gsize n, gboolean *threaded);

/* The points as the fit takes them: with their slope, or with a given one taken off (no NAN). */
typedef struct
{
  SwInterval *y; /* Owned */
  double *x;     /* Owned */
  SwCensoredData censored;
} SwDemandData;

void sw_demand_data_init (SwDemandData *data, const SwDemandPoint *points, gsize n, double slope);
void sw_demand_data_clear (SwDemandData *data);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwDemandData, sw_demand_data_clear)

G_END_DECLS
