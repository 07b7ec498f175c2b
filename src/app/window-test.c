/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window's guided tests: begun, resumed, left. */
#include "app/window-private.h"

#include "app/plant-words.h"
#include "wording/sentence.h"
#include "workflow/guided.h"

/* Shows @test, or says why there is none. Takes both. */
static void
open_test (SwWindow *self, SwGuidedTest *test, GError *error)
{
  if (test == NULL)
    {
      sw_window_toast_error (self, error);
      g_error_free (error);
      return;
    }
  if (self->test == NULL)
    {
      self->test = sw_test_page_new (self->context);
      gtk_stack_add_named (self->frame, self->test, "test");
    }
  sw_toast_hide (self->toast);
  const SwMachine *machine = sw_guided_test_get_machine (test);
  g_autofree char *name = sw_plant_machine_name (self->context, machine->record.id);
  sw_test_page_open (SW_TEST_PAGE (self->test), test);
  gtk_stack_set_visible_child_name (self->frame, "test");
  sw_window_set_place (self, name);
}

void
sw_window_begin_test (SwWindow *self, gint64 plan, SwPurpose purpose, gint64 answers_dose)
{
  g_return_if_fail (SW_IS_WINDOW (self));
  self->waiting.plan = plan;
  self->waiting.purpose = purpose;
  self->waiting.answers_dose = answers_dose;
  if (!sw_window_may_write (self))
    return;

  sw_window_give_up (self);
  GError *error = NULL;
  SwGuidedTest *test = sw_guided_test_begin (sw_context_get_store (self->context),
                                             sw_context_get_actor (self->context), plan, purpose,
                                             answers_dose, &error);
  if (test != NULL)
    sw_context_changed (self->context);
  open_test (self, test, error);
}

void
sw_window_resume_test (SwWindow *self, gint64 titration)
{
  g_return_if_fail (SW_IS_WINDOW (self));
  self->waiting.titration = titration;
  if (!sw_window_may_write (self))
    return;

  sw_window_give_up (self);
  GError *error = NULL;
  SwGuidedTest *test
      = sw_guided_test_resume (sw_context_get_store (self->context),
                               sw_context_get_actor (self->context), titration, &error);
  open_test (self, test, error);
}

void
sw_window_leave_test (SwWindow *self)
{
  g_return_if_fail (SW_IS_WINDOW (self));
  sw_window_show_plant (self);
  sw_window_show_place (self);
  gtk_widget_grab_focus (gtk_stack_get_visible_child (self->pages));
}

void
sw_window_give_up (SwWindow *self)
{
  self->waiting.plan = 0;
  self->waiting.titration = 0;
}

void
sw_window_go_on (SwWindow *self)
{
  gint64 titration = self->waiting.titration;
  gint64 plan = self->waiting.plan;

  if (sw_context_get_person (self->context) == 0)
    return;
  if (titration != 0)
    sw_window_resume_test (self, titration);
  else if (plan != 0)
    sw_window_begin_test (self, plan, self->waiting.purpose, self->waiting.answers_dose);
}
