/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs the command line as people do: a process of its own, with no display. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  int code;
  char *out;
  char *err;
} SwSpawned;

/* The program is the first argument of the test program. */
void sw_spawn_init (int argc, char **argv);
/* @arguments as a shell would split them; @language for LANGUAGE, NULL = none. */
SwSpawned *sw_spawn (const char *arguments, const char *language);
void sw_spawned_free (SwSpawned *spawned);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwSpawned, sw_spawned_free)

/* Whether @out has @line, whole. */
gboolean sw_spawned_has_line (const SwSpawned *spawned, const char *line);
/* The value behind @name, or fails. (transfer full) */
char *sw_spawned_value (const SwSpawned *spawned, const char *name);

G_END_DECLS
