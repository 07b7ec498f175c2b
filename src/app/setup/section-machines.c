/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of machines: the section. */
#include "app/plant-words.h"
#include "app/setup/machine-editor.h"
#include "app/setup/plant-choices.h"
#include "app/setup/section-spec.h"
#include "wording/sentence-setup.h"
#include "workflow/setup.h"

static char *
say_state (SwContext *context, const SwMachine *machine)
{
  const SwWording *wording = sw_context_get_wording (context);
  g_autoptr (GArray) facts
      = sw_setup_unready (sw_context_get_store (context), machine->record.id, NULL);

  return sw_say_ready (wording,
                       machine->service != SW_SERVICE_RUNNING
                           ? sw_say_service_state (wording, machine->service)
                           : NULL,
                       facts != NULL ? facts->len : 0);
}

static gboolean
describe_machine (SwContext *context, gint64 id, SwSetupItem *item, GError **error)
{
  const SwWording *wording = sw_context_get_wording (context);
  g_autoptr (SwMachine) machine = sw_machine_load (sw_context_get_store (context), id, error);
  g_autofree char *solvent = NULL;

  if (machine == NULL)
    return FALSE;
  if (machine->solvent != 0)
    solvent = sw_choice_solvent (context, machine->solvent);
  sw_setup_item_take_title (item, sw_plant_machine_name (context, id));
  sw_setup_item_take_detail (item, sw_say_machine_line (wording, machine->area, solvent));
  sw_setup_item_take_state (item, say_state (context, machine));
  return TRUE;
}

const SwSectionSpec sw_section_machines = {
  .name = "machines",
  .title = N_ ("Machines"),
  .add_label = N_ ("_Add Machine"),
  .new_title = N_ ("New Machine"),
  .empty = N_ ("No machine yet. It is easiest in this order: yourself under People, solvent, "
               "products, their lots and drop volumes, a method, and then the machine."),
  .void_hint = N_ ("Nothing is deleted: all its tests and doses stay on file. The machine leaves "
                   "the list and never comes due again."),
  .table = SW_TABLE_MACHINE,
  .stays = TRUE,
  .editor = sw_machine_editor_new,
  .describe = describe_machine,
};
