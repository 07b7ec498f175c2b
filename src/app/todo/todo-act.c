/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the button of each kind of task does. */
#include "app/todo/todo-act.h"

#include "records/review-state.h"

/* The list that holds the oldest of them: never reviewed, or reviewed and amended since. */
static void
show_reviews (SwContext *context, SwWindow *window, const SwTodo *todo)
{
  SwBrowseFilter filter
      = { .table = SW_TABLE_TITRATION, .state = SW_BROWSE_TO_REVIEW, .outcome = -1 };
  SwReviewState state;

  if (sw_review_state (sw_context_get_store (context), SW_TABLE_TITRATION, todo->titration, &state,
                       NULL)
      && state == SW_REVIEW_LOST)
    filter.state = SW_BROWSE_REVIEW_LOST;
  sw_window_show_records (window, &filter);
}

void
sw_todo_act (SwContext *context, SwWindow *window, const SwTodo *todo)
{
  switch (todo->kind)
    {
    case SW_TODO_RECORD_DOSE:
    case SW_TODO_RESUME:
    case SW_TODO_DOSE:
      sw_window_resume_test (window, todo->titration);
      break;
    case SW_TODO_RETEST:
      sw_window_begin_test (window, todo->plan, SW_PURPOSE_RETEST, todo->dose);
      break;
    case SW_TODO_TEST:
      sw_window_begin_test (window, todo->plan, SW_PURPOSE_ROUTINE, 0);
      break;
    case SW_TODO_LOT:
      sw_window_show_setup (window, "lots");
      break;
    case SW_TODO_CALIBRATION:
      sw_window_show_setup (window, "products");
      break;
    case SW_TODO_REVIEW_TESTS:
      show_reviews (context, window, todo);
      break;
    case SW_TODO_OVER_RANGE:
    case SW_TODO_REVIEW:
    case SW_N_TODO_KINDS:
    default:
      sw_window_show_machine (window, todo->machine);
      break;
    }
}
