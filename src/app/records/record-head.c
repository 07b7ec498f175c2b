/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The head of a record's page.
 *
 * Invariant: what may not be done now cannot be pressed, and the line below says why.
 */
#include "app/records/record-head.h"

#include "app/plant-words.h"
#include "app/records/mark-shapes.h"
#include "app/records/record-export.h"
#include "app/records/record-may.h"
#include "app/records/record-words.h"

struct _SwRecordHead
{
  GtkWidget parent_instance;

  /* Template children */
  SwVerdict *verdict;
  GtkLabel *title;
  GtkLabel *subtitle;
  SwMarkShapes *shapes;
  GtkLabel *marks;
  GtkButton *review;
  GtkButton *amend;
  GtkButton *void_button;
  GtkButton *machine;
  GtkButton *export;
  GtkLabel *why;

  SwContext *context; /* Owned */
  int kind;
  gint64 id; /* 0: nothing can be done */
  gint64 machine_id;
};

static guint signal_deed;

G_DEFINE_FINAL_TYPE (SwRecordHead, sw_record_head, GTK_TYPE_WIDGET)

static const SwWording *
wording_of (SwRecordHead *self)
{
  return sw_context_get_wording (self->context);
}

/* ---- what it says ---- */

/* @verdict SW_N_VERDICT_KINDS: none. */
static void
show_words (
    SwRecordHead *self, const char *title, const char *subtitle, SwVerdictKind verdict, guint marks)
{
  g_autofree char *words = sw_say_marks (wording_of (self), marks);

  gtk_label_set_text (self->title, title);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->title), title);
  if ((marks & SW_MARK_VOIDED) != 0)
    gtk_widget_add_css_class (GTK_WIDGET (self->title), "sw-void");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (self->title), "sw-void");
  gtk_label_set_text (self->subtitle, subtitle != NULL ? subtitle : "");
  gtk_widget_set_visible (GTK_WIDGET (self->verdict), verdict != SW_N_VERDICT_KINDS);
  if (verdict != SW_N_VERDICT_KINDS)
    sw_verdict_set_kind (self->verdict, verdict);
  sw_mark_shapes_set (self->shapes, marks);
  gtk_label_set_text (self->marks, words);
}

/* ---- what may be done ---- */

static void
show_button (GtkButton *button, const SwMay *may)
{
  gtk_widget_set_visible (GTK_WIDGET (button), may->applies);
  gtk_widget_set_sensitive (GTK_WIDGET (button), may->may);
  gtk_widget_set_tooltip_text (GTK_WIDGET (button), may->why);
}

static void
show_may (SwRecordHead *self)
{
  g_autoptr (SwRecordMay) may = sw_record_may_ask (self->context, self->kind, self->id);

  show_button (self->review, &may->review);
  show_button (self->amend, &may->amend);
  show_button (self->void_button, &may->voiding);
  gtk_label_set_text (self->why, may->words);
  gtk_widget_set_visible (GTK_WIDGET (self->why), *may->words != '\0');
  gtk_widget_set_visible (GTK_WIDGET (self->machine), self->machine_id != 0);
  gtk_widget_set_visible (GTK_WIDGET (self->export),
                          self->id != 0 && sw_record_export_applies (self->kind));
}

/* ---- what the person wants ---- */

static void
want (SwRecordHead *self, SwDeed deed)
{
  g_signal_emit (self, signal_deed, 0, (int)deed);
}

static void
review_cb (GtkButton *button, SwRecordHead *self)
{
  want (self, SW_DEED_REVIEW);
}

static void
amend_cb (GtkButton *button, SwRecordHead *self)
{
  want (self, SW_DEED_AMEND);
}

static void
void_cb (GtkButton *button, SwRecordHead *self)
{
  want (self, SW_DEED_VOID);
}

static void
machine_cb (GtkButton *button, SwRecordHead *self)
{
  want (self, SW_DEED_MACHINE);
}

static void
export_cb (GtkButton *button, SwRecordHead *self)
{
  want (self, SW_DEED_EXPORT);
}

/* ---- class ---- */

static void
sw_record_head_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&SW_RECORD_HEAD (object)->context);
  G_OBJECT_CLASS (sw_record_head_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, SwRecordHead, verdict);
  gtk_widget_class_bind_template_child (widget_class, SwRecordHead, title);
  gtk_widget_class_bind_template_child (widget_class, SwRecordHead, subtitle);
  gtk_widget_class_bind_template_child (widget_class, SwRecordHead, shapes);
  gtk_widget_class_bind_template_child (widget_class, SwRecordHead, marks);
  gtk_widget_class_bind_template_child (widget_class, SwRecordHead, review);
  gtk_widget_class_bind_template_child (widget_class, SwRecordHead, amend);
  gtk_widget_class_bind_template_child (widget_class, SwRecordHead, void_button);
  gtk_widget_class_bind_template_child (widget_class, SwRecordHead, machine);
  gtk_widget_class_bind_template_child (widget_class, SwRecordHead, export);
  gtk_widget_class_bind_template_child (widget_class, SwRecordHead, why);
}

static void
sw_record_head_class_init (SwRecordHeadClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_record_head_dispose;
  signal_deed = g_signal_new ("deed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                              NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  g_type_ensure (SW_TYPE_MARK_SHAPES);
  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/records/record-head.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, review_cb);
  gtk_widget_class_bind_template_callback (widget_class, amend_cb);
  gtk_widget_class_bind_template_callback (widget_class, void_cb);
  gtk_widget_class_bind_template_callback (widget_class, machine_cb);
  gtk_widget_class_bind_template_callback (widget_class, export_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_record_head_init (SwRecordHead *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* ---- public ---- */

void
sw_record_head_set_context (SwRecordHead *self, SwContext *context)
{
  g_return_if_fail (SW_IS_RECORD_HEAD (self) && self->context == NULL);
  self->context = g_object_ref (context);
}

void
sw_record_head_show (SwRecordHead *self, const SwBrowseRow *row)
{
  g_return_if_fail (SW_IS_RECORD_HEAD (self) && row != NULL);

  g_autofree char *title = sw_record_words_title (self->context, row);
  g_autofree char *subtitle = sw_record_words_subtitle (self->context, row);
  self->kind = (int)row->table;
  self->id = row->id;
  self->machine_id = row->machine;
  show_words (self, title, subtitle, sw_record_words_verdict (row),
              sw_record_words_marks (self->context, row));
  show_may (self);
}

void
sw_record_head_show_act (SwRecordHead *self, const SwChapter *first)
{
  g_return_if_fail (SW_IS_RECORD_HEAD (self) && first != NULL);

  g_autofree char *title = sw_record_words_act (self->context, first);
  g_autofree char *when = sw_date_time_format (wording_of (self), first->utc_ms);
  self->kind = SW_KIND_JOURNAL;
  self->id = first->act;
  self->machine_id = 0;
  show_words (self, title, when, SW_N_VERDICT_KINDS, 0);
  show_may (self);
}

void
sw_record_head_show_error (SwRecordHead *self, const GError *error)
{
  g_return_if_fail (SW_IS_RECORD_HEAD (self) && error != NULL);

  g_autofree char *words = sw_plant_say_error (wording_of (self), error);
  self->kind = SW_KIND_JOURNAL;
  self->id = 0;
  self->machine_id = 0;
  show_words (self, words, NULL, SW_N_VERDICT_KINDS, 0);
  show_may (self);
}

gint64
sw_record_head_get_machine (SwRecordHead *self)
{
  g_return_val_if_fail (SW_IS_RECORD_HEAD (self), 0);
  return self->machine_id;
}
