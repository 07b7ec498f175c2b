/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the command, runs it, prints what it gave or the one line that says why not. */
#include "cli/cli.h"

#include "cli/command.h"
#include "cli/help.h"
#include "reports/workbook.h"

#include <locale.h>
#include <stdio.h>
#include <string.h>

#include "sw-config.h"

#define PROGRAM SW_GETTEXT_DOMAIN

static gboolean
is_word (const char *word, const char *other)
{
  return word != NULL && strcmp (word, other) == 0;
}

gboolean
sw_cli_is_command (const char *word)
{
  gsize n;
  const SwCliCommand *commands = sw_cli_get_commands (&n);

  if (is_word (word, "help") || is_word (word, "--help") || is_word (word, "--version"))
    return TRUE;
  for (gsize i = 0; i < n && word != NULL; i++)
    {
      gsize length = strcspn (commands[i].name, " ");

      if (strlen (word) == length && strncmp (word, commands[i].name, length) == 0)
        return TRUE;
    }
  return FALSE;
}

static SwExit
complain (GString *err, const char *line, SwExit code)
{
  g_string_append_printf (err, PROGRAM ": %s\n", line);
  return code;
}

static SwExit
complain_about (GString *err, const char *word, const char *sentence)
{
  g_autofree char *line = g_strconcat (word, ": ", sentence, NULL);
  g_autofree char *valid = g_utf8_make_valid (line, -1);

  g_strdelimit (valid, "\n\r\t\v\f", ' ');
  return complain (err, valid, SW_EXIT_BAD_ARGUMENTS);
}

static SwExit
complain_of_error (const SwWording *wording, const GError *error, GString *err)
{
  g_autofree char *sentence = NULL;

  if (error->domain == SW_CLI_ERROR)
    return complain (err, error->message, SW_EXIT_BAD_ARGUMENTS);
  sentence = sw_report_error_say (wording, error);
  g_strdelimit (sentence, "\n\r\t\v\f", ' ');
  return complain (err, sentence, SW_EXIT_BAD_DATA);
}

static SwExit
run_command (const SwWording *wording,
             const SwCliCommand *command,
             int argc,
             char **argv,
             GString *out,
             GString *err)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GString) lines = g_string_new (NULL);
  g_autoptr (SwOptions) options
      = sw_options_parse (command->options, command->most_words, wording, argc, argv, &error);
  SwCliRun run = { wording, options, lines };
  SwExit code = SW_EXIT_BAD_ARGUMENTS;

  if (options != NULL)
    code = command->run (&run, &error);
  if (error != NULL)
    return complain_of_error (wording, error, err);
  g_string_append (out, lines->str);
  return code;
}

/* "help", "help calculate dose", "--help". */
static SwExit
run_help (const SwWording *wording, int argc, char **argv, GString *out, GString *err)
{
  const SwCliCommand *command;
  int used = 0;

  if (argc == 0)
    {
      sw_cli_append_help (wording, out);
      return SW_EXIT_DONE;
    }
  command = sw_cli_find_command (argc, argv, &used);
  if (command == NULL || used < argc)
    return complain_about (err, argv[command == NULL ? 0 : used],
                           sw_tr (wording, "There is no such command."));
  sw_cli_append_command_help (wording, command, out);
  return SW_EXIT_DONE;
}

static SwExit
run_version (const SwWording *wording, int argc, char **argv, GString *out, GString *err)
{
  if (argc > 0)
    return complain_about (err, argv[0], sw_tr (wording, "This word is not expected here."));
  g_string_append (out, PROGRAM " " SW_VERSION "\n");
  return SW_EXIT_DONE;
}

int
sw_cli_execute (const SwWording *wording, int argc, char **argv, GString *out, GString *err)
{
  const SwCliCommand *command;
  int used = 0;

  if (argc < 2)
    return complain_about (err, "help",
                           sw_tr (wording, "A command is missing; this one lists them."));
  if (is_word (argv[1], "help") || is_word (argv[1], "--help"))
    return run_help (wording, argc - 2, argv + 2, out, err);
  if (is_word (argv[1], "--version"))
    return run_version (wording, argc - 2, argv + 2, out, err);

  command = sw_cli_find_command (argc - 1, argv + 1, &used);
  if (command == NULL)
    /* "calculate" alone, or with a wrong second word, names that word. */
    return complain_about (err, argv[argc > 2 && sw_cli_is_command (argv[1]) ? 2 : 1],
                           sw_tr (wording, "There is no such command."));
  argc -= 1 + used;
  argv += 1 + used;
  if (argc == 1 && is_word (argv[0], "--help"))
    {
      sw_cli_append_command_help (wording, command, out);
      return SW_EXIT_DONE;
    }
  return run_command (wording, command, argc, argv, out, err);
}

static gboolean
print (FILE *stream, const GString *text)
{
  return fwrite (text->str, 1, text->len, stream) == text->len && fflush (stream) == 0;
}

int
sw_cli_run (int argc, char **argv)
{
  g_autoptr (GString) out = g_string_new (NULL);
  g_autoptr (GString) err = g_string_new (NULL);
  g_autoptr (SwWording) wording = NULL;
  int code;

  setlocale (LC_MESSAGES, "");
  sw_wording_init (NULL);
  wording = sw_wording_new (NULL, NULL);
  code = sw_cli_execute (wording, argc, argv, out, err);
  print (stderr, err);
  if (!print (stdout, out) && code == SW_EXIT_DONE)
    {
      g_string_assign (err, "");
      code = (int)complain (err, sw_tr (wording, "The result could not be written."),
                            SW_EXIT_BAD_DATA);
      print (stderr, err);
    }
  return code;
}
