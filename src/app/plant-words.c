/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names of records for the screen. */
#include "app/plant-words.h"

#include "wording/sentence-todo.h"
#include "workflow/guided.h"

char *
sw_plant_machine_name (SwContext *context, gint64 machine)
{
  g_autoptr (SwMachine) row = sw_machine_load (sw_context_get_store (context), machine, NULL);

  if (row == NULL)
    return g_strdup ("?");
  return sw_say_machine_name (sw_context_get_wording (context), row->tag, row->name);
}

char *
sw_plant_machine_tag (SwContext *context, gint64 machine)
{
  g_autoptr (SwMachine) row = sw_machine_load (sw_context_get_store (context), machine, NULL);

  return g_strdup (row != NULL && row->tag != NULL ? row->tag : "?");
}

char *
sw_plant_product_name (SwContext *context, gint64 product)
{
  g_autoptr (SwProduct) row = sw_product_load (sw_context_get_store (context), product, NULL);

  return g_strdup (row != NULL && row->name != NULL ? row->name : "?");
}

char *
sw_plant_person_initials (SwContext *context, gint64 person)
{
  g_autoptr (SwPerson) row = sw_person_load (sw_context_get_store (context), person, NULL);

  return g_strdup (row != NULL && row->initials != NULL ? row->initials : "?");
}

char *
sw_plant_say_error (const SwWording *wording, const GError *error)
{
  const SwFact *fact = sw_workflow_error_get_fact (error);

  return fact != NULL ? sw_say_fact (wording, fact) : sw_say_error (wording, error);
}
