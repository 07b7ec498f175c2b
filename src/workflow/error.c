/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The error of a refused move: it carries the fact that says why. */
#include "workflow/guided.h"

typedef struct
{
  SwFact fact;
} SwWorkflowErrorPrivate;

/* GLib calls these only for our own domain, with memory that is there; gcc cannot see that. */
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wnull-dereference"
static void
sw_workflow_error_private_init (SwWorkflowErrorPrivate *priv)
{
  priv->fact = sw_fact (SW_FACT_NONE);
}

static void
sw_workflow_error_private_copy (const SwWorkflowErrorPrivate *source, SwWorkflowErrorPrivate *copy)
{
  *copy = *source;
}

static void
sw_workflow_error_private_clear (SwWorkflowErrorPrivate *priv)
{
}

/* Defines sw_workflow_error_quark and sw_workflow_error_get_private. */
G_DEFINE_EXTENDED_ERROR (SwWorkflowError, sw_workflow_error)
#pragma GCC diagnostic pop

const SwFact *
sw_workflow_error_get_fact (const GError *error)
{
  if (error == NULL || error->domain != SW_WORKFLOW_ERROR)
    return NULL;
  return &sw_workflow_error_get_private (error)->fact;
}

/* The message is for logs and tests; wording says the fact. */
gboolean
sw_workflow_refuse (GError **error, const SwFact *fact)
{
  SwWorkflowErrorPrivate *priv;

  g_return_val_if_fail (fact != NULL && fact->code != SW_FACT_NONE, FALSE);

  if (error == NULL)
    return FALSE;
  g_set_error (error, SW_WORKFLOW_ERROR, SW_WORKFLOW_ERROR_REFUSED, "refused: fact %d%s%s",
               (int)fact->code, fact->text[0] != '\0' ? ", " : "", fact->text);
  priv = sw_workflow_error_get_private (*error);
  if (priv != NULL)
    priv->fact = *fact;
  return FALSE;
}
