/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The strict option parser and the values behind it. */
#include "cli/option.h"

#include "cli/output.h"
#include "wording/sentence.h"

#include <string.h>

#define UNCERTAINTY_PREFIX "u-"
#define FREEDOM_PREFIX "freedom-"

/* What can be said about one row of the table. */
typedef enum
{
  PART_VALUE,
  PART_UNCERTAINTY,
  PART_FREEDOM,
  N_PARTS
} Part;

struct _SwOptions
{
  /* Owned */
  const char **given; /* n * N_PARTS texts, borrowed from argv; a flag's is "" */
  GPtrArray **lists;  /* n; borrowed texts of an SW_OPTION_LIST, NULL at the end */
  GPtrArray *words;   /* borrowed texts */
  SwWording *wording;

  /* Borrowed */
  const SwOption *table;
  gsize n;
};

static const char *const prefixes[N_PARTS] = { "", UNCERTAINTY_PREFIX, FREEDOM_PREFIX };

/* clang-format off */
G_DEFINE_QUARK (sw-cli-error-quark, sw_cli_error)
/* clang-format on */

/* ---- errors ---- */

static gboolean
refuse (const char *option, const char *sentence, GError **error)
{
  /* Typed text may hold line ends; the error is one line. */
  g_autofree char *line = g_strconcat (option, ": ", sentence, NULL);
  g_autofree char *valid = g_utf8_make_valid (line, -1);

  g_strdelimit (valid, "\n\r\t\v\f", ' ');
  g_set_error_literal (error, SW_CLI_ERROR, 0, valid);
  return FALSE;
}

gboolean
sw_options_refuse (const SwOptions *options, const char *name, const char *sentence, GError **error)
{
  g_autofree char *option = g_strconcat ("--", name, NULL);

  return refuse (option, sentence, error);
}

/* Turns @fault into an error about part @part of @row. */
static gboolean
refuse_fault (
    const SwOptions *options, const SwOption *row, Part part, GError *fault, GError **error)
{
  g_autofree char *sentence = sw_say_error (options->wording, fault);
  g_autofree char *name = g_strconcat (prefixes[part], row->name, NULL);

  g_error_free (fault);
  return sw_options_refuse (options, name, sentence, error);
}

/* ---- parsing ---- */

/* The cell for option @name of @length bytes; NULL when there is no such option. */
static const char **
find_cell (const SwOptions *options, const char *name, gsize length, const SwOption **row)
{
  for (gsize i = 0; i < options->n; i++)
    for (gsize part = 0; part < N_PARTS; part++)
      {
        gsize skip = strlen (prefixes[part]);

        *row = &options->table[i];
        if (part != PART_VALUE && !(*row)->uncertain)
          break;
        if (length == skip + strlen ((*row)->name) && strncmp (name, prefixes[part], skip) == 0
            && strncmp (name + skip, (*row)->name, length - skip) == 0)
          return &options->given[i * N_PARTS + part];
      }
  return NULL;
}

/* Reads the option at argv[*i] and its value; moves *i to the last word used. */
static gboolean
parse_option (SwOptions *options, int argc, char **argv, int *i, GError **error)
{
  const char *word = argv[*i];
  gsize length = strcspn (word, "=");
  g_autofree char *name = g_strndup (word, length);
  const SwOption *row = NULL;
  const char **cell = find_cell (options, word + 2, length - 2, &row);
  const char *value = word[length] == '=' ? word + length + 1 : NULL;

  if (cell == NULL)
    return refuse (name, sw_tr (options->wording, "There is no such option."), error);
  if (*cell != NULL && row->kind != SW_OPTION_LIST)
    return refuse (name, sw_tr (options->wording, "This option is given twice."), error);
  if (row->kind == SW_OPTION_FLAG)
    {
      *cell = "";
      return value == NULL
             || refuse (name, sw_tr (options->wording, "This option takes no value."), error);
    }
  if (value == NULL && *i + 1 < argc && !g_str_has_prefix (argv[*i + 1], "--"))
    value = argv[++*i];
  if (value == NULL || *value == '\0')
    return refuse (name, sw_tr (options->wording, "This option needs a value."), error);
  *cell = value;
  if (row->kind == SW_OPTION_LIST)
    g_ptr_array_insert (options->lists[row - options->table],
                        (gint)options->lists[row - options->table]->len - 1, (gpointer)value);
  return TRUE;
}

static gboolean
parse_words (SwOptions *options, gsize most_words, int argc, char **argv, GError **error)
{
  for (int i = 0; i < argc; i++)
    {
      if (g_str_has_prefix (argv[i], "--"))
        {
          if (!parse_option (options, argc, argv, &i, error))
            return FALSE;
          continue;
        }
      if (options->words->len >= most_words)
        return refuse (argv[i], sw_tr (options->wording, "This word is not expected here."), error);
      g_ptr_array_add (options->words, argv[i]);
    }
  return TRUE;
}

/* An uncertainty of nothing would be dropped in silence. */
static gboolean
check_parts (const SwOptions *options, GError **error)
{
  for (gsize i = 0; i < options->n; i++)
    for (gsize part = PART_UNCERTAINTY; part < N_PARTS; part++)
      {
        const SwOption *row = &options->table[i];
        gsize needed = part == PART_FREEDOM ? PART_UNCERTAINTY : PART_VALUE;
        g_autofree char *name = g_strconcat (prefixes[part], row->name, NULL);
        g_autofree char *other = g_strconcat ("--", prefixes[needed], row->name, NULL);
        g_autofree char *sentence = NULL;

        if (options->given[i * N_PARTS + part] == NULL
            || options->given[i * N_PARTS + needed] != NULL
            || (needed == PART_VALUE && row->preset != NULL))
          continue;
        /* Translators: %s is another option of the command line. */
        sentence
            = g_strdup_printf (sw_tr (options->wording, "This option needs %s beside it."), other);
        return sw_options_refuse (options, name, sentence, error);
      }
  return TRUE;
}

SwOptions *
sw_options_parse (const SwOption *table,
                  gsize most_words,
                  const SwWording *wording,
                  int argc,
                  char **argv,
                  GError **error)
{
  g_autoptr (SwOptions) options = g_new0 (SwOptions, 1);

  options->table = table;
  while (table[options->n].name != NULL)
    options->n++;
  options->given = g_new0 (const char *, options->n *N_PARTS + 1);
  options->lists = g_new0 (GPtrArray *, options->n + 1);
  for (gsize i = 0; i < options->n; i++)
    {
      options->lists[i] = g_ptr_array_new ();
      g_ptr_array_add (options->lists[i], NULL);
    }
  options->words = g_ptr_array_new ();
  options->wording = sw_wording_ref ((SwWording *)wording);
  if (!parse_words (options, most_words, argc, argv, error) || !check_parts (options, error))
    return NULL;
  return g_steal_pointer (&options);
}

void
sw_options_free (SwOptions *options)
{
  if (options == NULL)
    return;
  g_free (options->given);
  for (gsize i = 0; i < options->n; i++)
    g_ptr_array_unref (options->lists[i]);
  g_free (options->lists);
  g_ptr_array_unref (options->words);
  sw_wording_unref (options->wording);
  g_free (options);
}

/* ---- values ---- */

static gsize
find_row (const SwOptions *options, const char *name)
{
  for (gsize i = 0; i < options->n; i++)
    if (strcmp (options->table[i].name, name) == 0)
      return i;
  g_error ("no option %s in the table", name);
}

gboolean
sw_options_has (const SwOptions *options, const char *name)
{
  return options->given[find_row (options, name) * N_PARTS] != NULL;
}

const char *
sw_options_get_text (const SwOptions *options, const char *name)
{
  gsize i = find_row (options, name);
  const char *text = options->given[i * N_PARTS];

  return text != NULL ? text : options->table[i].preset;
}

const char *const *
sw_options_get_list (const SwOptions *options, const char *name)
{
  return (const char *const *)options->lists[find_row (options, name)]->pdata;
}

gboolean
sw_options_get_amount (const SwOptions *options, const char *name, double *value, GError **error)
{
  const SwOption *row = &options->table[find_row (options, name)];
  GError *fault = NULL;
  SwParsedAmount parsed;

  if (!sw_number_parse_strict (sw_options_get_text (options, name), row->quantity, row->unit,
                               &parsed, &fault))
    return refuse_fault (options, row, PART_VALUE, fault, error);
  *value = parsed.value;
  return TRUE;
}

static gboolean
get_part (const SwOptions *options, gsize i, Part part, double *value, GError **error)
{
  const SwOption *row = &options->table[i];
  const char *text = options->given[i * N_PARTS + part];
  gboolean uncertainty = part == PART_UNCERTAINTY;
  GError *fault = NULL;
  SwParsedAmount parsed;

  if (text == NULL)
    return TRUE;
  if (!sw_number_parse_strict (text, uncertainty ? SW_QUANTITY_UNCERTAINTY : SW_QUANTITY_FREEDOM,
                               uncertainty ? row->unit : SW_UNIT_NONE, &parsed, &fault))
    return refuse_fault (options, row, part, fault, error);
  *value = parsed.value;
  return TRUE;
}

gboolean
sw_options_get_quantity (const SwOptions *options,
                         const char *name,
                         SwQuantity *quantity,
                         GError **error)
{
  gsize i = find_row (options, name);
  SwQuantity read = SW_EXACT (0.0);

  if (!sw_options_get_amount (options, name, &read.value, error)
      || !get_part (options, i, PART_UNCERTAINTY, &read.u, error)
      || !get_part (options, i, PART_FREEDOM, &read.freedom, error))
    return FALSE;
  *quantity = read;
  return TRUE;
}

gboolean
sw_options_try_amount (const SwOptions *options, const char *name, double *value, GError **error)
{
  return sw_options_get_text (options, name) == NULL
         || sw_options_get_amount (options, name, value, error);
}

gboolean
sw_options_try_quantity (const SwOptions *options,
                         const char *name,
                         SwQuantity *quantity,
                         GError **error)
{
  return sw_options_get_text (options, name) == NULL
         || sw_options_get_quantity (options, name, quantity, error);
}

const char *
sw_options_get_word (const SwOptions *options, gsize i)
{
  return i < options->words->len ? g_ptr_array_index (options->words, i) : NULL;
}

/* ---- faults and assumptions ---- */

static Part
find_part (const SwFault *fault)
{
  if (fault->of == SW_QUANTITY_NONE)
    return PART_VALUE;
  return fault->quantity == SW_QUANTITY_FREEDOM ? PART_FREEDOM : PART_UNCERTAINTY;
}

gboolean
sw_options_name_fault (const SwOptions *options, GError **error)
{
  const SwFault *fault = error != NULL ? sw_fault_get (*error) : NULL;
  SwQuantityName quantity;

  if (fault == NULL)
    return FALSE;
  quantity = fault->of != SW_QUANTITY_NONE ? fault->of : fault->quantity;
  for (gsize i = 0; i < options->n; i++)
    if (options->table[i].quantity == quantity)
      return refuse_fault (options, &options->table[i], find_part (fault), g_steal_pointer (error),
                           error);
  return FALSE;
}

gboolean
sw_options_blame (const SwOptions *options, const char *name, GError **error)
{
  if (error == NULL || sw_fault_get (*error) == NULL)
    return FALSE;
  return refuse_fault (options, &options->table[find_row (options, name)], PART_VALUE,
                       g_steal_pointer (error), error);
}

void
sw_options_append_assumed (const SwOptions *options, GString *out)
{
  for (gsize i = 0; i < options->n; i++)
    {
      const SwOption *row = &options->table[i];
      gboolean given = options->given[i * N_PARTS] != NULL;
      g_autofree char *name = g_strconcat (UNCERTAINTY_PREFIX, row->name, NULL);
      g_autofree char *zero = g_strconcat ("0 ", sw_unit_get_symbol (row->unit), NULL);

      if (!given && row->preset != NULL)
        sw_output_assumed (out, row->name, row->preset);
      if ((given || row->preset != NULL) && row->uncertain
          && options->given[i * N_PARTS + PART_UNCERTAINTY] == NULL)
        sw_output_assumed (out, name, g_strchomp (zero));
    }
}
