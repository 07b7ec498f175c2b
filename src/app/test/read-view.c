/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An outcome that stands is not spoilt by a pause: nothing more goes into that flask. */
#include "app/test/read-view.h"

SwReadView
sw_read_view_of (const SwGuidedTest *test, gint64 now_ms)
{
  SwReadView view = { .next = sw_guided_test_get_outcome (test)->next };
  gboolean stands = sw_guided_test_can (test, SW_MOVE_CLOSE, now_ms, NULL);

  view.can_read = sw_guided_test_can (test, SW_MOVE_READ, now_ms, &view.refusal);
  view.can_add = sw_guided_test_can (test, SW_MOVE_ADD, now_ms, NULL);
  view.paused = !view.can_read && view.refusal.code == SW_FACT_PAUSED_TOO_LONG && !stands;
  view.can_close = stands && view.next != SW_NEXT_FRESH_PORTION;
  view.fresh = view.paused || view.next == SW_NEXT_FRESH_PORTION || view.next == SW_NEXT_ONE_BY_ONE;
  view.notice = view.fresh || view.next == SW_NEXT_STOP_AND_CALL;
  view.waiting = view.can_read
                 && (view.next == SW_NEXT_READ_FIRST || view.next == SW_NEXT_READ_AGAIN
                     || view.next == SW_NEXT_SECOND_STRIP);
  return view;
}
