/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A check button of one group per point, its words below it.
 *
 * Invariant: ids has one element per button of rows, in the same order.
 */
#include "app/test/point-list.h"

#include "app/test/error-line.h"
#include "records/plant.h"
#include "wording/sentence-test.h"

#define INDENT_PX 30

struct _SwPointList
{
  GtkWidget parent_instance;

  /* Owned */
  GArray *ids;        /* gint64 */
  GPtrArray *buttons; /* GtkCheckButton, borrowed elements */

  /* Template children */
  GtkWidget *layout;
  GtkBox *rows;
  SwErrorLine *error;
};

G_DEFINE_FINAL_TYPE (SwPointList, sw_point_list, GTK_TYPE_WIDGET)

static void
toggled_cb (GtkCheckButton *button, SwPointList *self)
{
  sw_point_list_set_error (self, NULL);
}

static void
append_words (SwPointList *self, const char *text, const char *style)
{
  GtkWidget *label;

  if (text == NULL || *text == '\0')
    return;
  label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0.0F);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_margin_start (label, INDENT_PX);
  gtk_widget_add_css_class (label, style);
  gtk_box_append (self->rows, label);
}

static void
append_point (SwPointList *self, const SwWording *wording, const SwSamplingPoint *point)
{
  GtkWidget *button = gtk_check_button_new_with_label (point->name);
  const char *use = sw_say_test_word (wording, point->dose_basis ? SW_TEST_WORD_DOSE_BASIS
                                                                 : SW_TEST_WORD_NO_DOSE_BASIS);

  if (self->buttons->len > 0)
    gtk_check_button_set_group (GTK_CHECK_BUTTON (button), g_ptr_array_index (self->buttons, 0));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, use,
                                  -1);
  g_signal_connect (button, "toggled", G_CALLBACK (toggled_cb), self);
  gtk_box_append (self->rows, button);
  append_words (self, point->directions, "sw-small");
  append_words (self, use, "sw-dim");
  g_array_append_val (self->ids, point->record.id);
  g_ptr_array_add (self->buttons, button);
}

static gboolean
sw_point_list_grab_focus (GtkWidget *widget)
{
  SwPointList *self = SW_POINT_LIST (widget);

  return self->buttons->len > 0 && gtk_widget_grab_focus (g_ptr_array_index (self->buttons, 0));
}

static void
sw_point_list_dispose (GObject *object)
{
  g_clear_pointer (&SW_POINT_LIST (object)->layout, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_point_list_parent_class)->dispose (object);
}

static void
sw_point_list_finalize (GObject *object)
{
  SwPointList *self = SW_POINT_LIST (object);

  g_clear_pointer (&self->ids, g_array_unref);
  g_clear_pointer (&self->buttons, g_ptr_array_unref);
  G_OBJECT_CLASS (sw_point_list_parent_class)->finalize (object);
}

static void
sw_point_list_class_init (SwPointListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_point_list_dispose;
  G_OBJECT_CLASS (klass)->finalize = sw_point_list_finalize;
  widget_class->grab_focus = sw_point_list_grab_focus;
  g_type_ensure (SW_TYPE_ERROR_LINE);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/test/point-list.ui");
  gtk_widget_class_bind_template_child (widget_class, SwPointList, layout);
  gtk_widget_class_bind_template_child (widget_class, SwPointList, rows);
  gtk_widget_class_bind_template_child (widget_class, SwPointList, error);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swpointlist");
}

static void
sw_point_list_init (SwPointList *self)
{
  self->ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->buttons = g_ptr_array_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
}

static void
clear_rows (SwPointList *self)
{
  GtkWidget *child;

  g_array_set_size (self->ids, 0);
  g_ptr_array_set_size (self->buttons, 0);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->rows))) != NULL)
    gtk_box_remove (self->rows, child);
}

void
sw_point_list_fill (SwPointList *self, const SwWording *wording, GPtrArray *points, gint64 chosen)
{
  clear_rows (self);
  for (guint i = 0; i < points->len; i++)
    {
      const SwSamplingPoint *point = g_ptr_array_index (points, i);

      append_point (self, wording, point);
      if (point->record.id == chosen)
        gtk_check_button_set_active (g_ptr_array_index (self->buttons, i), TRUE);
    }
}

gint64
sw_point_list_get (SwPointList *self)
{
  for (guint i = 0; i < self->buttons->len; i++)
    if (gtk_check_button_get_active (g_ptr_array_index (self->buttons, i)))
      return g_array_index (self->ids, gint64, i);
  return 0;
}

void
sw_point_list_set_error (SwPointList *self, const char *text)
{
  sw_error_line_set (self->error, text);
}

const char *
sw_point_list_get_error (SwPointList *self)
{
  return sw_error_line_get (self->error);
}
