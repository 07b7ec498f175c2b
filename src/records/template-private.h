/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A method file, taken apart and checked, before anything of it becomes a row. */
#pragma once

#include "records/method.h"

G_BEGIN_DECLS

typedef struct
{
  SwMethodVersion *version; /* Owned; of no method, titrant and caustic yet */
  GPtrArray *fields;        /* Owned SwColourField, by rank, 1 first; at least two */
  GPtrArray *texts;         /* Owned SwMethodText */
  gboolean has_caustic;     /* asks for a caustic addition */
} SwTemplate;

/* NULL with an error that names group and key: SW_FAULT_ERROR for a number out of its range,
 * SW_RECORDS_ERROR for all else. (transfer full) */
SwTemplate *sw_template_parse (GBytes *bytes, GError **error);
void sw_template_free (SwTemplate *template);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwTemplate, sw_template_free)

G_END_DECLS
