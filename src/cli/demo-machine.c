/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Puts one invented machine on file, with its compartments, sampling point and plan. */
#include "cli/demo-private.h"
#include "workflow/setup.h"

static const struct
{
  const char *word;
  SwCompartmentKind kind;
} kinds[] = {
  { "wash_tank", SW_COMPARTMENT_WASH_TANK }, { "chamber", SW_COMPARTMENT_CHAMBER },
  { "still", SW_COMPARTMENT_STILL },         { "condensate", SW_COMPARTMENT_CONDENSATE },
  { "separator", SW_COMPARTMENT_SEPARATOR }, { "pipes", SW_COMPARTMENT_PIPES },
};

static SwCompartmentKind
find_kind (const char *word)
{
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (g_str_equal (kinds[i].word, word))
      return kinds[i].kind;
  return SW_COMPARTMENT_OTHER;
}

static GPtrArray *
make_compartments (const SwDemo *demo, const char *group)
{
  GPtrArray *compartments = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_compartment_free);
  gsize n = 0, n_volumes = 0, n_doubts = 0;
  g_auto (GStrv) words = g_key_file_get_string_list (demo->texts, group, "kinds", &n, NULL);
  g_autofree double *volumes
      = g_key_file_get_double_list (demo->texts, group, "volumes_l", &n_volumes, NULL);
  g_autofree double *doubts
      = g_key_file_get_double_list (demo->texts, group, "volumes_u_l", &n_doubts, NULL);

  g_return_val_if_fail (n == n_volumes && n == n_doubts, compartments);
  for (gsize i = 0; i < n; i++)
    {
      SwCompartment *compartment = sw_compartment_new ();

      compartment->kind = find_kind (words[i]);
      compartment->volume.value = volumes[i];
      compartment->volume.typed = g_strdup_printf ("%g L", volumes[i]);
      compartment->volume_u_l = doubts[i];
      g_ptr_array_add (compartments, compartment);
    }
  return compartments;
}

static GPtrArray *
make_points (const SwDemo *demo, const char *group)
{
  GPtrArray *points = g_ptr_array_new_with_free_func ((GDestroyNotify)sw_sampling_point_free);
  SwSamplingPoint *point = sw_sampling_point_new ();

  point->rank = 1;
  point->name = sw_demo_text (demo, group, "point");
  point->directions = sw_demo_text (demo, group, "directions");
  point->dose_basis = TRUE;
  g_ptr_array_add (points, point);
  return points;
}

static SwMachine *
make_machine (const SwDemo *demo, const char *group, const char *tag)
{
  SwMachine *machine = sw_machine_new ();
  g_autofree char *solvent = sw_demo_text (demo, group, "solvent");

  machine->tag = g_strdup (tag);
  machine->name = sw_demo_text (demo, group, "name");
  machine->area = sw_demo_text (demo, group, "area");
  machine->solvent = g_str_equal (solvent, "alcohol") ? demo->alcohol : demo->hydrocarbon;
  machine->neutraliser = demo->product;
  machine->chamber_l = sw_demo_number (demo, group, "chamber_l");
  machine->dosing_place = sw_demo_text (demo, group, "dosing_place");
  machine->circulation_min = sw_demo_number (demo, group, "circulation_min");
  machine->graduation.value = sw_demo_number (demo, group, "graduation_ml");
  machine->graduation.typed = g_strdup_printf ("%g mL", machine->graduation.value);
  return machine;
}

static gboolean
set_up_plan (SwDemo *demo, SwDemoMachine *nature, GError **error)
{
  const SwActor actor = sw_demo_actor (demo, demo->administrator);
  g_autoptr (SwPlan) plan = sw_plan_new ();

  plan->machine = nature->id;
  plan->method = demo->method;
  plan->shortest_days = 1.0;
  plan->longest_days = 7.0;
  plan->alpha = 0.1;
  plan->active = TRUE;
  if (!sw_setup_plan (demo->store, &actor, plan, error))
    return FALSE;
  nature->plan = plan->record.id;
  return TRUE;
}

gboolean
sw_demo_set_up_machine (SwDemo *demo, SwDemoMachine *nature, GError **error)
{
  const SwActor actor = sw_demo_actor (demo, demo->administrator);
  g_autofree char *group = g_strconcat ("machine ", nature->tag, NULL);
  g_autoptr (SwMachine) machine = make_machine (demo, group, nature->tag);
  g_autoptr (GPtrArray) compartments = make_compartments (demo, group);
  g_autoptr (GPtrArray) points = make_points (demo, group);

  if (!sw_setup_machine (demo->store, &actor, machine, compartments, points, error))
    return FALSE;
  nature->id = machine->record.id;
  nature->point = ((SwSamplingPoint *)points->pdata[0])->record.id;
  demo->counts.machines++;
  return set_up_plan (demo, nature, error);
}
