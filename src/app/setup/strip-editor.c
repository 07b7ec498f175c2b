/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the site's strips show.
 *
 * Invariant: lines[m] is the line of meaning m, or NULL; typed names and colours live in it until
 * another field of the same meaning takes its place, and then move over.
 */
#include "app/setup/strip-editor.h"

#include "app/setup/strip-field.h"
#include "app/widgets/form-row.h"
#include "app/widgets/verdict.h"
#include "wording/sentence-setup.h"

typedef struct
{
  GtkWidget *box;    /* Borrowed: in the list */
  GtkWidget *name;   /* Borrowed: SwFormRow */
  GtkWidget *colour; /* Borrowed: GtkColorButton */
  char *label;       /* Owned: as the template has it */
  char *swatch;      /* Owned: the same */
} Line;

struct _SwStripEditor
{
  GtkWidget parent_instance;

  SwContext *context; /* Owned */
  GtkWidget *list;    /* Borrowed: the child */
  Line *lines[SW_N_FIELDS];
};

G_DEFINE_FINAL_TYPE (SwStripEditor, sw_strip_editor, GTK_TYPE_WIDGET)

static void
free_line (Line *line)
{
  g_free (line->label);
  g_free (line->swatch);
  g_free (line);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Line, free_line)

/* ---- what a line holds ---- */

static const char *
get_name (const Line *line)
{
  return sw_form_row_get_text (SW_FORM_ROW (line->name));
}

static char *
dup_colour (const Line *line)
{
  GdkRGBA colour;

  gtk_color_chooser_get_rgba (GTK_COLOR_CHOOSER (line->colour), &colour);
  return sw_strip_field_format (&colour);
}

static void
put (Line *line, const char *label, const char *swatch)
{
  GdkRGBA colour;

  sw_form_row_set_text (SW_FORM_ROW (line->name), label);
  if (gdk_rgba_parse (&colour, swatch != NULL ? swatch : ""))
    gtk_color_chooser_set_rgba (GTK_COLOR_CHOOSER (line->colour), &colour);
}

static gboolean
is_line_changed (const Line *line)
{
  g_autofree char *colour = dup_colour (line);

  return g_strcmp0 (get_name (line), line->label) != 0
         || g_ascii_strcasecmp (colour, line->swatch) != 0;
}

/* ---- lines ---- */

static Line *
build_line (SwStripEditor *self, const SwColourField *field)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autofree char *title = sw_say_strip_row (wording, field->meaning);
  const char *choose = sw_tr (wording, "Choose the colour");
  Line *line = g_new0 (Line, 1);

  line->label = g_strdup (field->label != NULL ? field->label : "");
  line->swatch = g_strdup (field->swatch != NULL ? field->swatch : "");
  line->box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  line->name = sw_form_row_new (title, NULL, SW_UNIT_NONE);
  line->colour = gtk_color_button_new ();
  gtk_widget_set_hexpand (line->name, TRUE);
  gtk_widget_set_valign (line->colour, GTK_ALIGN_END);
  gtk_widget_set_tooltip_text (line->colour, choose);
  gtk_accessible_update_property (GTK_ACCESSIBLE (line->colour), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  choose, -1);
  gtk_box_append (GTK_BOX (line->box), sw_verdict_new (sw_verdict_of_field (field->meaning), 24));
  gtk_box_append (GTK_BOX (line->box), line->name);
  gtk_box_append (GTK_BOX (line->box), line->colour);
  put (line, line->label, line->swatch);
  return line;
}

/* Takes the widget off the list and gives the line up. (transfer full) */
static Line *
take_line (SwStripEditor *self, SwField meaning)
{
  Line *line = g_steal_pointer (&self->lines[meaning]);

  if (line != NULL)
    {
      g_object_ref (line->box);
      gtk_box_remove (GTK_BOX (self->list), line->box);
    }
  return line;
}

static void
drop_line (Line *line)
{
  if (line == NULL)
    return;
  g_object_unref (line->box);
  free_line (line);
}

static void
add_field (SwStripEditor *self, const SwColourField *field, const Line *typed)
{
  Line *line = build_line (self, field);

  if (typed != NULL && is_line_changed (typed))
    {
      g_autofree char *colour = dup_colour (typed);

      put (line, get_name (typed), colour);
    }
  self->lines[field->meaning] = line;
  gtk_box_append (GTK_BOX (self->list), line->box);
}

/* ---- class ---- */

static void
sw_strip_editor_dispose (GObject *object)
{
  SwStripEditor *self = SW_STRIP_EDITOR (object);

  for (int i = 0; i < SW_N_FIELDS; i++)
    g_clear_pointer (&self->lines[i], free_line);
  g_clear_pointer (&self->list, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_strip_editor_parent_class)->dispose (object);
}

static void
sw_strip_editor_class_init (SwStripEditorClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = sw_strip_editor_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
sw_strip_editor_init (SwStripEditor *self)
{
  self->list = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  gtk_widget_set_parent (self->list, GTK_WIDGET (self));
}

GtkWidget *
sw_strip_editor_new (SwContext *context)
{
  SwStripEditor *self = g_object_new (SW_TYPE_STRIP_EDITOR, "name", "strips", NULL);

  self->context = g_object_ref (context);
  return GTK_WIDGET (self);
}

void
sw_strip_editor_set_fields (SwStripEditor *self, GPtrArray *fields)
{
  Line *before[SW_N_FIELDS];

  g_return_if_fail (SW_IS_STRIP_EDITOR (self) && fields != NULL);
  for (guint i = 0; i < SW_N_FIELDS; i++)
    before[i] = take_line (self, (SwField)i);
  for (guint i = 0; i < fields->len; i++)
    {
      const SwColourField *field = g_ptr_array_index (fields, i);

      add_field (self, field, before[field->meaning]);
    }
  for (guint i = 0; i < SW_N_FIELDS; i++)
    drop_line (before[i]);
}

static gboolean
save_line (SwStripEditor *self, const Line *line, SwColourField *field)
{
  const SwFault missing = { .code = SW_FAULT_MISSING,
                            .quantity = SW_QUANTITY_NAME,
                            .value = NAN,
                            .low = -INFINITY,
                            .high = INFINITY };
  g_autofree char *label = g_strstrip (g_strdup (get_name (line)));
  g_autofree char *words = NULL;

  if (*label == '\0')
    {
      words = sw_say_fault (sw_context_get_wording (self->context), &missing);
      sw_form_row_set_error (SW_FORM_ROW (line->name), words);
      gtk_widget_grab_focus (line->name);
      return FALSE;
    }
  g_free (field->label);
  field->label = g_steal_pointer (&label);
  g_free (field->swatch);
  field->swatch = dup_colour (line);
  return TRUE;
}

gboolean
sw_strip_editor_save (SwStripEditor *self, GPtrArray *fields)
{
  g_return_val_if_fail (SW_IS_STRIP_EDITOR (self) && fields != NULL, FALSE);
  for (guint i = 0; i < fields->len; i++)
    {
      SwColourField *field = g_ptr_array_index (fields, i);
      const Line *line = self->lines[field->meaning];

      if (line != NULL && !save_line (self, line, field))
        return FALSE;
    }
  return TRUE;
}

gboolean
sw_strip_editor_is_changed (SwStripEditor *self)
{
  g_return_val_if_fail (SW_IS_STRIP_EDITOR (self), FALSE);
  for (int i = 0; i < SW_N_FIELDS; i++)
    if (self->lines[i] != NULL && is_line_changed (self->lines[i]))
      return TRUE;
  return FALSE;
}

void
sw_strip_editor_reset (SwStripEditor *self)
{
  g_return_if_fail (SW_IS_STRIP_EDITOR (self));
  for (int i = 0; i < SW_N_FIELDS; i++)
    if (self->lines[i] != NULL)
      put (self->lines[i], self->lines[i]->label, self->lines[i]->swatch);
}
