/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Folders on another machine: SQLite's locks are not safe there (sqlite.org/faq.html, question 5;
 * sqlite.org/wal.html: WAL does not work over a network file system), so nothing is written. */
#include "records/lock-private.h"

#include <gio/gunixmounts.h>
#include <string.h>
#include <sys/vfs.h>

#define FUSE_TYPE 0x65735546L

/* f_type values of statfs(2) and linux/magic.h. */
static const struct
{
  long type;
  const char *name;
} network_types[] = {
  { 0x6969L, "NFS" },      { 0x517BL, "SMB" },        { 0xFE534D42L, "SMB" },
  { 0xFF534D42L, "CIFS" }, { 0x564CL, "NCP" },        { 0x5346414FL, "AFS" },
  { 0x6B414653L, "AFS" },  { 0x73757245L, "Coda" },   { 0x00C36400L, "Ceph" },
  { 0x01021997L, "9P" },   { 0x0BD00BD0L, "Lustre" }, { 0x013111A8L, "IBRIX" },
};

/* FUSE says nothing about where the bytes are; the mount table does. */
static const char *const network_fuse_names[]
    = { "fuse.sshfs", "fuse.rclone", "fuse.gvfsd-fuse", "fuse.s3fs",     "fuse.glusterfs",
        "fuse.ceph",  "fuse.davfs",  "fuse.curlftpfs",  "fuse.smbnetfs", NULL };

static const char *
name_network_type (long type)
{
  for (gsize i = 0; i < G_N_ELEMENTS (network_types); i++)
    if (network_types[i].type == (type & 0xFFFFFFFFL))
      return network_types[i].name;
  return NULL;
}

static gboolean
is_network_fuse (const char *folder)
{
  GUnixMountEntry *mount = g_unix_mount_for (folder, NULL);
  gboolean found;

  if (mount == NULL)
    return FALSE;
  found = g_strv_contains (network_fuse_names, g_unix_mount_get_fs_type (mount));
  g_unix_mount_free (mount);
  return found;
}

gboolean
sw_network_check (const char *path, long fs_type, GError **error)
{
  g_autofree char *folder = g_path_get_dirname (path);
  const char *name;
  struct statfs status;

  if (fs_type == 0)
    fs_type = statfs (folder, &status) == 0 ? (long)status.f_type : 0;
  name = name_network_type (fs_type);
  if (name == NULL && fs_type == FUSE_TYPE && is_network_fuse (folder))
    name = "FUSE";
  if (name == NULL)
    return TRUE;
  g_set_error (error, SW_RECORDS_ERROR, SW_RECORDS_ERROR_NETWORK,
               "%s is on a network folder (%s), where two programs could write at once", path,
               name);
  return FALSE;
}
