/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The form page of a record that is one table of fields and nothing more. */
#pragma once

#include "app/setup/editor.h"
#include "wording/sentence.h"

G_BEGIN_DECLS

/* The functions of a record type, which begins with SwRecord. */
typedef struct
{
  gpointer (*create) (void);
  gpointer (*load) (SwStore *store, gint64 id, GError **error);
  gpointer (*copy) (gconstpointer record);
  void (*free) (gpointer record);
} SwRecordOps;

/* Makes `name##_ops` of a type's functions: they take void pointers here and their own type there,
 * and a call through a cast would be undefined. */
#define SW_RECORD_OPS(name, Type, prefix)                                                          \
  static gpointer name##_create (void) { return prefix##_new (); }                                 \
  static gpointer name##_load (SwStore *store, gint64 id, GError **error)                          \
  {                                                                                                \
    return prefix##_load (store, id, error);                                                       \
  }                                                                                                \
  static gpointer name##_copy (gconstpointer record)                                               \
  {                                                                                                \
    return prefix##_copy ((const Type *)record);                                                   \
  }                                                                                                \
  static void name##_free (gpointer record) { prefix##_free ((Type *)record); }                    \
  static const SwRecordOps name##_ops = { name##_create, name##_load, name##_copy, name##_free };

typedef struct
{
  const SwFormSpec *fields;
  guint n_fields;
  const SwRecordOps *ops;
  gboolean (*save) (SwContext *context, const SwActor *actor, gpointer record, GError **error);
  /* What is filled in beforehand in a new record, or NULL. */
  void (*prepare) (SwContext *context, gpointer record);
  /* A row that is there from the start, but that nobody has filled in yet; NULL: there is none. */
  gboolean (*is_blank) (gconstpointer record);
  /* Something below the form, and what it shows of the record whenever one was opened or saved;
   * both or none. */
  GtkWidget *(*extra) (SwContext *context);
  void (*show_extra) (GtkWidget *extra, gconstpointer record);
  const char *note; /* shown above the form, or NULL */
  gboolean defers;  /* with the line that defers to data sheets and manuals */
} SwRecordSpec;

#define SW_TYPE_RECORD_EDITOR (sw_record_editor_get_type ())
G_DECLARE_FINAL_TYPE (SwRecordEditor, sw_record_editor, SW, RECORD_EDITOR, SwEditor)

/* @spec is static. (transfer floating) */
GtkWidget *sw_record_editor_new (SwContext *context, const SwRecordSpec *spec);

/* A paragraph of small print for a form page. (transfer floating) */
GtkWidget *sw_setup_note_new (const char *text);

G_END_DECLS
