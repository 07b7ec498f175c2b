/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A new plant: a file with the site's name and its first person. */
#pragma once

#include "records/plant.h"

G_BEGIN_DECLS

typedef struct
{
  const char *site;     /* Borrowed */
  const char *name;     /* Borrowed: of the first person, who sets up */
  const char *initials; /* Borrowed */
} SwNewPlant;

/* Makes the file with site and person, or nothing. (out) the person's id. (transfer full) */
SwStore *
sw_new_plant_create (const char *path, const SwNewPlant *plant, gint64 *person, GError **error);

G_END_DECLS
