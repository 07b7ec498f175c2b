/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list of small forms of one kind inside a form: compartments, sampling points, plans,
 * weighings. Each can be removed, an ordered list also moved. */
#pragma once

#include "app/setup/form.h"

G_BEGIN_DECLS

typedef struct
{
  const char *id; /* widget name */
  const char *title;
  const char *hint; /* or NULL */
  const char *add_label;
  const char *empty; /* what is said while there is none */
  gboolean ordered;
  gboolean compact; /* no card around each */
  int columns;
  const SwFormSpec *fields;
  guint n_fields;
  /* Functions of the record type, which begins with SwRecord. */
  gpointer (*create) (void);
  gpointer (*copy) (gconstpointer record);
  void (*free) (gpointer record);
} SwFormListSpec;

#define SW_TYPE_FORM_LIST (sw_form_list_get_type ())
G_DECLARE_FINAL_TYPE (SwFormList, sw_form_list, SW, FORM_LIST, GtkWidget)

/* @spec is static. */
SwFormList *sw_form_list_new (SwContext *context, const SwFormListSpec *spec);

/* Shows copies of @records, element a record. */
void sw_form_list_load (SwFormList *self, GPtrArray *records);
/* The records as typed, in their order, owned by the array; NULL: errors stand at their rows.
 * (transfer full) */
GPtrArray *sw_form_list_save (SwFormList *self);
/* The good ones among them, without complaint. (transfer full) */
GPtrArray *sw_form_list_peek (SwFormList *self);
/* Ids (gint64) of records that were loaded and have been removed. (transfer full) */
GArray *sw_form_list_removed (SwFormList *self);
gboolean sw_form_list_is_changed (SwFormList *self);
gboolean sw_form_list_show_error (SwFormList *self, const GError *error);
void sw_form_list_refresh (SwFormList *self);
/* Adds an empty form and gives it the focus. */
SwForm *sw_form_list_add (SwFormList *self);
guint sw_form_list_get_n_forms (SwFormList *self);
SwForm *sw_form_list_get_form (SwFormList *self, guint nth); /* (transfer none) */
/* The focus goes to the first form, or to Add while there is none. */
void sw_form_list_focus (SwFormList *self);

/* Signal "changed": a field, the number or the order of the forms. */

G_END_DECLS
