/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How each kind of field is built, filled and read: one class of functions per SwFormKind. */
#pragma once

#include <gtk/gtk.h>

#include "app/setup/form-spec.h"

G_BEGIN_DECLS

/* A field on screen. */
typedef struct
{
  const SwFormSpec *spec; /* Borrowed, static */
  SwContext *context;     /* Borrowed from the form */
  GtkWidget *row;         /* Borrowed: a child of the form */
  char *loaded;           /* Owned: dup_state of what was loaded */
} SwFormControl;

typedef struct
{
  /* Builds the row; calls @changed with @form whenever the field changes. (transfer floating) */
  GtkWidget *(*build) (SwContext *context,
                       const SwFormSpec *spec,
                       GCallback changed,
                       gpointer form);
  /* @member NULL: a word that is asked for. */
  void (*load) (const SwFormControl *control, gconstpointer member);
  /* Called only when the content is not what was loaded, or is empty. FALSE: no value; *fault_text
   * (transfer full) says why, in words. */
  gboolean (*save) (const SwFormControl *control, gpointer member, char **fault_text);
  /* The field's content as a text, to see whether it changed. (transfer full) */
  char *(*dup_state) (const SwFormControl *control);
  void (*clear) (gpointer member); /* the member's empty value */
  void (*set_error) (const SwFormControl *control, const char *text);
  /* Asks the file anew what can be chosen; NULL where nothing depends on the file. */
  void (*refresh) (const SwFormControl *control);
} SwFormKindClass;

const SwFormKindClass *sw_form_kind_class (SwFormKind kind);

/* For sw_form_kind_class: the classes by what the person does. */
extern const SwFormKindClass sw_form_text_class, sw_form_prose_class, sw_form_real_class,
    sw_form_amount_class, sw_form_date_class, sw_form_moment_class;
extern const SwFormKindClass sw_form_word_class, sw_form_code_class, sw_form_record_class,
    sw_form_switch_class;

G_END_DECLS
