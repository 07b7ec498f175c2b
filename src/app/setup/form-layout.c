/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which fields of a form are shown, and where. */
#include "app/setup/form-private.h"

const SwFormKindClass *
sw_form_class_of (const SwFormControl *control)
{
  return sw_form_kind_class (control->spec->kind);
}

SwFormControl *
sw_form_find_control (SwForm *self, const char *id)
{
  for (guint i = 0; i < self->n_specs; i++)
    if (g_strcmp0 (self->specs[i].id, id) == 0)
      return &self->controls[i];
  return NULL;
}

gboolean
sw_form_is_shown (SwForm *self, const SwFormSpec *spec)
{
  const SwFormControl *with;
  g_autofree char *fault_text = NULL;
  int value = 0;

  if (spec->shown_with == NULL)
    return TRUE;
  with = sw_form_find_control (self, spec->shown_with);
  g_return_val_if_fail (with != NULL && with->spec->kind == SW_FORM_WORD, TRUE);
  return sw_form_class_of (with)->save (with, &value, &fault_text)
         && (spec->shown_mask & SW_FORM_BIT (value)) != 0;
}

static void
place (SwForm *self, GtkWidget *child, int column, int row, int span)
{
  GtkLayoutManager *manager = gtk_widget_get_layout_manager (self->grid);
  GtkGridLayoutChild *at
      = GTK_GRID_LAYOUT_CHILD (gtk_layout_manager_get_layout_child (manager, child));

  gtk_grid_layout_child_set_column (at, column);
  gtk_grid_layout_child_set_row (at, row);
  gtk_grid_layout_child_set_column_span (at, span);
}

/* Rows flow from left to right; a heading and a wide field begin a line of their own. */
void
sw_form_lay_out (SwForm *self)
{
  int column = 0;
  int row = 0;

  for (guint i = 0; i < self->n_specs; i++)
    {
      const SwFormSpec *spec = &self->specs[i];
      GtkWidget *heading = g_object_get_data (G_OBJECT (self->controls[i].row), "heading");
      gboolean shown = sw_form_is_shown (self, spec);
      gboolean wide = spec->wide || self->columns == 1;

      gtk_widget_set_visible (self->controls[i].row, shown);
      if (heading != NULL)
        gtk_widget_set_visible (heading, shown);
      if (!shown)
        continue;
      if (column > 0 && (wide || heading != NULL || column == self->columns))
        {
          column = 0;
          row++;
        }
      if (heading != NULL)
        place (self, heading, 0, row++, self->columns);
      place (self, self->controls[i].row, column, row, wide ? self->columns : 1);
      column += wide ? self->columns : 1;
    }
}
