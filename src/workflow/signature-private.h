/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The row that a signature leaves: what was signed as it stood then, by whom, how the program knew
 * them, and what it means. */
#pragma once

#include "workflow/rights.h"

G_BEGIN_DECLS

/* Inside an act, after the last change of @subject: its journal_seq is what the signature covers.
 */
gboolean sw_signature_insert (SwStore *store,
                              SwTable table,
                              const SwRecord *subject,
                              const SwSigner *signer,
                              SwMeaning meaning,
                              GError **error);

G_END_DECLS
