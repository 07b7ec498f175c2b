/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A SQLite VFS over the default one that fails on purpose: power cuts and full disks, at any chosen
 * operation, the same every time. It keeps an image of every file (image.h), from which the folder
 * that a machine would find at its next start can be written elsewhere.
 */
#pragma once

#include "image.h"

G_BEGIN_DECLS

#define CUT_VFS "cut"

typedef enum
{
  CUT_NEVER,
  CUT_POWER, /* this operation and everything after it fails */
  CUT_FULL   /* from this operation on nothing can be written, until cut_space_returns */
} CutKind;

/* Registers the VFS, once per program. */
void cut_register (void);
/* Forgets everything, images too, and arms: @at counts operations (write, truncate, sync, delete)
 * from 1. */
void cut_arm (CutKind kind, int at);
void cut_space_returns (void);
/* Whether the chosen operation has come. */
gboolean cut_has_struck (void);
/* Since cut_arm. */
int cut_count_operations (void);
int cut_count_syncs (void);
G_END_DECLS
