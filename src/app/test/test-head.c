/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Shows only; what the buttons do is the frame's. */
#include "app/test/test-head.h"

#include "wording/sentence-test.h"

struct _SwTestHead
{
  GtkWidget parent_instance;

  /* Template children */
  GtkWidget *layout;
  GtkLabel *caption;
  GtkLabel *title;
  GtkLabel *subtitle;
  GtkWidget *more;
  GtkWidget *leave;
};

G_DEFINE_FINAL_TYPE (SwTestHead, sw_test_head, GTK_TYPE_WIDGET)

static void
sw_test_head_dispose (GObject *object)
{
  g_clear_pointer (&SW_TEST_HEAD (object)->layout, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_test_head_parent_class)->dispose (object);
}

static void
sw_test_head_class_init (SwTestHeadClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_test_head_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/test/test-head.ui");
  gtk_widget_class_bind_template_child (widget_class, SwTestHead, layout);
  gtk_widget_class_bind_template_child (widget_class, SwTestHead, caption);
  gtk_widget_class_bind_template_child (widget_class, SwTestHead, title);
  gtk_widget_class_bind_template_child (widget_class, SwTestHead, subtitle);
  gtk_widget_class_bind_template_child (widget_class, SwTestHead, more);
  gtk_widget_class_bind_template_child (widget_class, SwTestHead, leave);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swtesthead");
}

static void
sw_test_head_init (SwTestHead *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
set_optional (GtkLabel *label, const char *text)
{
  gtk_label_set_text (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

void
sw_test_head_show_test (SwTestHead *self, const SwWording *wording, const SwGuidedTest *test)
{
  const SwMachine *machine = sw_guided_test_get_machine (test);
  const SwSample *sample = sw_guided_test_get_sample (test);
  g_autofree char *caption = NULL;
  int step;
  int of;

  sw_guided_test_get_progress (test, &step, &of);
  caption = sw_say_test_caption (wording, machine->tag, machine->name, sample->code, step, of);
  gtk_label_set_text (self->caption, caption);
}

void
sw_test_head_show_page (SwTestHead *self, SwStepPage *page)
{
  g_autofree char *title = NULL;
  g_autofree char *subtitle = NULL;

  g_object_get (page, "title", &title, "subtitle", &subtitle, NULL);
  set_optional (self->title, title);
  set_optional (self->subtitle, subtitle);
}

void
sw_test_head_show_ways (SwTestHead *self, gboolean more, gboolean leave)
{
  gtk_widget_set_visible (self->more, more);
  gtk_widget_set_visible (self->leave, leave);
}
