/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Migrations. */
#pragma once

#include "records/store-private.h"

G_BEGIN_DECLS

/* One schema file. */
typedef struct
{
  char *name; /* Owned */
  char *sql;  /* Owned */
} SwScript;

void sw_script_free (SwScript *script);

/* Applies every schema file above the file's version; each version in an act of its own. */
gboolean sw_schema_migrate (SwStore *store, GError **error);
/* The same with scripts given (SwScript), for tests of later versions. */
gboolean sw_schema_migrate_with (SwStore *store, int version, GPtrArray *scripts, GError **error);
/* Runs the files of the versions up to @version, without a journal: for comparing. */
gboolean sw_schema_apply (SwStore *store, int version, GError **error);
/* Lets the statements of this program read a file of an older version, which stays as it is. */
gboolean sw_schema_read_as_newest (SwStore *store, GError **error);

G_END_DECLS
