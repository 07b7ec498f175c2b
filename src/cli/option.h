/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Strict options from a table: no abbreviation, no option twice but lists, none without its value.
 *
 * Numbers are read in the C locale with a unit (sw_number_parse_strict). An amount that may be
 * uncertain also has --u-NAME, its standard uncertainty, and --freedom-NAME, the degrees of freedom
 * of that. Every error is one line that starts with the option's name; a fault of calc is turned
 * into one by the quantity it names.
 */
#pragma once

#include "calc/fault.h"
#include "wording/wording.h"

G_BEGIN_DECLS

/* The message is a finished line for a person. */
#define SW_CLI_ERROR (sw_cli_error_quark ())
GQuark sw_cli_error_quark (void);

typedef enum
{
  SW_OPTION_AMOUNT,
  SW_OPTION_FLAG, /* has no value */
  SW_OPTION_TEXT,
  SW_OPTION_LIST /* a text that may be given any number of times */
} SwOptionKind;

typedef struct
{
  const char *name; /* "drop-volume", without hyphens in front */
  SwOptionKind kind;
  SwQuantityName quantity; /* of an amount; also the faults that a text stands for */
  SwUnit unit;             /* of an amount */
  gboolean uncertain;      /* has --u-NAME and --freedom-NAME */
  const char *preset;      /* value taken when it is not given, shown as assumed; NULL = none */
  const char *help;        /* for flag and text; NULL: the quantity's name */
} SwOption;

typedef struct _SwOptions SwOptions;

/* Reads @argv (@argc words, no program, no command). @table ends with a row without a name and
 * stays borrowed. At most @most_words words may stand beside the options. (transfer full); NULL
 * with SW_CLI_ERROR. */
SwOptions *sw_options_parse (const SwOption *table,
                             gsize most_words,
                             const SwWording *wording,
                             int argc,
                             char **argv,
                             GError **error);
void sw_options_free (SwOptions *options);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwOptions, sw_options_free)

/* An option's @name must be in the table: a programmer's mistake otherwise. */
gboolean sw_options_has (const SwOptions *options, const char *name);
/* The text given, or the preset, or NULL. (transfer none) */
const char *sw_options_get_text (const SwOptions *options, const char *name);
/* The texts of a list in their order, NULL at the end. (transfer none) */
const char *const *sw_options_get_list (const SwOptions *options, const char *name);
/* A value in the table's unit. Neither given nor preset: an error that says so. */
gboolean
sw_options_get_amount (const SwOptions *options, const char *name, double *value, GError **error);
/* The same with uncertainty, 0 unless --u-NAME is given. */
gboolean sw_options_get_quantity (const SwOptions *options,
                                  const char *name,
                                  SwQuantity *quantity,
                                  GError **error);
/* As above; leaves *quantity or *value alone when the option is not given. */
gboolean
sw_options_try_amount (const SwOptions *options, const char *name, double *value, GError **error);
gboolean sw_options_try_quantity (const SwOptions *options,
                                  const char *name,
                                  SwQuantity *quantity,
                                  GError **error);
/* A word beside the options, or NULL. (transfer none) */
const char *sw_options_get_word (const SwOptions *options, gsize i);

/* Sets an error about option @name; returns FALSE. */
gboolean sw_options_refuse (const SwOptions *options,
                            const char *name,
                            const char *sentence,
                            GError **error);
/* Turns a fault of calc into an error about the option that its quantity belongs to; leaves other
 * errors as they are. Returns FALSE. */
gboolean sw_options_name_fault (const SwOptions *options, GError **error);
/* The same for a fault about whatever: it is said of option @name. */
gboolean sw_options_blame (const SwOptions *options, const char *name, GError **error);
/* Appends an "assumed" line for each preset taken and each uncertainty taken as 0. */
void sw_options_append_assumed (const SwOptions *options, GString *out);

G_END_DECLS
