/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Records page.
 *
 *   stack: "list" --open--> "record"     Back, or Escape, returns to the list where it was left
 *   body:  "table" | "nothing"           of the list: rows, or why there are none
 *
 * Invariant: the table shows what the filter bar says, except while the page is not on screen: then
 * `stale` is set and it asks when it is shown again.
 */
#include "app/records/records-page.h"

#include "app/plant-words.h"
#include "app/records/batch-review.h"
#include "app/records/filter-bar.h"
#include "app/records/record-export.h"
#include "app/records/record-table.h"
#include "app/records/record-view.h"

struct _SwRecordsPage
{
  GtkWidget parent_instance;

  /* Template children */
  GtkStack *stack;
  SwFilterBar *bar;
  GtkStack *body;
  SwRecordTable *table;
  GtkLabel *nothing;
  GtkButton *clear;
  GtkLabel *chosen;
  GtkButton *open;
  GtkButton *review;
  SwRecordView *view;

  SwContext *context; /* Owned */
  gboolean stale;
};

G_DEFINE_FINAL_TYPE (SwRecordsPage, sw_records_page, GTK_TYPE_WIDGET)

static const SwWording *
wording_of (SwRecordsPage *self)
{
  return sw_context_get_wording (self->context);
}

/* ---- the list ---- */

static void
show_nothing (SwRecordsPage *self, const GError *error)
{
  gboolean narrow = sw_filter_bar_is_narrow (self->bar);
  g_autofree char *words = NULL;

  if (error != NULL)
    words = sw_plant_say_error (wording_of (self), error);
  else
    words = g_strdup (narrow ? sw_tr (wording_of (self), "Nothing found.")
                             : sw_tr (wording_of (self), "Nothing of this kind is on file yet."));
  gtk_label_set_text (self->nothing, words);
  gtk_widget_set_visible (GTK_WIDGET (self->clear), narrow && error == NULL);
  gtk_stack_set_visible_child_name (self->body, "nothing");
}

static void
ask (SwRecordsPage *self)
{
  int kind = sw_filter_bar_get_kind (self->bar);
  GListModel *list = G_LIST_MODEL (sw_record_table_get_list (self->table));
  g_autoptr (GError) error = NULL;
  SwBrowseFilter filter;

  self->stale = FALSE;
  sw_filter_bar_get (self->bar, &filter);
  sw_record_table_ask (self->table, kind, &filter, &error);
  guint n = g_list_model_get_n_items (list);
  g_autofree char *count = sw_kind_count (wording_of (self), kind, n);
  sw_filter_bar_set_count (self->bar, count);
  if (n > 0)
    gtk_stack_set_visible_child_name (self->body, "table");
  else
    show_nothing (self, error);
}

/* The file changed: a page that nobody sees asks when it is seen again. */
static void
file_changed (SwRecordsPage *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    ask (self);
  else
    self->stale = TRUE;
}

static void
filter_changed_cb (SwFilterBar *bar, SwRecordsPage *self)
{
  ask (self);
}

static void
leave_bar_cb (SwFilterBar *bar, SwRecordsPage *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static void
clear_cb (GtkButton *button, SwRecordsPage *self)
{
  sw_filter_bar_clear (self->bar);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static void
chosen_changed_cb (SwRecordTable *table, SwRecordsPage *self)
{
  guint n = sw_record_table_count_chosen (table);
  g_autofree char *words = sw_say_chosen (wording_of (self), n);
  g_autofree char *label = sw_say_review_button (wording_of (self), n);
  gboolean tests = sw_filter_bar_get_kind (self->bar) == SW_TABLE_TITRATION;

  gtk_label_set_text (self->chosen, words);
  gtk_button_set_label (self->review, label);
  gtk_widget_set_sensitive (GTK_WIDGET (self->open), n == 1);
  gtk_widget_set_visible (GTK_WIDGET (self->review), tests);
  gtk_widget_set_sensitive (GTK_WIDGET (self->review), n > 0);
}

/* ---- one record ---- */

static void
show_record (SwRecordsPage *self, int kind, gint64 id)
{
  sw_record_view_show (self->view, kind, id);
  gtk_stack_set_visible_child_name (self->stack, "record");
  gtk_widget_grab_focus (GTK_WIDGET (self->view));
}

static void
activated_cb (SwRecordTable *table, gint64 id, SwRecordsPage *self)
{
  show_record (self, sw_filter_bar_get_kind (self->bar), id);
}

static void
open_cb (GtkButton *button, SwRecordsPage *self)
{
  g_autoptr (GArray) ids = sw_record_table_dup_chosen (self->table, 1);

  if (ids->len == 1)
    show_record (self, sw_filter_bar_get_kind (self->bar), g_array_index (ids, gint64, 0));
}

/* Back to the list, at the record that was looked at. */
static void
leave_view_cb (SwRecordView *view, SwRecordsPage *self)
{
  gtk_stack_set_visible_child_name (self->stack, "list");
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

/* The record before or after in the list, while there is one. */
static void
step_cb (SwRecordView *view, int by, SwRecordsPage *self)
{
  SwRecordList *list = sw_record_table_get_list (self->table);
  guint at = sw_record_list_find (list, sw_record_view_get_id (view));

  if (at == G_MAXUINT || sw_record_list_get_kind (list) != sw_record_view_get_kind (view)
      || (by < 0 && at == 0))
    return;
  gint64 id = sw_record_list_get_id (list, by < 0 ? at - 1 : at + 1);
  if (id == 0)
    return;
  sw_record_table_choose (self->table, id);
  show_record (self, sw_record_view_get_kind (view), id);
}

static void
review_cb (GtkButton *button, SwRecordsPage *self)
{
  g_autoptr (GArray) ids = sw_record_table_dup_chosen (self->table, SW_BATCH_MOST + 1);

  sw_batch_review_ask (GTK_WIDGET (self), self->context, ids);
}

/* The workbook knows machine and days; the rest of the filter is for the eye. */
static void
export_cb (GtkButton *button, SwRecordsPage *self)
{
  SwBrowseFilter shown;
  SwExportFilter filter = { 0 };

  sw_filter_bar_get (self->bar, &shown);
  filter.machine = shown.machine;
  filter.from_ms = shown.from_ms;
  filter.to_ms = shown.to_ms;
  sw_record_export_ask (GTK_WIDGET (self), self->context, &filter,
                        sw_trc (wording_of (self), "name of a file", "records"));
}

/* ---- class ---- */

static void
sw_records_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (sw_records_page_parent_class)->map (widget);
  if (SW_RECORDS_PAGE (widget)->stale)
    ask (SW_RECORDS_PAGE (widget));
}

static gboolean
sw_records_page_grab_focus (GtkWidget *widget)
{
  SwRecordsPage *self = SW_RECORDS_PAGE (widget);

  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), "record") == 0)
    return gtk_widget_grab_focus (GTK_WIDGET (self->view));
  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->body), "table") == 0)
    return gtk_widget_grab_focus (GTK_WIDGET (self->table));
  return gtk_widget_grab_focus (GTK_WIDGET (self->bar));
}

static void
sw_records_page_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&SW_RECORDS_PAGE (object)->context);
  G_OBJECT_CLASS (sw_records_page_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, SwRecordsPage, stack);
  gtk_widget_class_bind_template_child (widget_class, SwRecordsPage, bar);
  gtk_widget_class_bind_template_child (widget_class, SwRecordsPage, body);
  gtk_widget_class_bind_template_child (widget_class, SwRecordsPage, table);
  gtk_widget_class_bind_template_child (widget_class, SwRecordsPage, nothing);
  gtk_widget_class_bind_template_child (widget_class, SwRecordsPage, clear);
  gtk_widget_class_bind_template_child (widget_class, SwRecordsPage, chosen);
  gtk_widget_class_bind_template_child (widget_class, SwRecordsPage, open);
  gtk_widget_class_bind_template_child (widget_class, SwRecordsPage, review);
  gtk_widget_class_bind_template_child (widget_class, SwRecordsPage, view);
}

static void
sw_records_page_class_init (SwRecordsPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_records_page_dispose;
  widget_class->map = sw_records_page_map;
  widget_class->grab_focus = sw_records_page_grab_focus;
  g_type_ensure (SW_TYPE_FILTER_BAR);
  g_type_ensure (SW_TYPE_RECORD_TABLE);
  g_type_ensure (SW_TYPE_RECORD_VIEW);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/records/records-page.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, filter_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, leave_bar_cb);
  gtk_widget_class_bind_template_callback (widget_class, clear_cb);
  gtk_widget_class_bind_template_callback (widget_class, chosen_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, activated_cb);
  gtk_widget_class_bind_template_callback (widget_class, open_cb);
  gtk_widget_class_bind_template_callback (widget_class, leave_view_cb);
  gtk_widget_class_bind_template_callback (widget_class, step_cb);
  gtk_widget_class_bind_template_callback (widget_class, review_cb);
  gtk_widget_class_bind_template_callback (widget_class, export_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_records_page_init (SwRecordsPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* ---- public ---- */

GtkWidget *
sw_records_page_new (SwContext *context)
{
  SwRecordsPage *self = g_object_new (SW_TYPE_RECORDS_PAGE, NULL);

  self->context = g_object_ref (context);
  sw_filter_bar_set_context (self->bar, context);
  sw_record_table_set_context (self->table, context);
  sw_record_view_set_context (self->view, context);
  self->stale = TRUE;
  g_signal_connect_object (context, "changed", G_CALLBACK (file_changed), self, G_CONNECT_SWAPPED);
  return GTK_WIDGET (self);
}

void
sw_records_page_show (SwRecordsPage *self, const SwBrowseFilter *filter)
{
  g_return_if_fail (SW_IS_RECORDS_PAGE (self));

  if (filter == NULL)
    return;
  sw_filter_bar_set (self->bar, filter);
  gtk_stack_set_visible_child_name (self->stack, "list");
  ask (self);
}

void
sw_records_page_open (SwRecordsPage *self, SwTable table, gint64 id)
{
  g_return_if_fail (SW_IS_RECORDS_PAGE (self));
  show_record (self, (int)table, id);
}

void
sw_records_page_find (SwRecordsPage *self)
{
  g_return_if_fail (SW_IS_RECORDS_PAGE (self));

  gtk_stack_set_visible_child_name (self->stack, "list");
  sw_filter_bar_find (self->bar);
}
