/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The swatch is the colour that the method's record names; shape and words say the same without it.
 */
#include "app/test/field-tile.h"

#include "app/test/swatch.h"
#include "app/widgets/verdict.h"
#include "wording/sentence-test.h"

struct _SwFieldTile
{
  GtkButton parent_instance;

  gint64 field;

  /* Template children */
  GtkLabel *key;
  SwSwatch *swatch;
  SwVerdict *shape;
  GtkLabel *word;
  GtkLabel *meaning;
};

G_DEFINE_FINAL_TYPE (SwFieldTile, sw_field_tile, GTK_TYPE_BUTTON)

static void
sw_field_tile_class_init (SwFieldTileClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (SW_TYPE_SWATCH);
  g_type_ensure (SW_TYPE_VERDICT);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/test/field-tile.ui");
  gtk_widget_class_bind_template_child (widget_class, SwFieldTile, key);
  gtk_widget_class_bind_template_child (widget_class, SwFieldTile, swatch);
  gtk_widget_class_bind_template_child (widget_class, SwFieldTile, shape);
  gtk_widget_class_bind_template_child (widget_class, SwFieldTile, word);
  gtk_widget_class_bind_template_child (widget_class, SwFieldTile, meaning);
}

static void
sw_field_tile_init (SwFieldTile *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
sw_field_tile_new (const SwWording *wording, const SwColourField *field, guint key)
{
  SwFieldTile *self = g_object_new (SW_TYPE_FIELD_TILE, NULL);
  g_autofree char *key_text = g_strdup_printf ("%u", key);
  g_autofree char *words = sw_say_reading (wording, field->label, field->meaning, FALSE, FALSE);

  self->field = field->record.id;
  sw_swatch_set (self->swatch, field->swatch);
  gtk_label_set_text (self->key, key_text);
  gtk_label_set_text (self->word, field->label);
  gtk_label_set_text (self->meaning, sw_say_field (wording, field->meaning));
  sw_verdict_set_kind (self->shape, sw_verdict_of_field (field->meaning));
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, words,
                                  GTK_ACCESSIBLE_PROPERTY_KEY_SHORTCUTS, key_text, -1);
  return GTK_WIDGET (self);
}

gint64
sw_field_tile_get_field (SwFieldTile *self)
{
  return self->field;
}
