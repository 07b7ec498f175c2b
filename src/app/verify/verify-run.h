/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A verify in a worker: a connection of its own, one read transaction, so that the window goes on
 * working, and the report is of one moment. */
#pragma once

#include <gio/gio.h>

#include "records/verify.h"

G_BEGIN_DECLS

typedef struct
{
  char *path;         /* Owned */
  char *trust_folder; /* Owned; NULL = none */
  char **heads;       /* Owned; NULL = none */
  gboolean quick;
  int permille;              /* atomic: how far it is */
  GCancellable *cancellable; /* Owned */
} SwVerifyJob;

SwVerifyJob *sw_verify_job_new (const char *path, const char *trust_folder);
void sw_verify_job_unref (SwVerifyJob *job);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwVerifyJob, sw_verify_job_unref)
int sw_verify_job_get_permille (SwVerifyJob *job);

/* Keeps a reference of @job until it is done. Cancelled: G_IO_ERROR_CANCELLED. */
void sw_verify_run_async (SwVerifyJob *job, GAsyncReadyCallback done, gpointer data);
/* (transfer full) */
SwVerifyReport *sw_verify_run_finish (GAsyncResult *result, GError **error);

G_END_DECLS
