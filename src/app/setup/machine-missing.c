/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a machine still lacks. */
#include "app/setup/machine-missing.h"

#include "app/widgets/verdict.h"
#include "workflow/setup.h"

struct _SwMachineMissing
{
  GtkWidget parent_instance;

  SwContext *context; /* Owned */
  GtkWidget *card;    /* Borrowed: the child */
  gint64 neutraliser; /* of the machine shown; 0 = none */
};

enum
{
  SIGNAL_GO_THERE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwMachineMissing, sw_machine_missing, GTK_TYPE_WIDGET)

/* Which record the form of another section shows. */
typedef enum
{
  RECORD_NEW,
  RECORD_NEUTRALISER
} Record;

typedef struct
{
  SwFactCode code;
  const char *section; /* "" = the machine's own form */
  const char *field;
  Record record;
} Place;

static const Place places[] = {
  { SW_FACT_NO_DOSE_PRODUCT, "", "neutraliser", RECORD_NEW },
  { SW_FACT_NO_DOSE_CAUSTIC_PRODUCT, "", "neutraliser", RECORD_NEW },
  { SW_FACT_NO_DOSE_PLACE, "", "place", RECORD_NEW },
  { SW_FACT_NO_DOSE_CIRCULATION, "", "circulation", RECORD_NEW },
  { SW_FACT_NO_DOSE_JUG, "", "graduation", RECORD_NEW },
  { SW_FACT_NO_DOSE_VOLUME, "", "compartments", RECORD_NEW },
  { SW_FACT_NO_DOSE_POINT, "", "points", RECORD_NEW },
  { SW_FACT_NO_PLAN, "", "plans", RECORD_NEW },
  { SW_FACT_FAMILY_REFUSED, "", "plans", RECORD_NEW },
  { SW_FACT_MACHINE_RETIRED, "", "service", RECORD_NEW },
  { SW_FACT_NO_DOSE_LIMITS, "products", "limit-each", RECORD_NEUTRALISER },
  { SW_FACT_NO_DOSE_STRENGTH, "products", "strength", RECORD_NEUTRALISER },
  { SW_FACT_CALIBRATION_MISSING, "droppers", "product", RECORD_NEW },
  { SW_FACT_NO_LOT, "lots", "product", RECORD_NEW },
};

static const Place *
find_place (SwFactCode code)
{
  for (gsize i = 0; i < G_N_ELEMENTS (places); i++)
    if (places[i].code == code)
      return &places[i];
  return NULL;
}

static void
go_cb (GtkWidget *button, SwMachineMissing *self)
{
  const Place *place = g_object_get_data (G_OBJECT (button), "place");
  gint64 id = place->record == RECORD_NEUTRALISER ? self->neutraliser : 0;

  g_signal_emit (self, signals[SIGNAL_GO_THERE], 0, place->section, id, place->field);
}

static GtkWidget *
build_label (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  return label;
}

static void
add_line (SwMachineMissing *self, const SwFact *fact)
{
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autofree char *words = sw_say_fact (wording, fact);
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  const Place *place = find_place (fact->code);

  gtk_box_append (GTK_BOX (line), sw_verdict_new (SW_VERDICT_UNKNOWN, 16));
  gtk_box_append (GTK_BOX (line), build_label (words));
  if (place != NULL)
    {
      GtkWidget *button = gtk_button_new_with_label (sw_tr (wording, "Go There"));

      g_object_set_data (G_OBJECT (button), "place", (gpointer)place);
      gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
      /* The words beside it say where "there" is. */
      gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                      words, -1);
      g_signal_connect_object (button, "clicked", G_CALLBACK (go_cb), self, 0);
      gtk_box_append (GTK_BOX (line), button);
    }
  gtk_box_append (GTK_BOX (self->card), line);
}

static void
add_ready (SwMachineMissing *self)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);

  gtk_box_append (GTK_BOX (line), sw_verdict_new (SW_VERDICT_PASSED, 16));
  gtk_box_append (
      GTK_BOX (line),
      build_label (sw_tr (sw_context_get_wording (self->context),
                          "Nothing is missing: this machine can be tested and dosed.")));
  gtk_box_append (GTK_BOX (self->card), line);
}

static void
add_title (SwMachineMissing *self)
{
  GtkWidget *title = build_label (sw_tr (sw_context_get_wording (self->context),
                                         "Still missing before it can be tested and dosed"));

  gtk_widget_add_css_class (title, "sw-strong");
  gtk_box_append (GTK_BOX (self->card), title);
}

static void
empty_card (SwMachineMissing *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->card)) != NULL)
    gtk_box_remove (GTK_BOX (self->card), child);
}

static void
sw_machine_missing_dispose (GObject *object)
{
  SwMachineMissing *self = SW_MACHINE_MISSING (object);

  g_clear_pointer (&self->card, gtk_widget_unparent);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_machine_missing_parent_class)->dispose (object);
}

static void
sw_machine_missing_class_init (SwMachineMissingClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = sw_machine_missing_dispose;
  signals[SIGNAL_GO_THERE]
      = g_signal_new ("go-there", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                      G_TYPE_NONE, 3, G_TYPE_STRING, G_TYPE_INT64, G_TYPE_STRING);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
sw_machine_missing_init (SwMachineMissing *self)
{
  self->card = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_add_css_class (self->card, "sw-card");
  gtk_widget_add_css_class (self->card, "sw-slim");
  gtk_widget_set_parent (self->card, GTK_WIDGET (self));
}

GtkWidget *
sw_machine_missing_new (SwContext *context)
{
  SwMachineMissing *self = g_object_new (SW_TYPE_MACHINE_MISSING, "name", "missing", NULL);

  self->context = g_object_ref (context);
  sw_machine_missing_show (self, 0);
  return GTK_WIDGET (self);
}

void
sw_machine_missing_show (SwMachineMissing *self, gint64 machine)
{
  g_autoptr (GArray) facts = NULL;
  g_autoptr (SwMachine) row = NULL;
  SwStore *store;

  g_return_if_fail (SW_IS_MACHINE_MISSING (self));
  store = sw_context_get_store (self->context);
  facts = machine != 0 ? sw_setup_unready (store, machine, NULL) : NULL;
  gtk_widget_set_visible (GTK_WIDGET (self), facts != NULL);
  if (facts == NULL)
    return;
  row = sw_machine_load (store, machine, NULL);
  self->neutraliser = row != NULL ? row->neutraliser : 0;
  empty_card (self);
  if (facts->len == 0)
    add_ready (self);
  else
    add_title (self);
  for (guint i = 0; i < facts->len; i++)
    add_line (self, &g_array_index (facts, SwFact, i));
}
