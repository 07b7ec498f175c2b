/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files of SwForm share. */
#pragma once

#include "app/setup/form-control.h"
#include "app/setup/form.h"

G_BEGIN_DECLS

struct _SwForm
{
  GtkWidget parent_instance;

  /* Owned */
  SwContext *context;
  SwFormControl *controls;

  const SwFormSpec *specs; /* Borrowed, static */
  guint n_specs;
  int columns;
  GtkWidget *grid; /* Borrowed: the child */
  gboolean loading;
};

const SwFormKindClass *sw_form_class_of (const SwFormControl *control);
/* NULL when there is none of that id. */
SwFormControl *sw_form_find_control (SwForm *self, const char *id);
/* Whether a field's shown_with field asks for it now. */
gboolean sw_form_is_shown (SwForm *self, const SwFormSpec *spec);
/* Shows and places every row for what is chosen now. */
void sw_form_lay_out (SwForm *self);

G_END_DECLS
