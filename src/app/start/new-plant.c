/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A new plant. What cannot be filled in is not left behind as an empty file. */
#include "app/start/new-plant.h"

#include <glib/gstdio.h>

#include "workflow/setup.h"
#include "workflow/sign-in.h"

static gboolean
fill (SwStore *store, const SwNewPlant *plant, SwSigner *signer, GError **error)
{
  const SwActor system = { .person = 0, .identified = SW_IDENTIFIED_SYSTEM };
  g_autoptr (SwSite) site = sw_site_get (store, error);
  g_autoptr (SwPerson) person = sw_person_new ();
  SwActor first = { .identified = SW_IDENTIFIED_SELECTED };

  if (site == NULL)
    return FALSE;
  g_free (site->name);
  site->name = g_strdup (plant->site);
  person->name = g_strdup (plant->name);
  person->initials = g_strdup (plant->initials);
  person->role = SW_ROLE_ADMINISTRATOR;
  person->active = TRUE;
  if (!sw_setup_site (store, &system, site, error)
      || !sw_setup_person (store, &system, person, error))
    return FALSE;
  first.person = person->record.id;
  return sw_secret_set (store, &first, first.person, NULL, plant->secret, error)
         && sw_sign_in (store, first.person, plant->secret, signer, error);
}

SwStore *
sw_new_plant_create (const char *path, const SwNewPlant *plant, SwSigner *signer, GError **error)
{
  g_autoptr (SwStore) store = sw_store_open (path, SW_OPEN_CREATE, NULL, error);

  if (store == NULL)
    return NULL;
  if (fill (store, plant, signer, error))
    return g_steal_pointer (&store);
  g_clear_pointer (&store, sw_store_close);
  g_unlink (path);
  return NULL;
}
