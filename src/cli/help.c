/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Help texts. */
#include "cli/help.h"

#include "wording/sentence.h"

#include "sw-config.h"

#define COLUMN 26

/* "  left      right", the right part always in its column. */
static void
append_row (GString *out, const char *left, const char *right)
{
  glong width = g_utf8_strlen (left, -1);

  g_string_append_printf (out, "  %s%*s%s\n", left, (int)MAX (2, COLUMN - width), "", right);
}

void
sw_cli_append_help (const SwWording *wording, GString *out)
{
  gsize n;
  const SwCliCommand *commands = sw_cli_get_commands (&n);

  /* Translators: %s is the program's name; the capitals stand for what is typed there. */
  g_string_append_printf (out, sw_tr (wording, "Usage: %s [FILE], or a command:"),
                          SW_GETTEXT_DOMAIN);
  g_string_append (out, "\n\n");
  for (gsize i = 0; i < n; i++)
    append_row (out, commands[i].name, sw_tr (wording, commands[i].summary));
  append_row (out, "help COMMAND", sw_tr (wording, "Show the options of a command."));
  append_row (out, "--version", sw_tr (wording, "Show the version."));
  g_string_append_printf (out, "\n%s\n", sw_say_caution (wording, SW_CAUTION_DEFER));
}

/* "drop volume (mL)", and what is assumed. (transfer full) */
static char *
describe (const SwWording *wording, const SwOption *option)
{
  const char *text = option->help != NULL ? sw_tr (wording, option->help)
                                          : sw_say_quantity (wording, option->quantity);
  const char *unit = sw_unit_get_symbol (option->unit);
  g_autofree char *with_unit = option->kind == SW_OPTION_AMOUNT && *unit != '\0'
                                   ? g_strdup_printf ("%s (%s)", text, unit)
                                   : g_strdup (text);

  if (option->preset == NULL)
    return g_steal_pointer (&with_unit);
  /* Translators: 1 what an option means, 2 the value taken when it is not given. */
  return g_strdup_printf (sw_tr (wording, "%1$s; without it %2$s"), with_unit, option->preset);
}

void
sw_cli_append_command_help (const SwWording *wording, const SwCliCommand *command, GString *out)
{
  g_autoptr (GString) uncertain = g_string_new (NULL);

  g_string_append_printf (out, "%s %s%s%s%s\n\n%s\n\n", SW_GETTEXT_DOMAIN, command->name,
                          *command->words != '\0' ? " " : "", command->words,
                          command->options[0].name != NULL ? " ..." : "",
                          sw_tr (wording, command->summary));
  for (const SwOption *option = command->options; option->name != NULL; option++)
    {
      g_autofree char *left
          = g_strconcat ("--", option->name, option->kind == SW_OPTION_FLAG ? "" : " VALUE", NULL);
      g_autofree char *right = describe (wording, option);

      append_row (out, left, right);
      if (option->uncertain)
        g_string_append_printf (uncertain, " %s", option->name);
    }
  if (uncertain->len == 0)
    return;
  /* Translators: names of options follow, one after the other. */
  g_string_append_printf (out, "\n%s%s\n", sw_tr (wording, "NAME is one of:"), uncertain->str);
  append_row (out, "--u-NAME VALUE", sw_tr (wording, "its standard uncertainty; without it 0"));
  append_row (out, "--freedom-NAME VALUE",
              sw_tr (wording, "degrees of freedom of that; without it infinite"));
}
