/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cards, and links as rows. */
#include "app/records/card.h"

#include "app/records/mark-shapes.h"
#include "app/records/record-item.h"
#include "wording/sentence-record.h"

/* Where a row of links leads. */
typedef struct
{
  SwFollow follow;
  gpointer data; /* Borrowed: outlives the card */
  int kind;
  gint64 id;
} Target;

#define TARGET_KEY "sw-target"

GtkWidget *
sw_card_label (const char *text, const char *class)
{
  g_autoptr (PangoAttrList) plain = pango_attr_list_new ();
  GtkWidget *label = gtk_label_new (text);

  pango_attr_list_insert (plain, pango_attr_insert_hyphens_new (FALSE));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  /* A number is not to be read with a hyphen in it. */
  gtk_label_set_attributes (GTK_LABEL (label), plain);
  if (class != NULL)
    gtk_widget_add_css_class (label, class);
  return label;
}

GtkWidget *
sw_card_value (const char *text, const char *class)
{
  GtkWidget *label = sw_card_label (text, class);

  gtk_label_set_natural_wrap_mode (GTK_LABEL (label), GTK_NATURAL_WRAP_NONE);
  return label;
}

GtkWidget *
sw_card_new (const char *heading)
{
  GtkWidget *card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 9);
  GtkWidget *title = sw_card_label (heading, "sw-section");

  gtk_widget_add_css_class (card, "sw-card");
  gtk_widget_add_css_class (card, "sw-slim");
  gtk_accessible_update_property (GTK_ACCESSIBLE (card), GTK_ACCESSIBLE_PROPERTY_LABEL, heading,
                                  -1);
  gtk_box_append (GTK_BOX (card), title);
  return card;
}

/* ---- links ---- */

static GtkWidget *
make_cell (const char *text, const char *class, int chars, gboolean voided)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), chars);
  gtk_widget_set_tooltip_text (label, text);
  if (class != NULL)
    gtk_widget_add_css_class (label, class);
  if (voided)
    gtk_widget_add_css_class (label, "sw-void");
  return label;
}

/* What tells one part from the next: when it happened, where the name is that of the test. */
static const char *
get_detail (SwRecordItem *item)
{
  switch (sw_record_item_get_kind (item))
    {
    case SW_TABLE_READING:
    case SW_TABLE_DOSE:
    case SW_TABLE_INCIDENT:
    case SW_TABLE_DECISION:
      return sw_record_item_get_when (item);
    default:
      return sw_record_item_get_detail (item);
    }
}

/* The same words as in the list of its kind. */
static void
fill_line (GtkBox *line, const char *relation, SwRecordItem *item)
{
  gboolean voided = (sw_record_item_get_marks (item) & SW_MARK_VOIDED) != 0;
  SwVerdictKind verdict = sw_record_item_get_verdict (item);
  GtkWidget *shapes = sw_mark_shapes_new ();
  GtkWidget *detail = make_cell (get_detail (item), "sw-dim", 4, voided);
  GtkWidget *relation_label = make_cell (relation, "sw-dim", 15, FALSE);

  gtk_label_set_max_width_chars (GTK_LABEL (relation_label), 15);
  gtk_box_append (line, relation_label);
  if (verdict != SW_N_VERDICT_KINDS)
    gtk_box_append (line, sw_verdict_new (verdict, 12));
  gtk_box_append (line, make_cell (sw_record_item_get_what (item), "sw-bold", 8, voided));
  gtk_widget_set_hexpand (detail, TRUE);
  gtk_box_append (line, detail);
  sw_mark_shapes_set (SW_MARK_SHAPES (shapes), sw_record_item_get_marks (item));
  gtk_box_append (line, shapes);
  gtk_box_append (line, make_cell (sw_record_item_get_state (item), NULL, 0, FALSE));
  gtk_box_append (line, gtk_image_new_from_icon_name ("go-next-symbolic"));
}

static GtkWidget *
make_row (SwContext *context, const SwLink *link, SwFollow follow, gpointer data)
{
  g_autoptr (SwRecordItem) item = sw_record_item_new (context, link->kind, link->id);
  const SwWording *wording = sw_context_get_wording (context);
  const char *relation = link->relation != NULL
                             ? sw_trc (wording, "part of a record", link->relation)
                             : sw_say_table (wording, sw_table_name ((SwTable)link->kind));
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 9);
  GtkWidget *row = gtk_list_box_row_new ();
  Target *target = g_new0 (Target, 1);

  *target = (Target){ follow, data, link->kind, link->id };
  g_object_set_data_full (G_OBJECT (row), TARGET_KEY, target, g_free);
  fill_line (GTK_BOX (line), relation, item);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), line);
  return row;
}

static void
activated_cb (GtkListBox *list, GtkListBoxRow *row, gpointer data)
{
  /* The row goes with the card as soon as the link is followed. */
  const Target target = *(const Target *)g_object_get_data (G_OBJECT (row), TARGET_KEY);

  target.follow (target.kind, target.id, target.data);
}

GtkWidget *
sw_card_links_new (SwContext *context, GArray *links, SwFollow follow, gpointer data)
{
  GtkWidget *list = gtk_list_box_new ();

  gtk_list_box_set_selection_mode (GTK_LIST_BOX (list), GTK_SELECTION_NONE);
  gtk_widget_add_css_class (list, "sw-rows");
  gtk_widget_add_css_class (list, "sw-links");
  for (guint i = 0; i < links->len; i++)
    gtk_list_box_append (GTK_LIST_BOX (list),
                         make_row (context, &g_array_index (links, SwLink, i), follow, data));
  g_signal_connect (list, "row-activated", G_CALLBACK (activated_cb), NULL);
  return list;
}
