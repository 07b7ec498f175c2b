/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A grid of three columns, filled anew after each move: it never has more than some twenty lines.
 * Struck readings stay, struck out and with their word. */
#include "app/test/ladder.h"

#include "app/widgets/verdict.h"
#include "wording/sentence-test.h"

#define MARK_PX 16
#define ROW_SPACING_PX 6
#define COLUMN_SPACING_PX 12

struct _SwLadder
{
  GtkWidget parent_instance;

  GtkWidget *grid; /* Owned by the widget tree */
};

G_DEFINE_FINAL_TYPE (SwLadder, sw_ladder, GTK_TYPE_WIDGET)

static void
sw_ladder_dispose (GObject *object)
{
  g_clear_pointer (&SW_LADDER (object)->grid, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_ladder_parent_class)->dispose (object);
}

static void
sw_ladder_class_init (SwLadderClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_ladder_dispose;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "swladder");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LIST);
}

static void
sw_ladder_init (SwLadder *self)
{
  self->grid = gtk_grid_new ();
  gtk_grid_set_row_spacing (GTK_GRID (self->grid), ROW_SPACING_PX);
  gtk_grid_set_column_spacing (GTK_GRID (self->grid), COLUMN_SPACING_PX);
  gtk_widget_set_parent (self->grid, GTK_WIDGET (self));
}

/* What the method calls a field; NULL for "between two". */
static const char *
find_label (const SwGuidedTest *test, gint64 colour_field)
{
  GPtrArray *fields = sw_guided_test_get_fields (test);

  for (guint i = 0; i < fields->len; i++)
    {
      const SwColourField *field = g_ptr_array_index (fields, i);

      if (field->record.id == colour_field)
        return field->label;
    }
  return NULL;
}

static GtkWidget *
new_label (const char *text, const char *style, gboolean struck)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0F);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, style);
  if (struck)
    gtk_widget_add_css_class (label, "sw-struck");
  return label;
}

static void
attach_row (SwLadder *self,
            int row,
            SwVerdictKind kind,
            const char *steps,
            const char *words,
            gboolean struck)
{
  GtkGrid *grid = GTK_GRID (self->grid);
  GtkWidget *said = new_label (words, "sw-dim", struck);

  gtk_widget_set_hexpand (said, TRUE);
  gtk_grid_attach (grid, sw_verdict_new (kind, MARK_PX), 0, row, 1, 1);
  gtk_grid_attach (grid, new_label (steps, "sw-bold", struck), 1, row, 1, 1);
  gtk_grid_attach (grid, said, 2, row, 1, 1);
}

static void
attach_reading (SwLadder *self,
                int row,
                const SwWording *wording,
                const SwGuidedTest *test,
                const SwReadingRow *reading)
{
  gboolean burette = sw_guided_test_get_method (test)->burette;
  g_autofree char *steps = sw_step_count_format (wording, reading->total, burette);
  g_autofree char *words = sw_say_reading (wording, find_label (test, reading->colour_field),
                                           reading->meaning, reading->struck, reading->not_added);

  attach_row (self, row,
              reading->struck ? SW_VERDICT_UNKNOWN : sw_verdict_of_field (reading->meaning), steps,
              words, reading->struck);
}

void
sw_ladder_show (SwLadder *self,
                const SwWording *wording,
                const SwGuidedTest *test,
                gboolean waiting)
{
  GPtrArray *readings = sw_guided_test_get_readings (test);
  g_autofree char *steps = NULL;
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->grid)) != NULL)
    gtk_grid_remove (GTK_GRID (self->grid), child);
  for (guint i = 0; i < readings->len; i++)
    attach_reading (self, (int)i, wording, test, g_ptr_array_index (readings, i));
  if (!waiting)
    return;
  steps = sw_step_count_format (wording, sw_guided_test_get_total (test),
                                sw_guided_test_get_method (test)->burette);
  attach_row (self, (int)readings->len, SW_VERDICT_UNKNOWN, steps,
              sw_say_test_word (wording, SW_TEST_WORD_READ_NOW), FALSE);
}
