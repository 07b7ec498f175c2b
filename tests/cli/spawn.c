/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs the command line as people do. */
#include "spawn.h"

#include <string.h>
#include <sys/wait.h>

static const char *program;

void
sw_spawn_init (int argc, char **argv)
{
  g_assert_cmpint (argc, >, 1);
  program = argv[1];
}

static char **
make_environment (const char *language)
{
  char **environment = g_get_environ ();

  environment = g_environ_unsetenv (environment, "DISPLAY");
  environment = g_environ_unsetenv (environment, "WAYLAND_DISPLAY");
  environment = g_environ_unsetenv (environment, "LANGUAGE");
  environment = g_environ_setenv (environment, "LC_ALL", "C.UTF-8", TRUE);
  if (language != NULL)
    environment = g_environ_setenv (environment, "LANGUAGE", language, TRUE);
  return environment;
}

SwSpawned *
sw_spawn (const char *arguments, const char *language)
{
  SwSpawned *spawned = g_new0 (SwSpawned, 1);
  g_autofree char *quoted = g_shell_quote (program);
  g_autofree char *line = g_strconcat (quoted, " ", arguments, NULL);
  g_auto (GStrv) environment = make_environment (language);
  g_auto (GStrv) argv = NULL;
  g_autoptr (GError) error = NULL;
  int status = 0;

  g_shell_parse_argv (line, NULL, &argv, &error);
  g_assert_no_error (error);
  g_spawn_sync (NULL, argv, environment, G_SPAWN_DEFAULT, NULL, NULL, &spawned->out, &spawned->err,
                &status, &error);
  g_assert_no_error (error);
  g_assert_true (WIFEXITED (status));
  spawned->code = WEXITSTATUS (status);
  return spawned;
}

void
sw_spawned_free (SwSpawned *spawned)
{
  g_free (spawned->out);
  g_free (spawned->err);
  g_free (spawned);
}

gboolean
sw_spawned_has_line (const SwSpawned *spawned, const char *line)
{
  g_auto (GStrv) lines = g_strsplit (spawned->out, "\n", -1);

  return g_strv_contains ((const char *const *)lines, line);
}

char *
sw_spawned_value (const SwSpawned *spawned, const char *name)
{
  g_auto (GStrv) lines = g_strsplit (spawned->out, "\n", -1);

  for (gsize i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) fields = g_strsplit (lines[i], "\t", -1);
      if (fields[0] != NULL && strcmp (fields[0], name) == 0)
        return g_strdup (fields[1]);
    }
  g_error ("no line %s in:\n%s", name, spawned->out);
}
