/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of each file would survive a power cut: its synced contents, and the changes that wait. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define IMAGE_SECTOR 512 /* bytes that survive or vanish together */

/* What of the writes since the last sync survives. */
typedef enum
{
  CUT_LOSE_ALL,
  CUT_KEEP_ALL,
  CUT_LOSE_SOME, /* sectors, by a seed */
  CUT_N_LOSSES
} CutLoss;

typedef struct
{
  GByteArray *durable;
  GPtrArray *waiting; /* changes, oldest first */
  gboolean exists;    /* in the real folder */
  gboolean durable_exists;
} Image;

/* Forgets all files. */
void image_forget_all (void);
/* A file that is there when first asked for has been there for long: all of it is durable. */
Image *image_get (const char *path);
/* The file is being opened; it is made when it is not there. */
void image_open (Image *image);
/* A write, or with @bytes NULL a truncation to @offset. */
void image_change (Image *image, gsize offset, const void *bytes, gsize length);
void image_sync (Image *image);
void image_delete (Image *image, gboolean folder_synced);
/* Writes what a machine would find after the cut into @folder. */
void image_write_survivors (const char *folder, CutLoss loss, guint32 seed);

G_END_DECLS
