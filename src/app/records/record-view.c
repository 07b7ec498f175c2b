/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One record.
 *
 *   stack: "record" --Amend, Void--> "amend" --saved or cancelled--> "record"
 *
 * Invariant: trail holds the records that Back leads to, the last one first out; what is shown is
 * not in it.
 */
#include "app/records/record-view.h"

#include <glib/gi18n.h>

#include "app/records/amend-page.h"
#include "app/records/batch-review.h"
#include "app/records/record-cards.h"
#include "app/records/record-export.h"
#include "app/records/record-head.h"
#include "app/records/record-may.h"
#include "app/window.h"
#include "reports/story-words.h"

typedef struct
{
  int kind;
  gint64 id;
} Place;

struct _SwRecordView
{
  GtkWidget parent_instance;

  /* Template children */
  GtkStack *stack;
  SwRecordHead *head;
  GtkScrolledWindow *scroller;
  GtkBox *cards;
  SwAmendPage *amend_page;

  SwContext *context; /* Owned */
  GArray *trail;      /* Owned: Place */
  Place place;        /* id 0: nothing is shown */
};

enum
{
  SIGNAL_LEAVE,
  SIGNAL_STEP,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwRecordView, sw_record_view, GTK_TYPE_WIDGET)

/* ---- all of it ---- */

static void
follow_cb (int kind, gint64 id, gpointer data)
{
  sw_record_view_follow (SW_RECORD_VIEW (data), kind, id);
}

static void
clear_cards (SwRecordView *self)
{
  GtkWidget *card;

  while ((card = gtk_widget_get_first_child (GTK_WIDGET (self->cards))) != NULL)
    gtk_box_remove (self->cards, card);
}

static void
show_row (SwRecordView *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwBrowseRow) row = sw_browse_load (sw_context_get_store (self->context),
                                                (SwTable)self->place.kind, self->place.id, &error);

  if (row == NULL)
    {
      sw_record_head_show_error (self->head, error);
      return;
    }
  sw_record_head_show (self->head, row);
  sw_record_cards_add (self->cards, self->context, row, follow_cb, self);
}

static void
show_act (SwRecordView *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) chapters
      = sw_browse_act (sw_context_get_store (self->context), self->place.id, &error);

  if (chapters == NULL || chapters->len == 0)
    {
      sw_record_head_show_error (self->head, error);
      return;
    }
  sw_record_head_show_act (self->head, chapters->pdata[0]);
  sw_record_cards_add_act (self->cards, self->context, self->place.id, follow_cb, self);
}

static void
show_all (SwRecordView *self)
{
  if (self->place.id == 0)
    return;
  clear_cards (self);
  if (self->place.kind == SW_KIND_JOURNAL)
    show_act (self);
  else
    show_row (self);
}

/* The file, or the person at the bench, changed. */
static void
changed_cb (SwRecordView *self)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    show_all (self);
}

static void
go_to (SwRecordView *self, Place place)
{
  self->place = place;
  gtk_stack_set_visible_child_name (self->stack, "record");
  gtk_adjustment_set_value (gtk_scrolled_window_get_vadjustment (self->scroller), 0);
  show_all (self);
}

/* ---- the person's deeds ---- */

static void
review (SwRecordView *self)
{
  g_autoptr (GArray) ids = g_array_new (FALSE, FALSE, sizeof (gint64));

  g_array_append_val (ids, self->place.id);
  sw_batch_review_ask (GTK_WIDGET (self), self->context, ids);
}

static gboolean
may_write (SwRecordView *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  return window == NULL || sw_window_may_write (window);
}

/* What has a form here is amended here; records of the set-up have theirs there. */
static void
amend (SwRecordView *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));
  gint64 id;
  const char *section
      = sw_record_may_section (self->context, self->place.kind, self->place.id, &id);

  if (section != NULL && window != NULL)
    {
      sw_window_show_setup_record (window, section, id);
      return;
    }
  if (!may_write (self))
    return;
  sw_amend_page_open (self->amend_page, (SwTable)self->place.kind, self->place.id);
  gtk_stack_set_visible_child_name (self->stack, "amend");
  gtk_widget_grab_focus (GTK_WIDGET (self->amend_page));
}

static void
take_out (SwRecordView *self)
{
  if (!may_write (self))
    return;
  sw_amend_page_open_void (self->amend_page, (SwTable)self->place.kind, self->place.id);
  gtk_stack_set_visible_child_name (self->stack, "amend");
  gtk_widget_grab_focus (GTK_WIDGET (self->amend_page));
}

static void
leave_amend_cb (SwAmendPage *page, SwRecordView *self)
{
  gtk_stack_set_visible_child_name (self->stack, "record");
  show_all (self);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

/* The test that the record belongs to. */
static void export(SwRecordView *self)
{
  SwTable table = (SwTable)self->place.kind;
  g_autofree char *name
      = sw_story_record (sw_context_get_store (self->context),
                         sw_context_get_wording (self->context), table, self->place.id, NULL);
  SwExportFilter filter;

  if (name != NULL && sw_record_export_filter (self->context, table, self->place.id, &filter))
    sw_record_export_ask (GTK_WIDGET (self), self->context, &filter, name);
}

static void
deed_cb (SwRecordHead *head, int deed, SwRecordView *self)
{
  SwWindow *window = sw_window_of (GTK_WIDGET (self));

  switch ((SwDeed)deed)
    {
    case SW_DEED_REVIEW:
      review (self);
      break;
    case SW_DEED_AMEND:
      amend (self);
      break;
    case SW_DEED_VOID:
      take_out (self);
      break;
    case SW_DEED_MACHINE:
      if (window != NULL)
        sw_window_show_machine (window, sw_record_head_get_machine (head));
      break;
    case SW_DEED_EXPORT:
      export(self);
      break;
    default:
      g_return_if_reached ();
    }
}

static void
back (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwRecordView *self = SW_RECORD_VIEW (widget);

  if (self->trail->len == 0)
    {
      g_signal_emit (self, signals[SIGNAL_LEAVE], 0);
      return;
    }
  Place place = g_array_index (self->trail, Place, self->trail->len - 1);
  g_array_set_size (self->trail, self->trail->len - 1);
  go_to (self, place);
}

static void
step (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_signal_emit (widget, signals[SIGNAL_STEP], 0, g_variant_get_int32 (parameter));
}

/* ---- class ---- */

/* What is to be read: the keys that scroll work at once. */
static gboolean
sw_record_view_grab_focus (GtkWidget *widget)
{
  SwRecordView *self = SW_RECORD_VIEW (widget);

  if (g_strcmp0 (gtk_stack_get_visible_child_name (self->stack), "amend") == 0)
    return gtk_widget_grab_focus (GTK_WIDGET (self->amend_page));
  return gtk_widget_grab_focus (GTK_WIDGET (self->scroller));
}

static void
sw_record_view_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&SW_RECORD_VIEW (object)->context);
  G_OBJECT_CLASS (sw_record_view_parent_class)->dispose (object);
}

static void
sw_record_view_finalize (GObject *object)
{
  g_array_unref (SW_RECORD_VIEW (object)->trail);
  G_OBJECT_CLASS (sw_record_view_parent_class)->finalize (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, SwRecordView, stack);
  gtk_widget_class_bind_template_child (widget_class, SwRecordView, head);
  gtk_widget_class_bind_template_child (widget_class, SwRecordView, scroller);
  gtk_widget_class_bind_template_child (widget_class, SwRecordView, cards);
  gtk_widget_class_bind_template_child (widget_class, SwRecordView, amend_page);
}

static void
bind_deeds (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_callback (widget_class, deed_cb);
  gtk_widget_class_bind_template_callback (widget_class, leave_amend_cb);
  gtk_widget_class_install_action (widget_class, "record.back", NULL, back);
  gtk_widget_class_install_action (widget_class, "record.step", "i", step);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "record.back", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Page_Up, GDK_SHIFT_MASK, "record.step",
                                       "i", -1);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Page_Down, GDK_SHIFT_MASK,
                                       "record.step", "i", 1);
}

static void
sw_record_view_class_init (SwRecordViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GType type = G_TYPE_FROM_CLASS (klass);

  object_class->dispose = sw_record_view_dispose;
  object_class->finalize = sw_record_view_finalize;
  widget_class->grab_focus = sw_record_view_grab_focus;
  signals[SIGNAL_LEAVE]
      = g_signal_new ("leave", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_STEP] = g_signal_new ("step", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                       G_TYPE_NONE, 1, G_TYPE_INT);
  g_type_ensure (SW_TYPE_AMEND_PAGE);
  g_type_ensure (SW_TYPE_RECORD_HEAD);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/records/record-view.ui");
  bind_children (widget_class);
  bind_deeds (widget_class);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_record_view_init (SwRecordView *self)
{
  self->trail = g_array_new (FALSE, FALSE, sizeof (Place));
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* ---- public ---- */

void
sw_record_view_set_context (SwRecordView *self, SwContext *context)
{
  g_return_if_fail (SW_IS_RECORD_VIEW (self) && self->context == NULL);

  self->context = g_object_ref (context);
  sw_record_head_set_context (self->head, context);
  sw_amend_page_set_context (self->amend_page, context);
  g_signal_connect_object (context, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (context, "person-changed", G_CALLBACK (changed_cb), self,
                           G_CONNECT_SWAPPED);
}

void
sw_record_view_show (SwRecordView *self, int kind, gint64 id)
{
  g_return_if_fail (SW_IS_RECORD_VIEW (self) && id != 0);

  g_array_set_size (self->trail, 0);
  go_to (self, (Place){ kind, id });
}

void
sw_record_view_follow (SwRecordView *self, int kind, gint64 id)
{
  g_return_if_fail (SW_IS_RECORD_VIEW (self) && id != 0);

  if (self->place.id != 0)
    g_array_append_val (self->trail, self->place);
  go_to (self, (Place){ kind, id });
}

int
sw_record_view_get_kind (SwRecordView *self)
{
  g_return_val_if_fail (SW_IS_RECORD_VIEW (self), 0);
  return self->place.kind;
}

gint64
sw_record_view_get_id (SwRecordView *self)
{
  g_return_val_if_fail (SW_IS_RECORD_VIEW (self), 0);
  return self->place.id;
}
