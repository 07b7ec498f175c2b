/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A person in a list. */
#include "app/sign/person-row.h"

#include "workflow/rights.h"

#define PERSON_KEY "sw-person"

SwKnown
sw_person_known (SwContext *context, const SwPerson *person)
{
  g_return_val_if_fail (SW_IS_CONTEXT (context) && person != NULL, SW_KNOWN_NO_SECRET);

  if (sw_context_is_demo (context))
    return SW_KNOWN_INVENTED;
  if (person->secret != NULL)
    return SW_KNOWN_SECRET;
  if (person->role == SW_ROLE_TECHNICIAN && sw_right_name_only (sw_context_get_store (context)))
    return SW_KNOWN_NAME;
  return SW_KNOWN_NO_SECRET;
}

static GtkWidget *
append_label (GtkWidget *box, const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  gtk_box_append (GTK_BOX (box), label);
  return label;
}

GtkWidget *
sw_person_row_new (SwContext *context, const SwPerson *person, gboolean picked)
{
  const SwWording *wording = sw_context_get_wording (context);
  SwKnown known = sw_person_known (context, person);
  g_autofree char *sentence = sw_say_who_works (wording, person->name, known);
  GtkWidget *row = gtk_list_box_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *initials = append_label (box, person->initials, "sw-dim");
  GtkWidget *name = append_label (box, person->name, picked ? "sw-bold" : NULL);
  gint64 *id = g_new (gint64, 1);

  *id = person->record.id;
  gtk_label_set_width_chars (GTK_LABEL (initials), 4);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (name, TRUE);
  append_label (box, sw_say_known (wording, known), "sw-dim");
  if (picked)
    gtk_box_append (GTK_BOX (box), gtk_image_new_from_icon_name ("object-select-symbolic"));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, person->name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, sentence, -1);
  g_object_set_data_full (G_OBJECT (row), PERSON_KEY, id, g_free);
  return row;
}

gint64
sw_person_row_get_id (GtkListBoxRow *row)
{
  const gint64 *id = row != NULL ? g_object_get_data (G_OBJECT (row), PERSON_KEY) : NULL;

  return id != NULL ? *id : 0;
}
