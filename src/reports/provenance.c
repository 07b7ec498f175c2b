/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The last sheet: where the workbook comes from, and what it can be compared with. */
#include "reports/sheet-private.h"
#include "records/checkpoint.h"
#include "records/verify.h"
#include "sw-config.h"
#include "wording/sentence.h"

#include <glib/gi18n.h>

typedef struct
{
  SwSheetContext *context;
  lxw_worksheet *worksheet;
  lxw_row_t row;
} Page;

/* The label's translation, then the cell that the caller fills. */
static void
begin_line (Page *page, const char *label)
{
  page->row++;
  worksheet_write_string (page->worksheet, page->row, 0,
                          sw_trc (page->context->wording, "provenance", label),
                          page->context->header);
}

static void
add_text (Page *page, const char *label, const char *text)
{
  const SwSheetValue value = { .kind = SW_VALUE_TEXT, .text = text };

  begin_line (page, label);
  sw_sheet_cell_write (page->worksheet, page->row, 1, page->context, &value);
}

static void
add_number (Page *page, const char *label, double number)
{
  begin_line (page, label);
  worksheet_write_number (page->worksheet, page->row, 1, number, page->context->left);
}

static void
add_note (Page *page, const char *text)
{
  page->row++;
  worksheet_merge_range (page->worksheet, page->row, 0, page->row, 1, text, page->context->wrapped);
  worksheet_set_row (page->worksheet, page->row, 32.0, NULL);
}

static void
add_title (Page *page, const SwSite *site)
{
  const SwWording *wording = page->context->wording;

  worksheet_write_string (
      page->worksheet, 0, 0,
      site->demo
          ? sw_trc (wording, "provenance", "Invented plant: no real people, machines or products")
          : sw_trc (wording, "provenance", "Where this comes from"),
      page->context->title);
  worksheet_set_row (page->worksheet, 0, 24.0, NULL);
}

static void
add_site (Page *page, const SwSite *site)
{
  add_text (page, NC_ ("provenance", "Plant"), site->name);
  add_text (page, NC_ ("provenance", "Identity of the file"), site->uuid);
}

static void
add_export (Page *page, const SwWorkbookRequest *request)
{
  g_autofree char *at = sw_iso_format (request->at_ms, 0);
  const char *version = "Stillwarden " SW_VERSION;

  add_text (page, NC_ ("provenance", "Exported at (UTC)"), at);
  add_text (page, NC_ ("provenance", "Exported by"), request->by);
  add_text (page, NC_ ("provenance", "Program"), version);
  add_number (page, NC_ ("provenance", "Version of the file's tables"),
              sw_store_get_schema_version (page->context->store));
}

static void
add_day (Page *page, const char *label, gint64 utc_ms)
{
  g_autofree char *text = NULL;

  if (utc_ms != 0)
    text = sw_date_time_format (page->context->wording, utc_ms);
  add_text (page, label,
            text != NULL ? text : sw_trc (page->context->wording, "provenance", "no limit"));
}

static void
add_filter (Page *page, const SwExportFilter *filter)
{
  const char *machine = filter->machine != 0
                            ? sw_sheet_name (page->context, SW_TABLE_MACHINE, filter->machine)
                            : sw_trc (page->context->wording, "provenance", "all");

  add_text (page, NC_ ("provenance", "Machine"), machine);
  add_day (page, NC_ ("provenance", "Drawn from"), filter->from_ms);
  add_day (page, NC_ ("provenance", "Drawn before"), filter->to_ms);
  add_text (page, NC_ ("provenance", "Time zone of all other times"),
            g_time_zone_get_identifier (page->context->zone));
}

static void
add_counts (Page *page, const SwSheetCount *counts, guint n_counts)
{
  for (guint i = 0; i < n_counts; i++)
    {
      const SwWording *wording = page->context->wording;
      /* Translators: %s is the name of a sheet. */
      g_autofree char *label = g_strdup_printf (sw_trc (wording, "provenance", "Rows of sheet %s"),
                                                sw_trc (wording, "sheet", counts[i].sheet->name));

      page->row++;
      worksheet_write_string (page->worksheet, page->row, 0, label, page->context->header);
      worksheet_write_number (page->worksheet, page->row, 1, counts[i].n_rows, page->context->left);
    }
}

/* What was signed last, and with which key: whoever has the line that the PC keeps can compare. */
static void
add_checkpoint (Page *page, const SwCheckpoint *checkpoint)
{
  g_autofree char *at = sw_iso_format (checkpoint->record.happened_ms, 0);

  add_number (page, NC_ ("provenance", "Last signed entry of the journal"),
              (double)checkpoint->seq);
  add_text (page, NC_ ("provenance", "Its hash"), checkpoint->head);
  add_text (page, NC_ ("provenance", "Signed at (UTC)"), at);
  add_text (page, NC_ ("provenance", "Public key of the signature"), checkpoint->key);
}

static void
add_notes (Page *page)
{
  const SwWording *wording = page->context->wording;

  add_note (page, sw_trc (wording, "provenance",
                          "The journal's last hash names the state of the file. Verify compares it "
                          "with the file later and finds whether records were lost or changed."));
  add_note (page, sw_trc (wording, "provenance",
                          "Amounts of a dose are formulas over the cells of their row. An empty "
                          "bound of the net acid is open: nobody has seen that end."));
  add_note (page, sw_say_caution (wording, SW_CAUTION_DEFER));
}

gboolean
sw_provenance_write (SwSheetContext *context,
                     lxw_workbook *workbook,
                     const SwWorkbookRequest *request,
                     const SwSheetCount *counts,
                     guint n_counts,
                     GError **error)
{
  g_autoptr (SwSite) site = sw_site_get (context->store, error);
  g_autofree char *head = site != NULL ? sw_journal_head (context->store, error) : NULL;
  g_autoptr (GError) failure = NULL;
  g_autoptr (SwCheckpoint) checkpoint = sw_checkpoint_last (context->store, &failure);
  Page page = { .context = context };

  if (head == NULL)
    return FALSE;
  if (failure != NULL)
    {
      g_propagate_error (error, g_steal_pointer (&failure));
      return FALSE;
    }
  page.worksheet = sw_sheet_add (workbook, context, NC_ ("sheet", "Provenance"));
  worksheet_set_column (page.worksheet, 0, 0, 34.0, NULL);
  worksheet_set_column (page.worksheet, 1, 1, 72.0, NULL);
  add_title (&page, site);
  add_site (&page, site);
  add_export (&page, request);
  add_filter (&page, &request->filter);
  add_counts (&page, counts, n_counts);
  add_text (&page, NC_ ("provenance", "Last hash of the journal"), head);
  if (checkpoint != NULL)
    add_checkpoint (&page, checkpoint);
  add_notes (&page);
  if (context->error == NULL)
    return TRUE;
  g_propagate_error (error, g_steal_pointer (&context->error));
  return FALSE;
}
