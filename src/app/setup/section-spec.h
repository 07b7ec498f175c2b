/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What makes one section of the set-up different from another. */
#pragma once

#include "app/setup/editor.h"
#include "app/setup/setup-list.h"

G_BEGIN_DECLS

typedef struct
{
  const char *name;      /* "machines" */
  const char *title;     /* "Machines" */
  const char *add_label; /* "Add _Machine" */
  const char *new_title; /* "New Machine" */
  const char *empty;     /* what a newcomer reads while there is none */
  const char *void_hint; /* what taking one out of use means */
  SwTable table;
  gboolean single; /* one record, row 1, always open: no list, nothing to take out of use */
  gboolean stays;  /* the form stays open after a save */
  gboolean fixed;  /* a record is only read once it is saved */
  GtkWidget *(*editor) (SwContext *context);
  SwSetupDescribe describe;                /* NULL with single */
  GtkWidget *(*page) (SwContext *context); /* no records: a page of its own, and nothing of above */
} SwSectionSpec;

/* The sections in the order of the side list. */
extern const SwSectionSpec sw_section_machines, sw_section_methods, sw_section_products,
    sw_section_lots, sw_section_droppers, sw_section_solvents, sw_section_people, sw_section_site,
    sw_section_backups;

G_END_DECLS
