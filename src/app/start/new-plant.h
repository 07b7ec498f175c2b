/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A new plant: a file with the site's name, and its first administrator, whose secret guards it
 * from the first moment. */
#pragma once

#include "workflow/rights.h"

G_BEGIN_DECLS

typedef struct
{
  const char *site;     /* Borrowed */
  const char *name;     /* Borrowed: of the first person, who sets up */
  const char *initials; /* Borrowed */
  const char *secret;   /* Borrowed: typed by that person; the caller wipes it */
} SwNewPlant;

/* Makes the file with site and person, or nothing. (out) the person, signed in. (transfer full) */
SwStore *
sw_new_plant_create (const char *path, const SwNewPlant *plant, SwSigner *signer, GError **error);

G_END_DECLS
