/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Errors of other layers in words: the records' codes by their header, anything else in brackets.
 */
#include "records/store.h"
#include "support/support.h"
#include "wording/sentence.h"

#include <gio/gio.h>

typedef struct
{
  const char *name;
  SwRecordsError code;
  const char *start;
} ErrorRow;

static const ErrorRow rows[] = {
  { "failed", SW_RECORDS_ERROR_FAILED, "The records file could not be used." },
  { "not found", SW_RECORDS_ERROR_NOT_FOUND, "There is no such file." },
  { "exists", SW_RECORDS_ERROR_EXISTS, "There is already a file" },
  { "foreign", SW_RECORDS_ERROR_FOREIGN, "This is no file of this program." },
  { "newer", SW_RECORDS_ERROR_NEWER, "This file was written by a newer version" },
  { "damaged", SW_RECORDS_ERROR_DAMAGED, "This file is damaged" },
  { "busy", SW_RECORDS_ERROR_BUSY, "Another program has this file open." },
  { "read-only", SW_RECORDS_ERROR_READ_ONLY, "The file or its folder cannot be written." },
  { "disk full", SW_RECORDS_ERROR_DISK_FULL, "The disk is full." },
  { "io", SW_RECORDS_ERROR_IO, "The disk could not be read or written." },
  { "network", SW_RECORDS_ERROR_NETWORK, "This file lies on a network folder" },
  { "no row", SW_RECORDS_ERROR_NO_SUCH_ROW, "The record is not in the file." },
  { "constraint", SW_RECORDS_ERROR_CONSTRAINT, "The file refused this record" },
  { "journal", SW_RECORDS_ERROR_JOURNAL, "The journal did not agree" },
  { "unverified", SW_RECORDS_ERROR_UNVERIFIED, "The copy did not pass" },
};

static void
test_records (gconstpointer data)
{
  const ErrorRow *row = data;
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  g_autoptr (GError) error = g_error_new (SW_RECORDS_ERROR, (int)row->code, "raw words");
  g_autofree char *text = sw_say_error (wording, error);

  g_assert_true (g_str_has_prefix (text, row->start));
  g_assert_null (g_strstr_len (text, -1, "raw words"));
}

static void
test_other (void)
{
  g_autoptr (SwWording) wording = sw_wording_new ("en", "UTC");
  g_autoptr (GError) error = g_error_new (G_IO_ERROR, G_IO_ERROR_CLOSED, "raw words, 5%%");
  g_autoptr (GError) beyond = g_error_new (SW_RECORDS_ERROR, 1000, "raw words");
  g_autofree char *text = sw_say_error (wording, error);
  g_autofree char *unknown = sw_say_error (wording, beyond);
  g_autofree char *none = sw_say_error (wording, NULL);

  g_assert_cmpstr (text, ==, "This did not work, and nothing was changed. (raw words, 5%)");
  g_assert_cmpstr (unknown, ==, "This did not work, and nothing was changed. (raw words)");
  g_assert_cmpstr (none, ==, "");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  /* A new code needs its sentence: this count is the header's. */
  g_assert_cmpint ((int)G_N_ELEMENTS (rows), ==, SW_RECORDS_ERROR_UNVERIFIED + 1);
  SW_TEST_ROWS ("/error/records", rows, test_records);
  g_test_add_func ("/error/other", test_other);
  return g_test_run ();
}
