/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A fault is a GError that carries the quantity, the value and the allowed range. */
#include "calc/fault.h"

typedef struct
{
  SwFault fault;
  char *typed; /* Owned; fault.typed points here */
} SwFaultErrorPrivate;

static void
sw_fault_error_private_init (SwFaultErrorPrivate *priv)
{
  priv->fault = (SwFault){ .value = NAN, .low = -INFINITY, .high = INFINITY };
  priv->typed = NULL;
}

static void
sw_fault_error_private_copy (const SwFaultErrorPrivate *source, SwFaultErrorPrivate *target)
{
  target->fault = source->fault;
  target->typed = g_strdup (source->typed);
  target->fault.typed = target->typed;
}

static void
sw_fault_error_private_clear (SwFaultErrorPrivate *priv)
{
  g_free (priv->typed);
}

G_DEFINE_EXTENDED_ERROR (SwFaultError, sw_fault_error)
