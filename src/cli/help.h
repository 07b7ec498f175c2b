/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Help texts, made from the tables of commands and options. */
#pragma once

#include "cli/command.h"

G_BEGIN_DECLS

void sw_cli_append_help (const SwWording *wording, GString *out);
void
sw_cli_append_command_help (const SwWording *wording, const SwCliCommand *command, GString *out);

G_END_DECLS
