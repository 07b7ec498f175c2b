/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A machine's form page: its own fields, compartments with their sum, sampling points, plans, and
 * what is still missing. */
#pragma once

#include "app/setup/editor.h"

G_BEGIN_DECLS

#define SW_TYPE_MACHINE_EDITOR (sw_machine_editor_get_type ())
G_DECLARE_FINAL_TYPE (SwMachineEditor, sw_machine_editor, SW, MACHINE_EDITOR, SwEditor)

GtkWidget *sw_machine_editor_new (SwContext *context); /* (transfer floating) */

G_END_DECLS
