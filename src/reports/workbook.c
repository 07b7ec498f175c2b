/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The workbook, sheet by sheet, from one moment of the file. */
#include "records/verify.h"
#include "reports/sheet-private.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <locale.h>
#include <string.h>

static const SwSheet *const sheets[] = {
  &sw_sheet_machines,
  &sw_sheet_tests,
  &sw_sheet_readings,
  &sw_sheet_doses,
};

/* The library prints numbers with the thread's locale: a decimal comma would break the file. */
static locale_t
enter_c_numbers (locale_t *before)
{
  locale_t numbers = newlocale (LC_NUMERIC_MASK, "C", duplocale (uselocale ((locale_t)0)));

  *before = uselocale (numbers);
  return numbers;
}

static void
leave_c_numbers (locale_t numbers, locale_t before)
{
  uselocale (before);
  freelocale (numbers);
}

static void
add_formats (SwSheetContext *context, lxw_workbook *workbook)
{
  context->header = workbook_add_format (workbook);
  format_set_bold (context->header);
  format_set_text_wrap (context->header);
  format_set_align (context->header, LXW_ALIGN_VERTICAL_TOP);
  format_set_bg_color (context->header, 0xefebe4);
  format_set_bottom (context->header, LXW_BORDER_THIN);
  context->time = workbook_add_format (workbook);
  format_set_num_format (context->time, "yyyy-mm-dd hh:mm");
  format_set_align (context->time, LXW_ALIGN_LEFT);
  context->left = workbook_add_format (workbook);
  format_set_align (context->left, LXW_ALIGN_LEFT);
  context->literal = workbook_add_format (workbook);
  format_set_num_format (context->literal, "@");
  context->wrapped = workbook_add_format (workbook);
  format_set_text_wrap (context->wrapped);
  format_set_align (context->wrapped, LXW_ALIGN_VERTICAL_TOP);
  context->title = workbook_add_format (workbook);
  format_set_bold (context->title);
  format_set_font_size (context->title, 15.0);
}

static void
set_properties (lxw_workbook *workbook, const SwSite *site, const SwWorkbookRequest *request)
{
  lxw_doc_properties properties = {
    .title = site->name != NULL ? site->name : (char *)"",
    .author = (char *)request->by,
    .created = (time_t)(request->at_ms / 1000),
  };

  workbook_set_properties (workbook, &properties);
}

/* "&" begins a code in headers and footers. */
static char *
escape_header (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text != NULL ? text : "", "&", -1);
  g_autofree char *joined = g_strjoinv ("&&", parts);
  g_autofree char *cut = g_utf8_substring (joined, 0, MIN (g_utf8_strlen (joined, -1), 60));

  return g_steal_pointer (&cut);
}

/* On every page: the plant, the sheet, the page, and the head that proves the page's origin. */
static void
add_page_texts (lxw_workbook *workbook,
                const SwSheetContext *context,
                const SwSite *site,
                const char *head)
{
  g_autofree char *name = escape_header (site->name);
  const char *demo
      = site->demo ? sw_trc (context->wording, "header of a page", "Invented plant") : "";
  g_autofree char *header = g_strdup_printf ("&L%s&C&\"-,Bold\"%s&R&A", name, demo);
  /* Translators: foot of a printed page; keep &P (page) and &N (number of pages) as they are. */
  const char *pages = sw_trc (context->wording, "foot of a page", "Page &P of &N");
  /* the space ends the font size: a hash may begin with a digit */
  g_autofree char *footer = g_strdup_printf ("&L&7 %s&R%s", head, pages);
  lxw_worksheet *worksheet;

  STAILQ_FOREACH (worksheet, workbook->worksheets, list_pointers)
  {
    worksheet_set_header (worksheet, header);
    worksheet_set_footer (worksheet, footer);
  }
}

static gboolean
write_sheets (SwSheetContext *context,
              lxw_workbook *workbook,
              const SwWorkbookRequest *request,
              GError **error)
{
  SwSheetCount counts[G_N_ELEMENTS (sheets)];
  g_autoptr (SwSite) site = sw_site_get (context->store, error);
  g_autofree char *head = NULL;

  if (site == NULL)
    return FALSE;
  add_formats (context, workbook);
  set_properties (workbook, site, request);
  for (guint i = 0; i < G_N_ELEMENTS (sheets); i++)
    {
      counts[i].sheet = sheets[i];
      if (!sw_sheet_write (sheets[i], context, workbook, &counts[i].n_rows, error))
        return FALSE;
    }
  head = sw_journal_head (context->store, error);
  if (head == NULL
      || !sw_provenance_write (context, workbook, request, counts, G_N_ELEMENTS (sheets), error))
    return FALSE;
  add_page_texts (workbook, context, site, head);
  if (request->head != NULL)
    *request->head = g_steal_pointer (&head);
  return TRUE;
}

static gboolean
close_workbook (lxw_workbook *workbook, gboolean good, GError **error)
{
  const int before = errno;
  lxw_error result;

  errno = 0;
  /* closing is also the only way to free it */
  result = workbook_close (workbook);
  if (!good || result == LXW_NO_ERROR)
    {
      errno = before;
      return good;
    }
  g_set_error_literal (error, SW_REPORT_ERROR, SW_REPORT_ERROR_IO,
                       errno != 0 ? g_strerror (errno) : lxw_strerror (result));
  return FALSE;
}

static gboolean
write_workbook (SwSheetContext *context,
                const char *path,
                const SwWorkbookRequest *request,
                GError **error)
{
  lxw_workbook_options options = { .constant_memory = LXW_TRUE };
  lxw_workbook *workbook = workbook_new_opt (path, &options);

  if (workbook == NULL)
    {
      g_set_error_literal (error, SW_REPORT_ERROR, SW_REPORT_ERROR_IO, g_strerror (ENOMEM));
      return FALSE;
    }
  return close_workbook (workbook, write_sheets (context, workbook, request, error), error);
}

gboolean
sw_workbook_write (SwStore *store,
                   const SwWording *wording,
                   const SwWorkbookRequest *request,
                   GError **error)
{
  g_auto (SwOutputFile) file = { 0 };
  SwSheetContext context = { .store = store,
                             .wording = wording,
                             .filter = request->filter,
                             .zone = sw_wording_get_zone (wording) };
  locale_t numbers, before;
  gboolean good;

  if (!sw_output_file_begin (&file, request->path, sw_store_get_path (store), request->force, error)
      || !sw_snapshot_begin (store, error))
    return FALSE;
  context.names = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  numbers = enter_c_numbers (&before);
  good = write_workbook (&context, file.temporary, request, error);
  leave_c_numbers (numbers, before);
  sw_snapshot_end (store);
  g_hash_table_unref (context.names);
  g_clear_error (&context.error);
  return good && sw_output_file_finish (&file, error);
}
