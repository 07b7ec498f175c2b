/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Confirming a machine by its tag: wrong machines are how doses go wrong. */
#include "app/test/tag.h"

#include "wording/sentence-test.h"

static gboolean
same_tag (const char *typed, const char *tag)
{
  g_autofree char *left = g_utf8_casefold (typed, -1);
  g_autofree char *right = g_utf8_casefold (tag, -1);

  return g_strcmp0 (left, right) == 0;
}

gboolean
sw_tag_confirm (SwStepPage *page, SwFormRow *row)
{
  const SwWording *wording = sw_step_page_get_wording (page);
  const char *tag = sw_guided_test_get_machine (sw_step_page_get_test (page))->tag;
  g_autofree char *typed = g_strstrip (g_strdup (sw_form_row_get_text (row)));
  g_autofree char *words = NULL;

  if (same_tag (typed, tag))
    return TRUE;
  words = *typed == '\0' ? g_strdup (sw_say_test_word (wording, SW_TEST_WORD_TYPE_TAG))
                         : sw_say_wrong_tag (wording, typed, tag);
  sw_step_page_refuse_at (page, GTK_WIDGET (row), words);
  return FALSE;
}
