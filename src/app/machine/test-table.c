/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tests of a machine as a table over a list that loads its rows as they come on screen. */
#include "app/machine/test-table.h"

#include "app/machine/test-list.h"
#include "app/widgets/verdict.h"
#include "app/window.h"

struct _SwTestTable
{
  GtkWidget parent_instance;

  /* Owned */
  SwTestList *tests;
  GtkSingleSelection *selection;

  /* Template children */
  GtkColumnView *view;
};

G_DEFINE_FINAL_TYPE (SwTestTable, sw_test_table, GTK_TYPE_WIDGET)

/* ---- cells ---- */

/* Wider text is cut, down to @chars, and can be read in the tooltip. */
static GtkWidget *
make_label (const char *class, int chars)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), chars);
  if (class != NULL)
    gtk_widget_add_css_class (label, class);
  return label;
}

static void
set_label (GtkWidget *label, const char *text)
{
  gtk_label_set_text (GTK_LABEL (label), text);
  gtk_widget_set_tooltip_text (label, text);
}

static void
setup_when_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwTestTable *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  gtk_box_append (GTK_BOX (box), sw_verdict_new (SW_VERDICT_UNKNOWN, 12));
  gtk_box_append (GTK_BOX (box), make_label (NULL, 12));
  gtk_list_item_set_child (item, box);
}

static void
bind_when_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwTestTable *self)
{
  SwTestItem *test = gtk_list_item_get_item (item);
  GtkWidget *box = gtk_list_item_get_child (item);

  sw_verdict_set_kind (SW_VERDICT (gtk_widget_get_first_child (box)),
                       sw_verdict_of_outcome (sw_test_item_get_outcome (test)));
  set_label (gtk_widget_get_last_child (box), sw_test_item_get_when (test));
}

static void
setup_result_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwTestTable *self)
{
  gtk_list_item_set_child (item, make_label ("sw-bold", 12));
}

static void
bind_result_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwTestTable *self)
{
  set_label (gtk_list_item_get_child (item),
             sw_test_item_get_result (gtk_list_item_get_item (item)));
}

static void
setup_dose_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwTestTable *self)
{
  gtk_list_item_set_child (item, make_label ("sw-dim", 6));
}

static void
bind_dose_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwTestTable *self)
{
  set_label (gtk_list_item_get_child (item), sw_test_item_get_dose (gtk_list_item_get_item (item)));
}

static void
setup_signed_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwTestTable *self)
{
  gtk_list_item_set_child (item, make_label ("sw-dim", 5));
}

static void
bind_signed_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwTestTable *self)
{
  set_label (gtk_list_item_get_child (item),
             sw_test_item_get_signed (gtk_list_item_get_item (item)));
}

/* Enter or a double click: the record of the test. */
static void
activate_cb (GtkColumnView *view, guint position, SwTestTable *self)
{
  g_autoptr (SwTestItem) test = g_list_model_get_item (G_LIST_MODEL (self->tests), position);
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  if (test != NULL && window != NULL)
    sw_window_show_record (window, SW_TABLE_TITRATION, sw_test_item_get_titration (test));
}

/* ---- class ---- */

static void
sw_test_table_dispose (GObject *object)
{
  SwTestTable *self = SW_TEST_TABLE (object);
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&self->selection);
  g_clear_object (&self->tests);
  G_OBJECT_CLASS (sw_test_table_parent_class)->dispose (object);
}

static void
sw_test_table_class_init (SwTestTableClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_test_table_dispose;
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/machine/test-table.ui");
  gtk_widget_class_bind_template_child (widget_class, SwTestTable, view);
  gtk_widget_class_bind_template_callback (widget_class, setup_when_cb);
  gtk_widget_class_bind_template_callback (widget_class, bind_when_cb);
  gtk_widget_class_bind_template_callback (widget_class, setup_result_cb);
  gtk_widget_class_bind_template_callback (widget_class, bind_result_cb);
  gtk_widget_class_bind_template_callback (widget_class, setup_dose_cb);
  gtk_widget_class_bind_template_callback (widget_class, bind_dose_cb);
  gtk_widget_class_bind_template_callback (widget_class, setup_signed_cb);
  gtk_widget_class_bind_template_callback (widget_class, bind_signed_cb);
  gtk_widget_class_bind_template_callback (widget_class, activate_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_test_table_init (SwTestTable *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_test_table_set_context (SwTestTable *self, SwContext *context)
{
  g_return_if_fail (SW_IS_TEST_TABLE (self) && self->tests == NULL);

  self->tests = sw_test_list_new (context);
  self->selection = gtk_single_selection_new (G_LIST_MODEL (g_object_ref (self->tests)));
  gtk_single_selection_set_autoselect (self->selection, FALSE);
  gtk_single_selection_set_can_unselect (self->selection, TRUE);
  gtk_column_view_set_model (self->view, GTK_SELECTION_MODEL (self->selection));
}

void
sw_test_table_set_machine (SwTestTable *self, gint64 machine)
{
  g_return_if_fail (SW_IS_TEST_TABLE (self) && self->tests != NULL);
  sw_test_list_set_machine (self->tests, machine);
}

void
sw_test_table_choose (SwTestTable *self, gint64 titration)
{
  g_return_if_fail (SW_IS_TEST_TABLE (self) && self->tests != NULL);

  int place = sw_test_list_find (self->tests, titration);
  if (place < 0)
    return;
  gtk_single_selection_set_selected (self->selection, (guint)place);
  gtk_widget_activate_action (gtk_widget_get_last_child (GTK_WIDGET (self->view)),
                              "list.scroll-to-item", "u", (guint)place);
}
