/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a record is called and what it bears, for a line of a list or the head of a page. All
 * (transfer full); NULL where there is nothing to say. */
#pragma once

#include "app/records/kind-table.h"
#include "app/widgets/verdict.h"
#include "records/story.h"
#include "wording/sentence-list.h"

G_BEGIN_DECLS

/* The head of its page: what it is, with what it found; when, where and by whom. */
char *sw_record_words_title (SwContext *context, const SwBrowseRow *row);
char *sw_record_words_subtitle (SwContext *context, const SwBrowseRow *row);
/* Its line of a list. */
char *sw_record_words_what (SwContext *context, const SwBrowseRow *row);
char *sw_record_words_detail (SwContext *context, const SwBrowseRow *row);
guint sw_record_words_marks (SwContext *context, const SwBrowseRow *row);
SwVerdictKind sw_record_words_verdict (const SwBrowseRow *row); /* SW_N_VERDICT_KINDS: none */

/* An act, by its first chapter: what was done, and why. */
char *sw_record_words_act (SwContext *context, const SwChapter *first);
char *sw_record_words_act_detail (SwContext *context, GPtrArray *chapters);
/* The initials; of person 0 the program's name. */
char *sw_record_words_initials (SwContext *context, gint64 person);

G_END_DECLS
