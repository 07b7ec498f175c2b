/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A method as it is on file. */
#include "app/setup/method-view.h"

#include "app/setup/plant-choices.h"
#include "app/setup/strip-field.h"
#include "app/widgets/verdict.h"
#include "wording/sentence-setup.h"

struct _SwMethodView
{
  GtkWidget parent_instance;

  SwContext *context; /* Owned */
  GtkWidget *box;     /* Borrowed: the child */
};

G_DEFINE_FINAL_TYPE (SwMethodView, sw_method_view, GTK_TYPE_WIDGET)

static void
sw_method_view_dispose (GObject *object)
{
  SwMethodView *self = SW_METHOD_VIEW (object);

  g_clear_pointer (&self->box, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_method_view_parent_class)->dispose (object);
}

static void
sw_method_view_class_init (SwMethodViewClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = sw_method_view_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
sw_method_view_init (SwMethodView *self)
{
  self->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 18);
  gtk_widget_set_parent (self->box, GTK_WIDGET (self));
}

GtkWidget *
sw_method_view_new (SwContext *context)
{
  SwMethodView *self = g_object_new (SW_TYPE_METHOD_VIEW, "name", "method-view", NULL);

  self->context = g_object_ref (context);
  return GTK_WIDGET (self);
}

/* ---- parts ---- */

static void
add_label (GtkBox *box, const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (class != NULL)
    gtk_widget_add_css_class (label, class);
  gtk_box_append (box, label);
}

static void
add_fact (GtkBox *box, const SwWording *wording, SwQuantityName quantity, double value, SwUnit unit)
{
  g_autofree char *words = NULL;

  if (isnan (value))
    return;
  words = sw_say_method_fact (wording, quantity, value, unit);
  add_label (box, words, NULL);
}

void
sw_method_add_facts (GtkBox *box, const SwWording *wording, const SwMethodVersion *version)
{
  SwUnit step = version->burette ? SW_UNIT_ML : SW_UNIT_STEP;

  add_fact (box, wording, SW_QUANTITY_SAMPLE_VOLUME, version->sample.value, SW_UNIT_ML);
  add_fact (box, wording, SW_QUANTITY_WATER_VOLUME, version->water.value, SW_UNIT_ML);
  add_fact (box, wording, SW_QUANTITY_CAUSTIC, version->caustic_mmol, SW_UNIT_MMOL);
  add_fact (box, wording, SW_QUANTITY_SHAKE_TIME, version->shake_s, SW_UNIT_SECOND);
  add_fact (box, wording, SW_QUANTITY_WAIT_TIME, version->strip_wait_s, SW_UNIT_SECOND);
  add_fact (box, wording, SW_QUANTITY_MAXIMUM, version->maximum, step);
}

static void
add_products (SwMethodView *self, GtkBox *box, const SwMethodVersion *version)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autofree char *titrant = sw_choice_product (self->context, version->titrant);
  g_autofree char *caustic
      = version->caustic != 0 ? sw_choice_product (self->context, version->caustic) : NULL;
  g_autofree char *line = sw_say_method_line (wording, titrant, caustic);

  add_label (box, line, NULL);
  if (version->caustic != 0)
    add_label (box, sw_say_caustic_counts (wording, version->caustic_counts), "sw-dim");
}

static void
add_field (GtkBox *box, const SwWording *wording, const SwColourField *field)
{
  g_autofree char *words = sw_say_colour_field (wording, field->label, field->meaning);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  gtk_box_append (GTK_BOX (line), sw_strip_field_new (field->swatch));
  gtk_box_append (GTK_BOX (line), sw_verdict_new (sw_verdict_of_field (field->meaning), 18));
  add_label (GTK_BOX (line), words, NULL);
  gtk_box_append (box, line);
}

static gboolean
add_fields (SwMethodView *self, GtkBox *box, gint64 version, GError **error)
{
  SwStore *store = sw_context_get_store (self->context);
  g_autoptr (GArray) ids
      = sw_record_ids (store, SW_TABLE_COLOUR_FIELD, "method_version", version, error);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwColourField) field
          = sw_colour_field_load (store, g_array_index (ids, gint64, i), error);

      if (field == NULL)
        return FALSE;
      add_field (box, sw_context_get_wording (self->context), field);
    }
  return ids != NULL;
}

static void
add_texts (SwMethodView *self, GtkBox *box, gint64 version)
{
  static const char *const steps[] = { "draw", "prepare", "read", "caution" };
  const SwWording *wording = sw_context_get_wording (self->context);

  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      g_autofree char *text
          = sw_method_text_dup (sw_context_get_store (self->context), version, steps[i],
                                sw_wording_get_language (wording), NULL);

      if (text == NULL)
        continue;
      add_label (box, sw_say_method_step (wording, steps[i]), "sw-section");
      add_label (box, text, NULL);
    }
}

static gboolean
add_version (SwMethodView *self, gint64 id, GError **error)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autoptr (SwMethodVersion) version
      = sw_method_version_load (sw_context_get_store (self->context), id, error);
  g_autofree char *title = NULL;
  GtkWidget *card;

  if (version == NULL)
    return FALSE;
  title = sw_say_version (wording, version->version);
  card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_add_css_class (card, "sw-card");
  gtk_box_append (GTK_BOX (self->box), card);
  add_label (GTK_BOX (card), title, "sw-heading");
  add_products (self, GTK_BOX (card), version);
  sw_method_add_facts (GTK_BOX (card), wording, version);
  if (!add_fields (self, GTK_BOX (card), id, error))
    return FALSE;
  add_texts (self, GTK_BOX (card), id);
  return TRUE;
}

gboolean
sw_method_view_show (SwMethodView *self, gint64 method, GError **error)
{
  g_autoptr (GArray) ids = NULL;
  GtkWidget *child;

  g_return_val_if_fail (SW_IS_METHOD_VIEW (self), FALSE);
  while ((child = gtk_widget_get_first_child (self->box)) != NULL)
    gtk_box_remove (GTK_BOX (self->box), child);
  ids = sw_record_ids (sw_context_get_store (self->context), SW_TABLE_METHOD_VERSION, "method",
                       method, error);
  /* The newest first. */
  for (guint i = ids != NULL ? ids->len : 0; i-- > 0;)
    if (!add_version (self, g_array_index (ids, gint64, i), error))
      return FALSE;
  return ids != NULL;
}
