/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which column means what, for the slow oracle: "titration.sample.code" is the code of the sample
 * of the row's titration. */
#pragma once

#include "browse-plant.h"

G_BEGIN_DECLS

typedef struct
{
  const char *machine; /* path */
  const char *main;    /* paths, the first that is not empty; then who wrote the row */
  const char *also;
  const char *outcome;
  const char *title, *of, *word;
  const char *texts;
} OraclePaths;

extern const OraclePaths oracle_paths[SW_N_TABLES];

/* What stands at the end of a path, as the journal would write it; NULL = empty. (transfer full) */
char *oracle_follow (BrowsePlant *plant, SwTable table, gint64 id, const char *path);
/* The first of several paths that leads to something. (transfer full) */
char *oracle_follow_any (BrowsePlant *plant, SwTable table, gint64 id, const char *list);
/* 0 for NULL; frees. */
gint64 oracle_to_id (char *text);

G_END_DECLS
