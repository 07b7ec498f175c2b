/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One field of set-up at a time: a whole good row with this one field set to what is tried. */
#pragma once

#include "change.h"

#include "workflow/setup.h"

typedef gboolean (*SetNumber) (Scene *scene, double value, const char *typed, GError **error);
typedef gboolean (*SetText) (Scene *scene, const char *text, GError **error);

typedef struct
{
  const char *name;
  SetNumber set;
  SwQuantityName quantity;
  double good;
  gboolean needed; /* NAN is refused */
  gboolean zero;   /* 0 is fine */
  gboolean typed;  /* has the text typed beside it */
} NumberField;

typedef struct
{
  const char *name;
  SetText set;
  SwQuantityName quantity;
  const char *taken; /* in use by a row of the plant; NULL = need not be unique */
} TextField;

const NumberField *setup_number_fields (gsize *n);
const TextField *setup_text_fields (gsize *n);

/* The administrator, with a reason. */
SwActor setup_actor (const Scene *scene);
/* Whole good rows, not inserted. (transfer full) */
SwMachine *setup_good_machine (const Scene *scene);
SwProduct *setup_good_product (void);
SwPlan *setup_good_plan (const Scene *scene);
