/* SPDX-License-Identifier: GPL-3.0-or-later */
/* See verify-lines.h. */
#include "app/verify/verify-lines.h"

#include "app/verify/verify-words.h"
#include "wording/sentence-verify.h"
#include "wording/sentence.h"

/* Thousands of findings tell nobody more than these. */
#define MOST_SHOWN 100

static void
empty_box (GtkBox *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (box))) != NULL)
    gtk_box_remove (box, child);
}

void
sw_verify_lines_keep_digits (GtkLabel *label)
{
  g_autoptr (PangoAttrList) attributes = pango_attr_list_new ();

  pango_attr_list_insert (attributes, pango_attr_insert_hyphens_new (FALSE));
  gtk_label_set_attributes (label, attributes);
}

static void
append_line (GtkBox *box, const char *text, const char *css_class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  /* hashes have no place to break at */
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  sw_verify_lines_keep_digits (GTK_LABEL (label));
  gtk_widget_add_css_class (label, css_class);
  gtk_box_append (box, label);
}

/* What to do about finding @i, unless the next one asks for the same. */
static const char *
find_advice (SwContext *context, const GPtrArray *findings, guint i, guint n)
{
  const char *advice = sw_verify_say_advice (context, g_ptr_array_index (findings, i));
  const char *next
      = i + 1 < n ? sw_verify_say_advice (context, g_ptr_array_index (findings, i + 1)) : NULL;

  return g_strcmp0 (advice, next) != 0 ? advice : NULL;
}

void
sw_verify_lines_findings (GtkBox *box, SwContext *context, const GPtrArray *findings)
{
  const SwWording *wording = sw_context_get_wording (context);
  guint n = MIN (findings->len, MOST_SHOWN);

  empty_box (box);
  for (guint i = 0; i < n; i++)
    {
      const SwFinding *finding = g_ptr_array_index (findings, i);
      g_autofree char *words = sw_verify_say_finding (context, finding);
      const char *advice = find_advice (context, findings, i, n);

      append_line (box, words, "sw-body");
      if (advice != NULL)
        append_line (box, advice, "sw-bold");
    }
  if (findings->len > n)
    {
      gulong more = findings->len - n;
      g_autofree char *words = g_strdup_printf (
          sw_trn (wording, "%lu more is not shown.", "%lu more are not shown.", more), more);

      append_line (box, words, "sw-dim");
    }
}

void
sw_verify_lines_notes (GtkBox *box, SwContext *context, const GPtrArray *notes)
{
  empty_box (box);
  for (guint i = 0; i < MIN (notes->len, MOST_SHOWN); i++)
    {
      g_autofree char *words = sw_verify_say_note (context, g_ptr_array_index (notes, i));

      append_line (box, words, "sw-body");
    }
}

void
sw_verify_lines_limits (GtkBox *box, SwContext *context)
{
  const SwWording *wording = sw_context_get_wording (context);

  empty_box (box);
  for (guint i = 0; sw_say_verify_limit (wording, i) != NULL; i++)
    append_line (box, sw_say_verify_limit (wording, i), "sw-body");
}
