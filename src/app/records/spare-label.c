/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A label without a least width: a label of the toolkit wants three characters even when it is cut,
 * and takes them from its neighbour. */
#include "app/records/spare-label.h"

/* Less than about five characters says nothing, px at plain text. */
#define LEAST_PX 48

struct _SwSpareLabel
{
  GtkWidget parent_instance;
  GtkWidget *label; /* Borrowed: the child */
};

G_DEFINE_FINAL_TYPE (SwSpareLabel, sw_spare_label, GTK_TYPE_WIDGET)

static void
sw_spare_label_measure (GtkWidget *widget,
                        GtkOrientation orientation,
                        int for_size,
                        int *minimum,
                        int *natural,
                        int *minimum_baseline,
                        int *natural_baseline)
{
  gtk_widget_measure (SW_SPARE_LABEL (widget)->label, orientation, -1, minimum, natural,
                      minimum_baseline, natural_baseline);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    *minimum = *natural = 0;
}

static void
sw_spare_label_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  GtkWidget *label = SW_SPARE_LABEL (widget)->label;
  int least;

  gtk_widget_measure (label, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_set_child_visible (label, width >= MAX (least, LEAST_PX));
  gtk_widget_allocate (label, MAX (width, least), height, baseline, NULL);
}

static void
sw_spare_label_dispose (GObject *object)
{
  g_clear_pointer (&SW_SPARE_LABEL (object)->label, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_spare_label_parent_class)->dispose (object);
}

static void
sw_spare_label_class_init (SwSpareLabelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_spare_label_dispose;
  widget_class->measure = sw_spare_label_measure;
  widget_class->size_allocate = sw_spare_label_size_allocate;
}

static void
sw_spare_label_init (SwSpareLabel *self)
{
  self->label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (self->label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (self->label), PANGO_ELLIPSIZE_START);
  gtk_widget_set_parent (self->label, GTK_WIDGET (self));
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
}

GtkWidget *
sw_spare_label_new (const char *class)
{
  SwSpareLabel *self = g_object_new (SW_TYPE_SPARE_LABEL, NULL);

  gtk_widget_add_css_class (self->label, class);
  return GTK_WIDGET (self);
}

GtkWidget *
sw_spare_label_get_label (SwSpareLabel *self)
{
  g_return_val_if_fail (SW_IS_SPARE_LABEL (self), NULL);
  return self->label;
}
