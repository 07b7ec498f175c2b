/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's ways to records, and to where records of the set-up are changed. */
#include "app/window-private.h"

#include "app/records/records-page.h"
#include "app/setup/setup-page.h"

static SwRecordsPage *
ensure_records (SwWindow *self)
{
  if (self->records == NULL)
    {
      self->records = sw_records_page_new (self->context);
      gtk_stack_add_named (self->pages, self->records, "records");
    }
  return SW_RECORDS_PAGE (self->records);
}

void
sw_window_show_records (SwWindow *self, const SwBrowseFilter *filter)
{
  g_return_if_fail (SW_IS_WINDOW (self));

  SwRecordsPage *page = ensure_records (self);
  sw_window_show_page (self, "records");
  sw_records_page_show (page, filter);
}

void
sw_window_show_record (SwWindow *self, SwTable table, gint64 id)
{
  g_return_if_fail (SW_IS_WINDOW (self) && id != 0);

  SwRecordsPage *page = ensure_records (self);
  sw_window_show_page (self, "records");
  sw_records_page_open (page, table, id);
}

void
sw_window_show_setup_record (SwWindow *self, const char *section, gint64 id)
{
  g_return_if_fail (SW_IS_WINDOW (self) && section != NULL && id != 0);

  sw_window_show_setup (self, section);
  sw_setup_page_open (SW_SETUP_PAGE (self->setup), section, id, NULL);
}

void
sw_window_find (SwWindow *self)
{
  if (sw_window_shows_test (self))
    return;
  if (sw_window_shows_page (self, "records"))
    sw_records_page_find (SW_RECORDS_PAGE (self->records));
  else
    sw_sidebar_find (self->sidebar);
}
