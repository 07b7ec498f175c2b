/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of records. Each column is a line of the table below: how its cell is made, and how it
 * shows an item; a cell shows its item again when that says it changed. */
#include "app/records/record-table.h"

#include <glib/gi18n.h>

#include "app/records/mark-shapes.h"
#include "app/records/spare-label.h"

/* What a cell's list item remembers. */
#define COLUMN_KEY "sw-column"

struct _SwRecordTable
{
  GtkWidget parent_instance;

  /* Owned */
  SwRecordList *list;
  GtkMultiSelection *selection;

  /* Borrowed: children */
  GtkWidget *scroller;
  GtkColumnView *view;
  GtkColumnViewColumn *checks;
};

enum
{
  SIGNAL_ACTIVATED,
  SIGNAL_CHOSEN_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwRecordTable, sw_record_table, GTK_TYPE_WIDGET)

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
set_label (GtkWidget *label, SwRecordItem *item, const char *text)
{
  gtk_label_set_text (GTK_LABEL (label), text);
  gtk_widget_set_tooltip_text (label, *text != '\0' ? text : NULL);
  if ((sw_record_item_get_marks (item) & SW_MARK_VOIDED) != 0)
    gtk_widget_add_css_class (label, "sw-void");
  else
    gtk_widget_remove_css_class (label, "sw-void");
}

static GtkWidget *
make_when (void)
{
  return make_label (NULL, 13);
}

static void
show_when (GtkWidget *cell, SwRecordItem *item)
{
  set_label (cell, item, sw_record_item_get_when (item));
}

static GtkWidget *
make_machine (void)
{
  return make_label ("sw-bold", 5);
}

static void
show_machine (GtkWidget *cell, SwRecordItem *item)
{
  set_label (cell, item, sw_record_item_get_machine (item));
}

static GtkWidget *
make_what (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_box_append (GTK_BOX (box), sw_verdict_new (SW_VERDICT_UNKNOWN, 12));
  gtk_box_append (GTK_BOX (box), make_label ("sw-bold", 8));
  gtk_box_append (GTK_BOX (box), sw_spare_label_new ("sw-dim"));
  return box;
}

static void
show_what (GtkWidget *cell, SwRecordItem *item)
{
  GtkWidget *mark = gtk_widget_get_first_child (cell);
  SwVerdictKind verdict = sw_record_item_get_verdict (item);

  gtk_widget_set_visible (mark, verdict != SW_N_VERDICT_KINDS);
  if (verdict != SW_N_VERDICT_KINDS)
    sw_verdict_set_kind (SW_VERDICT (mark), verdict);
  set_label (gtk_widget_get_next_sibling (mark), item, sw_record_item_get_what (item));
  set_label (sw_spare_label_get_label (SW_SPARE_LABEL (gtk_widget_get_last_child (cell))), item,
             sw_record_item_get_detail (item));
}

static GtkWidget *
make_person (void)
{
  return make_label ("sw-dim", 4);
}

static void
show_person (GtkWidget *cell, SwRecordItem *item)
{
  set_label (cell, item, sw_record_item_get_person (item));
}

static GtkWidget *
make_state (void)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  GtkWidget *words = make_label (NULL, 9);

  gtk_box_append (GTK_BOX (box), sw_mark_shapes_new ());
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (box), words);
  return box;
}

static void
show_state (GtkWidget *cell, SwRecordItem *item)
{
  GtkWidget *words = gtk_widget_get_last_child (cell);
  const char *text = sw_record_item_get_state (item);

  sw_mark_shapes_set (SW_MARK_SHAPES (gtk_widget_get_first_child (cell)),
                      sw_record_item_get_marks (item));
  gtk_label_set_text (GTK_LABEL (words), text);
  gtk_widget_set_tooltip_text (words, *text != '\0' ? text : NULL);
}

typedef struct
{
  const char *title;
  GtkWidget *(*make) (void);
  void (*show) (GtkWidget *cell, SwRecordItem *item);
  gboolean expand;
  gboolean (*has) (int kind); /* NULL: every kind has it */
} Column;

static gboolean
has_machine (int kind)
{
  return kind != SW_KIND_JOURNAL && sw_kind_has_machine (kind);
}

static gboolean
has_state (int kind)
{
  return kind != SW_KIND_JOURNAL;
}

/* Translators: titles of the columns of a list of records. */
static const Column columns[] = {
  { NC_ ("column", "When"), make_when, show_when, FALSE, NULL },
  { NC_ ("column", "Machine"), make_machine, show_machine, FALSE, has_machine },
  { NC_ ("column", "What"), make_what, show_what, TRUE, NULL },
  { NC_ ("column", "Person"), make_person, show_person, FALSE, NULL },
  { NC_ ("column", "State"), make_state, show_state, FALSE, has_state },
};

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  const Column *column = data;

  g_object_set_data (G_OBJECT (item), COLUMN_KEY, data);
  gtk_list_item_set_child (item, column->make ());
}

/* Shows the item of a cell; also when it says it changed. */
static void
show_cell (GtkListItem *item)
{
  const Column *column = g_object_get_data (G_OBJECT (item), COLUMN_KEY);

  column->show (gtk_list_item_get_child (item), gtk_list_item_get_item (item));
}

static void
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  show_cell (item);
  g_signal_connect_swapped (gtk_list_item_get_item (item), "changed", G_CALLBACK (show_cell), item);
}

static void
unbind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  g_signal_handlers_disconnect_by_func (gtk_list_item_get_item (item), show_cell, item);
}

static void
add_columns (SwRecordTable *self, const SwWording *wording)
{
  for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
    {
      GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
      const char *title = sw_trc (wording, "column", columns[i].title);

      g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), (gpointer)&columns[i]);
      g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), NULL);
      g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), NULL);
      g_autoptr (GtkColumnViewColumn) column = gtk_column_view_column_new (title, factory);
      gtk_column_view_column_set_expand (column, columns[i].expand);
      gtk_column_view_append_column (self->view, column);
    }
}

/* The ticks are the first column of the view, those of the table follow. */
static void
show_columns (SwRecordTable *self, int kind)
{
  GListModel *shown = gtk_column_view_get_columns (self->view);

  gtk_column_view_column_set_visible (self->checks, kind == SW_TABLE_TITRATION);
  for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
    {
      g_autoptr (GtkColumnViewColumn) column = g_list_model_get_item (shown, i + 1);
      gtk_column_view_column_set_visible (column, columns[i].has == NULL || columns[i].has (kind));
    }
}

/* ---- choosing by a tick ---- */

static void
ticked_cb (GtkCheckButton *check, GtkListItem *item)
{
  SwRecordTable *self = g_object_get_data (G_OBJECT (item), COLUMN_KEY);
  GtkSelectionModel *model = GTK_SELECTION_MODEL (self->selection);
  guint position = gtk_list_item_get_position (item);
  gboolean on = gtk_check_button_get_active (check);

  if (on == gtk_list_item_get_selected (item))
    return;
  if (on)
    gtk_selection_model_select_item (model, position, FALSE);
  else
    gtk_selection_model_unselect_item (model, position);
}

static void
selected_cb (GtkListItem *item, GParamSpec *pspec, GtkCheckButton *check)
{
  gtk_check_button_set_active (check, gtk_list_item_get_selected (item));
}

static void
setup_check_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwRecordTable *self)
{
  GtkWidget *check = gtk_check_button_new ();

  /* The row has the keyboard's focus; Ctrl and Space tick it there. */
  gtk_widget_set_focusable (check, FALSE);
  g_object_set_data (G_OBJECT (item), COLUMN_KEY, self);
  g_signal_connect_object (check, "toggled", G_CALLBACK (ticked_cb), item, 0);
  g_signal_connect_object (item, "notify::selected", G_CALLBACK (selected_cb), check, 0);
  gtk_list_item_set_child (item, check);
}

static void
bind_check_cb (GtkSignalListItemFactory *factory, GtkListItem *item, SwRecordTable *self)
{
  gtk_check_button_set_active (GTK_CHECK_BUTTON (gtk_list_item_get_child (item)),
                               gtk_list_item_get_selected (item));
}

/* A column of ticks, for those who cannot hold a key and press at once. */
static void
add_checks (SwRecordTable *self)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect_object (factory, "setup", G_CALLBACK (setup_check_cb), self, 0);
  g_signal_connect_object (factory, "bind", G_CALLBACK (bind_check_cb), self, 0);
  self->checks = gtk_column_view_column_new ("", factory);
  gtk_column_view_append_column (self->view, self->checks);
  g_object_unref (self->checks);
}

/* ---- class ---- */

static void
activate_cb (GtkColumnView *view, guint position, SwRecordTable *self)
{
  gint64 id = sw_record_list_get_id (self->list, position);

  if (id != 0)
    g_signal_emit (self, signals[SIGNAL_ACTIVATED], 0, id);
}

static void
selection_changed_cb (SwRecordTable *self)
{
  g_signal_emit (self, signals[SIGNAL_CHOSEN_CHANGED], 0);
}

static gboolean
sw_record_table_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_RECORD_TABLE (widget)->view));
}

static void
sw_record_table_dispose (GObject *object)
{
  SwRecordTable *self = SW_RECORD_TABLE (object);

  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  g_clear_object (&self->selection);
  g_clear_object (&self->list);
  G_OBJECT_CLASS (sw_record_table_parent_class)->dispose (object);
}

static void
sw_record_table_class_init (SwRecordTableClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_record_table_dispose;
  widget_class->grab_focus = sw_record_table_grab_focus;
  signals[SIGNAL_ACTIVATED] = g_signal_new ("activated", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                            NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
  signals[SIGNAL_CHOSEN_CHANGED] = g_signal_new ("chosen-changed", type, G_SIGNAL_RUN_LAST, 0, NULL,
                                                 NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_record_table_init (SwRecordTable *self)
{
  self->scroller = gtk_scrolled_window_new ();
  self->view = GTK_COLUMN_VIEW (gtk_column_view_new (NULL));
  gtk_column_view_set_show_row_separators (self->view, TRUE);
  gtk_column_view_set_enable_rubberband (self->view, FALSE);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), GTK_WIDGET (self->view));
  gtk_widget_add_css_class (self->scroller, "sw-card");
  gtk_widget_add_css_class (self->scroller, "sw-list-card");
  gtk_widget_set_vexpand (self->scroller, TRUE);
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));
  g_signal_connect_object (self->view, "activate", G_CALLBACK (activate_cb), self, 0);
}

/* ---- public ---- */

void
sw_record_table_set_context (SwRecordTable *self, SwContext *context)
{
  g_return_if_fail (SW_IS_RECORD_TABLE (self) && self->list == NULL);

  const SwWording *wording = sw_context_get_wording (context);
  add_checks (self);
  add_columns (self, wording);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->view), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  sw_trc (wording, "page", "Records"), -1);
  self->list = sw_record_list_new (context);
  self->selection = gtk_multi_selection_new (G_LIST_MODEL (g_object_ref (self->list)));
  g_signal_connect_object (self->selection, "selection-changed", G_CALLBACK (selection_changed_cb),
                           self, G_CONNECT_SWAPPED);
  gtk_column_view_set_model (self->view, GTK_SELECTION_MODEL (self->selection));
}

gboolean
sw_record_table_ask (SwRecordTable *self, int kind, const SwBrowseFilter *filter, GError **error)
{
  g_return_val_if_fail (SW_IS_RECORD_TABLE (self) && self->list != NULL, FALSE);

  show_columns (self, kind);
  gboolean asked = sw_record_list_ask (self->list, kind, filter, error);
  g_signal_emit (self, signals[SIGNAL_CHOSEN_CHANGED], 0);
  return asked;
}

SwRecordList *
sw_record_table_get_list (SwRecordTable *self)
{
  g_return_val_if_fail (SW_IS_RECORD_TABLE (self), NULL);
  return self->list;
}

GArray *
sw_record_table_dup_chosen (SwRecordTable *self, guint limit)
{
  g_return_val_if_fail (SW_IS_RECORD_TABLE (self), NULL);

  GArray *ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  g_autoptr (GtkBitset) chosen
      = gtk_selection_model_get_selection (GTK_SELECTION_MODEL (self->selection));
  GtkBitsetIter iter;
  guint position;

  for (gboolean more = gtk_bitset_iter_init_first (&iter, chosen, &position);
       more && (limit == 0 || ids->len < limit); more = gtk_bitset_iter_next (&iter, &position))
    {
      gint64 id = sw_record_list_get_id (self->list, position);
      g_array_append_val (ids, id);
    }
  return ids;
}

guint
sw_record_table_count_chosen (SwRecordTable *self)
{
  g_return_val_if_fail (SW_IS_RECORD_TABLE (self), 0);

  g_autoptr (GtkBitset) chosen
      = gtk_selection_model_get_selection (GTK_SELECTION_MODEL (self->selection));
  return (guint)gtk_bitset_get_size (chosen);
}

void
sw_record_table_choose (SwRecordTable *self, gint64 id)
{
  g_return_if_fail (SW_IS_RECORD_TABLE (self));

  guint position = id != 0 ? sw_record_list_find (self->list, id) : G_MAXUINT;
  if (position == G_MAXUINT)
    {
      gtk_selection_model_unselect_all (GTK_SELECTION_MODEL (self->selection));
      return;
    }
  gtk_selection_model_select_item (GTK_SELECTION_MODEL (self->selection), position, TRUE);
  gtk_widget_activate_action (gtk_widget_get_last_child (GTK_WIDGET (self->view)),
                              "list.scroll-to-item", "u", position);
}
