/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Errors in words.
 *
 * Wording stands below the records, so it knows their errors by the name of the domain and the
 * order of SwRecordsError only; a test compares both with the header.
 */
#include "wording/sentence.h"

#include <glib/gi18n.h>
#include <string.h>

#define RECORDS_DOMAIN "sw-records-error-quark"

/* In the order of SwRecordsError. */
static const char *const records_sentences[] = {
  N_ ("The records file could not be used. Nothing was changed."),
  N_ ("There is no such file."),
  N_ ("There is already a file of that name. Choose another name."),
  N_ ("This is no file of this program. It was left as it is."),
  N_ ("This file was written by a newer version of the program. Use that version to open it."),
  N_ ("This file is damaged and was left as it is. Restore a backup, and keep the damaged file."),
  N_ ("Another program has this file open. Close it there, or open the file read-only here."),
  N_ ("The file or its folder cannot be written. Ask for the right to write there, or copy the "
      "file to another folder."),
  N_ ("The disk is full. Nothing was changed. Make room and try again."),
  N_ ("The disk could not be read or written. Nothing was changed. Check the disk and its "
      "connection, then try again."),
  N_ ("This file lies on a network folder, where two programs cannot be kept apart safely. Copy it "
      "to a disk of this computer."),
  N_ ("The record is not in the file."),
  N_ ("The file refused this record: a name or code is in use already, or something it refers to "
      "is missing."),
  N_ ("The journal did not agree with what was to be written. Nothing was changed."),
  N_ ("The copy did not pass its check and was not kept. Run Verify on the file: another program "
      "may have changed it."),
};

/* Quark names come from a macro that keeps the spaces a formatter puts around hyphens. */
static gboolean
is_domain (GQuark domain, const char *name)
{
  g_auto (GStrv) parts = g_strsplit (g_quark_to_string (domain), " ", -1);
  g_autofree char *joined = g_strjoinv ("", parts);

  return strcmp (joined, name) == 0;
}

char *
sw_say_error (const SwWording *wording, const GError *error)
{
  g_return_val_if_fail (wording != NULL, g_strdup (""));
  if (error == NULL)
    return g_strdup ("");
  if (sw_fault_get (error) != NULL)
    return sw_say_fault (wording, sw_fault_get (error));
  if (is_domain (error->domain, RECORDS_DOMAIN) && error->code >= 0
      && (gsize)error->code < G_N_ELEMENTS (records_sentences))
    return g_strdup (sw_tr (wording, records_sentences[error->code]));
  /* Translators: %s is a technical message, in English. */
  return g_strdup_printf (sw_tr (wording, "This did not work, and nothing was changed. (%s)"),
                          error->message);
}
