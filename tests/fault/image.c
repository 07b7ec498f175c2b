/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of each file would survive a power cut, and the writing of the survivors. */
#include "image.h"

#include <string.h>

typedef struct
{
  gsize offset;
  GBytes *bytes; /* NULL: truncate to offset */
} Change;

static GHashTable *images; /* path to Image */

static void
free_change (gpointer data)
{
  Change *change = data;

  g_clear_pointer (&change->bytes, g_bytes_unref);
  g_free (change);
}

static void
free_image (gpointer data)
{
  Image *image = data;

  g_byte_array_unref (image->durable);
  g_ptr_array_unref (image->waiting);
  g_free (image);
}

void
image_forget_all (void)
{
  if (images == NULL)
    images = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, free_image);
  g_hash_table_remove_all (images);
}

Image *
image_get (const char *path)
{
  Image *image = g_hash_table_lookup (images, path);
  char *contents = NULL;
  gsize length = 0;

  if (image != NULL)
    return image;
  image = g_new0 (Image, 1);
  image->durable = g_byte_array_new ();
  image->waiting = g_ptr_array_new_with_free_func (free_change);
  if (g_file_get_contents (path, &contents, &length, NULL))
    {
      g_byte_array_append (image->durable, (const guint8 *)contents, (guint)length);
      image->exists = image->durable_exists = TRUE;
    }
  g_free (contents);
  g_hash_table_insert (images, g_strdup (path), image);
  return image;
}

void
image_open (Image *image)
{
  if (image->exists)
    return;
  image->exists = TRUE;
  image->durable_exists = FALSE;
  g_byte_array_set_size (image->durable, 0);
}

void
image_delete (Image *image, gboolean folder_synced)
{
  image->exists = FALSE;
  g_ptr_array_set_size (image->waiting, 0);
  image->durable_exists = image->durable_exists && !folder_synced;
}

void
image_change (Image *image, gsize offset, const void *bytes, gsize length)
{
  Change *change = g_new (Change, 1);

  change->offset = offset;
  change->bytes = bytes != NULL ? g_bytes_new (bytes, length) : NULL;
  g_ptr_array_add (image->waiting, change);
}

/* Writing past the end leaves zeros between. */
static void
put_bytes (GByteArray *file, gsize offset, const guint8 *bytes, gsize length)
{
  guint before = file->len;

  if (offset + length > before)
    {
      g_byte_array_set_size (file, (guint)(offset + length));
      memset (file->data + before, 0, offset + length - before);
    }
  memcpy (file->data + offset, bytes, length);
}

/* @dice NULL: the whole change. */
static void
apply_change (GByteArray *file, const Change *change, GRand *dice)
{
  const guint8 *bytes;
  gsize length;

  if (change->bytes == NULL)
    {
      if (file->len > change->offset && (dice == NULL || g_rand_boolean (dice)))
        g_byte_array_set_size (file, (guint)change->offset);
      return;
    }
  bytes = g_bytes_get_data (change->bytes, &length);
  for (gsize done = 0; done < length;)
    {
      gsize room = IMAGE_SECTOR - (change->offset + done) % IMAGE_SECTOR;
      gsize part = MIN (room, length - done);

      if (dice == NULL || g_rand_boolean (dice))
        put_bytes (file, change->offset + done, bytes + done, part);
      done += part;
    }
}

/* SQLite's VFS for Unix syncs the folder with the first sync of a file that it has made; what else
 * has come or gone in that folder is durable then, too. */
static void
make_folder_durable (void)
{
  GHashTableIter iter;
  gpointer image;

  g_hash_table_iter_init (&iter, images);
  while (g_hash_table_iter_next (&iter, NULL, &image))
    ((Image *)image)->durable_exists = ((Image *)image)->exists;
}

void
image_sync (Image *image)
{
  for (guint i = 0; i < image->waiting->len; i++)
    apply_change (image->durable, image->waiting->pdata[i], NULL);
  g_ptr_array_set_size (image->waiting, 0);
  if (!image->durable_exists)
    make_folder_durable ();
}

/* Whether a file whose existence nobody synced is there after the cut. */
static gboolean
survives (const Image *image, CutLoss loss, GRand *dice)
{
  if (image->exists == image->durable_exists)
    return image->exists;
  if (loss == CUT_LOSE_SOME)
    return g_rand_boolean (dice);
  return loss == CUT_KEEP_ALL ? image->exists : image->durable_exists;
}

static void
write_survivor (const char *path, const Image *image, const char *folder, CutLoss loss, GRand *dice)
{
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *target = g_build_filename (folder, name, NULL);
  g_autoptr (GByteArray) file = g_byte_array_new ();
  GError *error = NULL;

  if (!survives (image, loss, dice))
    return;
  g_byte_array_append (file, image->durable->data, image->durable->len);
  for (guint i = 0; i < image->waiting->len && loss != CUT_LOSE_ALL; i++)
    apply_change (file, image->waiting->pdata[i], loss == CUT_LOSE_SOME ? dice : NULL);
  g_file_set_contents_full (target, (const char *)file->data, (gssize)file->len,
                            G_FILE_SET_CONTENTS_NONE, 0644, &error);
  g_assert_no_error (error);
}

void
image_write_survivors (const char *folder, CutLoss loss, guint32 seed)
{
  GHashTableIter iter;
  gpointer path;
  gpointer image;

  g_hash_table_iter_init (&iter, images);
  while (g_hash_table_iter_next (&iter, &path, &image))
    {
      /* by name, because the order of a hash table is nobody's promise */
      g_autofree char *name = g_path_get_basename (path);
      g_autoptr (GRand) dice = g_rand_new_with_seed (seed ^ g_str_hash (name));

      write_survivor (path, image, folder, loss, dice);
    }
}
