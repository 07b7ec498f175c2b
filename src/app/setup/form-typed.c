/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fields that are typed: text, prose, number, amount, date. */
#include "app/setup/form-control.h"
#include "app/setup/prose-row.h"
#include "app/widgets/form-row.h"
#include "wording/sentence-list.h"
#include "wording/sentence-setup.h"

static SwFormRow *
row_of (const SwFormControl *control)
{
  return SW_FORM_ROW (control->row);
}

static const SwWording *
wording_of (const SwFormControl *control)
{
  return sw_context_get_wording (control->context);
}

static const char *
translate (SwContext *context, const char *text)
{
  return text != NULL ? sw_tr (sw_context_get_wording (context), text) : NULL;
}

/* What stands in the row, without blanks around it. (transfer full) */
static char *
dup_text (const SwFormControl *control)
{
  return g_strstrip (g_strdup (sw_form_row_get_text (row_of (control))));
}

static GtkWidget *
build_typed (SwContext *context, const SwFormSpec *spec, GCallback changed, gpointer form)
{
  GtkWidget *row = sw_form_row_new (translate (context, spec->label),
                                    translate (context, spec->hint), spec->unit);

  g_signal_connect_object (row, "notify::text", changed, form, G_CONNECT_SWAPPED);
  return row;
}

static void
set_typed_error (const SwFormControl *control, const char *text)
{
  sw_form_row_set_error (row_of (control), text);
}

/* The fault "nothing typed" about a field, in words. (transfer full) */
static char *
say_missing (const SwFormControl *control)
{
  const SwFormSpec *spec = control->spec;
  SwFault fault = { .code = SW_FAULT_MISSING,
                    .quantity = spec->quantity,
                    .of = spec->of,
                    .value = NAN,
                    .low = -INFINITY,
                    .high = INFINITY,
                    .unit = spec->unit };

  return sw_say_fault (wording_of (control), &fault);
}

/* ---- text ---- */

static void
load_text (const SwFormControl *control, gconstpointer member)
{
  sw_form_row_set_text (row_of (control), *(char *const *)member);
}

static void
clear_text (gpointer member)
{
  g_clear_pointer ((char **)member, g_free);
}

/* An empty text is no text. */
static void
put_text (gpointer member, const char *text)
{
  char **to = member;

  g_free (*to);
  *to = text != NULL && *text != '\0' ? g_strdup (text) : NULL;
}

static gboolean
save_text (const SwFormControl *control, gpointer member, char **fault_text)
{
  g_autofree char *text = dup_text (control);

  put_text (member, text);
  if (*text != '\0' || !control->spec->needed)
    return TRUE;
  *fault_text = say_missing (control);
  return FALSE;
}

const SwFormKindClass sw_form_text_class = {
  .build = build_typed,
  .load = load_text,
  .save = save_text,
  .dup_state = dup_text,
  .clear = clear_text,
  .set_error = set_typed_error,
};

/* ---- prose ---- */

static GtkWidget *
build_prose (SwContext *context, const SwFormSpec *spec, GCallback changed, gpointer form)
{
  GtkWidget *row
      = sw_prose_row_new (translate (context, spec->label), translate (context, spec->hint));

  g_signal_connect_object (row, "changed", changed, form, G_CONNECT_SWAPPED);
  return row;
}

static void
load_prose (const SwFormControl *control, gconstpointer member)
{
  sw_prose_row_set_text (SW_PROSE_ROW (control->row), *(char *const *)member);
}

static char *
dup_prose (const SwFormControl *control)
{
  return g_strstrip (sw_prose_row_dup_text (SW_PROSE_ROW (control->row)));
}

static gboolean
save_prose (const SwFormControl *control, gpointer member, char **fault_text)
{
  g_autofree char *text = dup_prose (control);

  put_text (member, text);
  return TRUE;
}

/* A prose field is never refused. */
static void
ignore_error (const SwFormControl *control, const char *text)
{
}

const SwFormKindClass sw_form_prose_class = {
  .build = build_prose,
  .load = load_prose,
  .save = save_prose,
  .dup_state = dup_prose,
  .clear = clear_text,
  .set_error = ignore_error,
};

/* ---- numbers ---- */

/* Reads the row and leaves its error as it was: the form decides what is shown there. */
static gboolean
read_amount (const SwFormControl *control, SwAmount *amount, char **fault_text)
{
  const SwFormSpec *spec = control->spec;
  SwFormRow *row = row_of (control);
  g_autofree char *shown = g_strdup (sw_form_row_get_error (row));
  gboolean good = sw_form_row_get_amount (row, wording_of (control), spec->quantity, spec->unit,
                                          spec->needed, amount);

  if (!good)
    *fault_text = g_strdup (sw_form_row_get_error (row));
  sw_form_row_set_error (row, shown);
  return good;
}

/* The member of a percentage is a plain ratio. */
static SwUnit
member_unit (const SwFormControl *control)
{
  return control->spec->unit == SW_UNIT_PERCENT ? SW_UNIT_NONE : control->spec->unit;
}

static void
load_real (const SwFormControl *control, gconstpointer member)
{
  double shown
      = sw_unit_convert (*(const double *)member, member_unit (control), control->spec->unit);

  sw_form_row_set_number (row_of (control), wording_of (control), shown);
}

static void
clear_real (gpointer member)
{
  *(double *)member = NAN;
}

static gboolean
save_real (const SwFormControl *control, gpointer member, char **fault_text)
{
  SwAmount amount = { .value = NAN };

  if (!read_amount (control, &amount, fault_text))
    return FALSE;
  *(double *)member = sw_unit_convert (amount.value, control->spec->unit, member_unit (control));
  g_free (amount.typed);
  return TRUE;
}

const SwFormKindClass sw_form_real_class = {
  .build = build_typed,
  .load = load_real,
  .save = save_real,
  .dup_state = dup_text,
  .clear = clear_real,
  .set_error = set_typed_error,
};

/* The text as typed, without the unit that stands beside the row anyway. */
static void
load_amount (const SwFormControl *control, gconstpointer member)
{
  const SwAmount *amount = member;
  const char *symbol = sw_unit_get_symbol (control->spec->unit);
  g_autofree char *text = g_strdup (amount->typed);

  if (text == NULL)
    {
      load_real (control, &amount->value);
      return;
    }
  if (*symbol != '\0' && g_str_has_suffix (text, symbol))
    text[strlen (text) - strlen (symbol)] = '\0';
  sw_form_row_set_text (row_of (control), g_strstrip (text));
}

static void
clear_amount (gpointer member)
{
  SwAmount *amount = member;

  g_free (amount->typed);
  *amount = (SwAmount){ .value = NAN };
}

static gboolean
save_amount (const SwFormControl *control, gpointer member, char **fault_text)
{
  SwAmount amount = { .value = NAN };

  if (!read_amount (control, &amount, fault_text))
    return FALSE;
  clear_amount (member);
  *(SwAmount *)member = amount;
  return TRUE;
}

const SwFormKindClass sw_form_amount_class = {
  .build = build_typed,
  .load = load_amount,
  .save = save_amount,
  .dup_state = dup_text,
  .clear = clear_amount,
  .set_error = set_typed_error,
};

/* ---- dates ---- */

/* The date in words beside what was typed, or the hint while there is none. */
static void
say_date (GObject *row, GParamSpec *pspec, SwContext *context)
{
  const SwWording *wording = sw_context_get_wording (context);
  const char *hint = g_object_get_data (row, "hint");
  g_autofree char *words = NULL;
  gint64 ms;

  if (sw_iso_parse (sw_form_row_get_text (SW_FORM_ROW (row)), sw_wording_get_zone (wording), &ms,
                    NULL))
    words = sw_date_format (wording, ms);
  g_object_set (row, "hint", words != NULL ? words : hint, NULL);
}

static GtkWidget *
build_date (SwContext *context, const SwFormSpec *spec, GCallback changed, gpointer form)
{
  GtkWidget *row = build_typed (context, spec, changed, form);
  const char *hint = spec->hint != NULL ? spec->hint : N_ ("Year-month-day, as 2026-05-24.");

  g_object_set_data_full (G_OBJECT (row), "hint", g_strdup (translate (context, hint)), g_free);
  g_signal_connect_object (row, "notify::text", G_CALLBACK (say_date), context, 0);
  say_date (G_OBJECT (row), NULL, context);
  return row;
}

static void
load_date (const SwFormControl *control, gconstpointer member)
{
  gint64 ms = *(const gint64 *)member;
  g_autofree char *text = ms != 0 ? sw_date_typed_format (wording_of (control), ms) : NULL;

  sw_form_row_set_text (row_of (control), text);
}

static void
clear_date (gpointer member)
{
  *(gint64 *)member = 0;
}

static gboolean
save_date (const SwFormControl *control, gpointer member, char **fault_text)
{
  const SwWording *wording = wording_of (control);
  g_autofree char *text = dup_text (control);
  g_autoptr (GError) error = NULL;

  clear_date (member);
  if (*text == '\0' && !control->spec->needed)
    return TRUE;
  if (*text == '\0')
    *fault_text = say_missing (control);
  else if (!sw_iso_parse (text, sw_wording_get_zone (wording), member, &error))
    *fault_text = sw_say_error (wording, error);
  return *fault_text == NULL;
}

const SwFormKindClass sw_form_date_class = {
  .build = build_date,
  .load = load_date,
  .save = save_date,
  .dup_state = dup_text,
  .clear = clear_date,
  .set_error = set_typed_error,
};

/* ---- date and time ---- */

static GtkWidget *
build_moment (SwContext *context, const SwFormSpec *spec, GCallback changed, gpointer form)
{
  GtkWidget *row = build_typed (context, spec, changed, form);

  if (spec->hint == NULL)
    g_object_set (row, "hint", translate (context, N_ ("Date and time, as 2026-05-24 06:20.")),
                  NULL);
  return row;
}

static void
load_moment (const SwFormControl *control, gconstpointer member)
{
  gint64 ms = *(const gint64 *)member;
  g_autofree char *text = ms != 0 ? sw_moment_typed_format (wording_of (control), ms) : NULL;

  sw_form_row_set_text (row_of (control), text);
}

const SwFormKindClass sw_form_moment_class = {
  .build = build_moment,
  .load = load_moment,
  .save = save_date,
  .dup_state = dup_text,
  .clear = clear_date,
  .set_error = set_typed_error,
};
