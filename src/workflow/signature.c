/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writing a signature. Whether the signer may sign is asked by who calls (rights.h). */
#include "workflow/signature-private.h"

gboolean
sw_signature_insert (SwStore *store,
                     SwTable table,
                     const SwRecord *subject,
                     const SwSigner *signer,
                     SwMeaning meaning,
                     GError **error)
{
  g_autoptr (SwReview) review = sw_review_new ();

  review->subject_table = g_strdup (sw_table_name (table));
  review->subject = subject->id;
  review->subject_seq = subject->journal_seq;
  review->person = signer->person;
  review->identified_by = g_strdup (sw_identified_word (signer->identified));
  review->meaning = meaning;
  return sw_review_insert (store, review, error);
}
