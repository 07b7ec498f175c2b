/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A form as a table: one line per field says which member of which record it shows, how it is
 * typed, what it is called and whether it is needed. SwForm builds, fills and reads from it;
 * nothing is written by hand per field.
 *
 * Labels and hints are marked with N_ and translated when the form is built. A field's quantity is
 * also how a fault of a layer below finds its row.
 */
#pragma once

#include <glib/gi18n.h>

#include "app/context.h"

G_BEGIN_DECLS

typedef enum
{
  SW_FORM_TEXT,   /* char * */
  SW_FORM_PROSE,  /* char *, several lines */
  SW_FORM_REAL,   /* double, NAN = empty */
  SW_FORM_AMOUNT, /* SwAmount: the number and the text as typed */
  SW_FORM_DATE,   /* gint64, UTC ms of the day's start, 0 = empty */
  SW_FORM_MOMENT, /* gint64, UTC ms to the minute, 0 = empty */
  SW_FORM_WORD,   /* an enum, one of n_words */
  SW_FORM_CODE,   /* char *, one of codes; NULL = the empty choice */
  SW_FORM_RECORD, /* gint64, the id of another record, 0 = the empty choice */
  SW_FORM_SWITCH, /* gboolean */
  SW_N_FORM_KINDS
} SwFormKind;

typedef struct _SwFormSpec SwFormSpec;

struct _SwFormSpec
{
  const char *id;    /* the row's widget name, unique in the form */
  const char *group; /* a heading that begins here, or NULL */
  const char *label;
  const char *hint; /* or NULL */
  SwFormKind kind;
  gsize offset; /* of the member in the record */
  gboolean needed;
  gboolean wide;           /* takes the whole width of a form of two columns */
  SwQuantityName quantity; /* range of a number, and the address of a fault */
  SwQuantityName of;       /* of an uncertainty: of which quantity; else SW_QUANTITY_NONE */
  SwUnit unit;

  /* Shown only while the WORD field named here has one of the values in the mask. */
  const char *shown_with;
  guint shown_mask;

  /* WORD: a new record (id 0) begins without one, because a wrong one is dangerous. */
  gboolean asks;
  /* WORD and CODE */
  const char *(*word) (const SwWording *wording, guint value);
  guint n_words;
  const char *const *codes; /* n_words of them */
  /* CODE: what the empty choice is called; NULL = there is none. ROW: the same; NULL = "not chosen
   * yet". */
  const char *empty;
  /* ROW: ids to choose from, and what each is called. (transfer full) */
  GArray *(*rows) (SwContext *context, GError **error);
  /* The same where it depends on the record (as loaded) what can be chosen; then rows is NULL. */
  GArray *(*rows_of) (SwContext *context, gconstpointer record, GError **error);
  char *(*say_row) (SwContext *context, gint64 id);
};

/* A value of an enum as a bit of shown_mask. */
#define SW_FORM_BIT(value) (1u << (guint)(value))

static inline gpointer
sw_form_member (gpointer record, const SwFormSpec *spec)
{
  return (char *)record + spec->offset;
}

static inline gconstpointer
sw_form_const_member (gconstpointer record, const SwFormSpec *spec)
{
  return (const char *)record + spec->offset;
}

G_END_DECLS
