/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fields that are chosen: a word of an enum, a code of a list, another record, yes or no. */
#include "app/setup/pick-row.h"
#include "app/setup/form-control.h"

/* The value of the empty choice of a code list; codes count from 0. */
#define NO_CODE -1

static SwPickRow *
choice_of (const SwFormControl *control)
{
  return SW_PICK_ROW (control->row);
}

static const char *
translate (SwContext *context, const char *text)
{
  return text != NULL ? sw_tr (sw_context_get_wording (context), text) : NULL;
}

static void
append (GArray *values, GStrvBuilder *words, gint64 value, const char *word)
{
  g_array_append_val (values, value);
  g_strv_builder_add (words, word);
}

static void
set_choices (GtkWidget *row, GArray *values, GStrvBuilder *words)
{
  g_auto (GStrv) list = g_strv_builder_end (words);

  sw_pick_row_set_choices (SW_PICK_ROW (row), values, (const char *const *)list);
}

/* Words and codes: the empty choice, then n_words words. */
static GtkWidget *
build_words (SwContext *context, const SwFormSpec *spec, GCallback changed, gpointer form)
{
  g_autoptr (GArray) values = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GStrvBuilder) words = g_strv_builder_new ();
  GtkWidget *row
      = sw_pick_row_new (translate (context, spec->label), translate (context, spec->hint));

  if (spec->empty != NULL || spec->asks)
    append (values, words, NO_CODE,
            translate (context, spec->asks ? N_ ("Not chosen yet") : spec->empty));
  for (guint i = 0; i < spec->n_words; i++)
    append (values, words, i, spec->word (sw_context_get_wording (context), i));
  set_choices (row, values, words);
  g_signal_connect_object (row, "changed", changed, form, G_CONNECT_SWAPPED);
  return row;
}

static char *
dup_choice (const SwFormControl *control)
{
  gint64 value;

  if (!sw_pick_row_get_value (choice_of (control), &value))
    return g_strdup ("");
  return g_strdup_printf ("%" G_GINT64_FORMAT, value);
}

static void
set_choice_error (const SwFormControl *control, const char *text)
{
  sw_pick_row_set_error (choice_of (control), text);
}

/* (transfer full) */
static char *
say_not_chosen (const SwFormControl *control)
{
  return g_strdup (translate (control->context, N_ ("Choose one of these.")));
}

/* FALSE with the words when nothing is chosen. */
static gboolean
read_choice (const SwFormControl *control, gint64 *value, char **fault_text)
{
  if (sw_pick_row_get_value (choice_of (control), value))
    return TRUE;
  *fault_text = say_not_chosen (control);
  return FALSE;
}

/* ---- words of an enum ---- */

/* @member NULL: none yet. */
static void
load_word (const SwFormControl *control, gconstpointer member)
{
  if (member == NULL)
    {
      sw_pick_row_set_value (choice_of (control), NO_CODE);
      return;
    }
  sw_pick_row_set_value (choice_of (control), *(const int *)member);
}

static gboolean
save_word (const SwFormControl *control, gpointer member, char **fault_text)
{
  gint64 value;

  if (!read_choice (control, &value, fault_text))
    return FALSE;
  if (value == NO_CODE)
    {
      *fault_text = say_not_chosen (control);
      return FALSE;
    }
  *(int *)member = (int)value;
  return TRUE;
}

static void
clear_word (gpointer member)
{
  *(int *)member = 0;
}

const SwFormKindClass sw_form_word_class = {
  .build = build_words,
  .load = load_word,
  .save = save_word,
  .dup_state = dup_choice,
  .clear = clear_word,
  .set_error = set_choice_error,
};

/* ---- codes of a list ---- */

static void
load_code (const SwFormControl *control, gconstpointer member)
{
  const char *code = *(char *const *)member;
  gint64 value = NO_CODE;

  for (guint i = 0; i < control->spec->n_words; i++)
    if (g_strcmp0 (code, control->spec->codes[i]) == 0)
      value = i;
  sw_pick_row_set_value (choice_of (control), value);
}

static void
clear_code (gpointer member)
{
  g_clear_pointer ((char **)member, g_free);
}

static gboolean
save_code (const SwFormControl *control, gpointer member, char **fault_text)
{
  gint64 value;

  if (!read_choice (control, &value, fault_text))
    return FALSE;
  clear_code (member);
  if (value != NO_CODE)
    *(char **)member = g_strdup (control->spec->codes[value]);
  return TRUE;
}

const SwFormKindClass sw_form_code_class = {
  .build = build_words,
  .load = load_code,
  .save = save_code,
  .dup_state = dup_choice,
  .clear = clear_code,
  .set_error = set_choice_error,
};

/* ---- another record ---- */

/* @record NULL: none is loaded yet. */
static GArray *
list_rows (SwContext *context, const SwFormSpec *spec, gconstpointer record)
{
  if (spec->rows_of == NULL)
    return spec->rows (context, NULL);
  return record != NULL ? spec->rows_of (context, record, NULL) : NULL;
}

/* The rows in use, and the one that is chosen even when it was taken out of use since. */
static void
fill_rows (
    SwContext *context, const SwFormSpec *spec, GtkWidget *row, gint64 chosen, gconstpointer record)
{
  g_autoptr (GArray) values = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GStrvBuilder) words = g_strv_builder_new ();
  g_autoptr (GArray) ids = list_rows (context, spec, record);
  gboolean found = chosen == 0;

  append (values, words, 0,
          translate (context, spec->empty != NULL ? spec->empty : N_ ("Not chosen yet")));
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);
      g_autofree char *word = spec->say_row (context, id);

      found = found || id == chosen;
      append (values, words, id, word);
    }
  if (!found)
    {
      g_autofree char *word = spec->say_row (context, chosen);
      append (values, words, chosen, word);
    }
  set_choices (row, values, words);
}

static GtkWidget *
build_rows (SwContext *context, const SwFormSpec *spec, GCallback changed, gpointer form)
{
  GtkWidget *row
      = sw_pick_row_new (translate (context, spec->label), translate (context, spec->hint));

  fill_rows (context, spec, row, 0, NULL);
  g_signal_connect_object (row, "changed", changed, form, G_CONNECT_SWAPPED);
  return row;
}

static void
load_row (const SwFormControl *control, gconstpointer member)
{
  gint64 id = *(const gint64 *)member;

  fill_rows (control->context, control->spec, control->row, id,
             (const char *)member - control->spec->offset);
  sw_pick_row_set_value (choice_of (control), id);
}

static void
refresh_row (const SwFormControl *control)
{
  gint64 id = 0;

  /* What depends on a record is asked when that is loaded. */
  if (control->spec->rows_of != NULL)
    return;
  sw_pick_row_get_value (choice_of (control), &id);
  fill_rows (control->context, control->spec, control->row, id, NULL);
}

static gboolean
save_row (const SwFormControl *control, gpointer member, char **fault_text)
{
  gint64 *to = member;
  gint64 value = 0;

  *to = 0;
  if (!sw_pick_row_get_value (choice_of (control), &value) && !control->spec->needed)
    return TRUE;
  *to = value;
  if (value != 0 || !control->spec->needed)
    return TRUE;
  *fault_text = say_not_chosen (control);
  return FALSE;
}

static void
clear_row (gpointer member)
{
  *(gint64 *)member = 0;
}

const SwFormKindClass sw_form_record_class = {
  .build = build_rows,
  .load = load_row,
  .save = save_row,
  .dup_state = dup_choice,
  .clear = clear_row,
  .set_error = set_choice_error,
  .refresh = refresh_row,
};

/* ---- yes or no ---- */

static GtkCheckButton *
check_of (const SwFormControl *control)
{
  return GTK_CHECK_BUTTON (gtk_widget_get_first_child (control->row));
}

static GtkWidget *
build_wrapped_label (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  return label;
}

static GtkWidget *
build_switch (SwContext *context, const SwFormSpec *spec, GCallback changed, gpointer form)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);
  GtkWidget *check = gtk_check_button_new ();

  gtk_check_button_set_child (GTK_CHECK_BUTTON (check),
                              build_wrapped_label (translate (context, spec->label)));
  gtk_box_append (GTK_BOX (row), check);
  if (spec->hint != NULL)
    {
      GtkWidget *hint = build_wrapped_label (translate (context, spec->hint));

      gtk_widget_add_css_class (hint, "sw-small");
      gtk_widget_add_css_class (hint, "sw-dim");
      gtk_box_append (GTK_BOX (row), hint);
    }
  g_signal_connect_object (check, "notify::active", changed, form, G_CONNECT_SWAPPED);
  return row;
}

static void
load_switch (const SwFormControl *control, gconstpointer member)
{
  gtk_check_button_set_active (check_of (control), *(const gboolean *)member);
}

static gboolean
save_switch (const SwFormControl *control, gpointer member, char **fault_text)
{
  *(gboolean *)member = gtk_check_button_get_active (check_of (control));
  return TRUE;
}

static char *
dup_switch (const SwFormControl *control)
{
  return g_strdup (gtk_check_button_get_active (check_of (control)) ? "1" : "0");
}

static void
clear_switch (gpointer member)
{
  *(gboolean *)member = FALSE;
}

/* Yes and no are both right. */
static void
ignore_error (const SwFormControl *control, const char *text)
{
}

const SwFormKindClass sw_form_switch_class = {
  .build = build_switch,
  .load = load_switch,
  .save = save_switch,
  .dup_state = dup_switch,
  .clear = clear_switch,
  .set_error = ignore_error,
};

const SwFormKindClass *
sw_form_kind_class (SwFormKind kind)
{
  static const SwFormKindClass *const classes[SW_N_FORM_KINDS] = {
    [SW_FORM_TEXT] = &sw_form_text_class,     [SW_FORM_PROSE] = &sw_form_prose_class,
    [SW_FORM_REAL] = &sw_form_real_class,     [SW_FORM_AMOUNT] = &sw_form_amount_class,
    [SW_FORM_DATE] = &sw_form_date_class,     [SW_FORM_MOMENT] = &sw_form_moment_class,
    [SW_FORM_WORD] = &sw_form_word_class,     [SW_FORM_CODE] = &sw_form_code_class,
    [SW_FORM_RECORD] = &sw_form_record_class, [SW_FORM_SWITCH] = &sw_form_switch_class,
  };

  g_return_val_if_fail (kind < SW_N_FORM_KINDS, NULL);
  return classes[kind];
}
