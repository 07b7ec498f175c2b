/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Marks and cautions: each shape is another one, each caution defers. */
#include "app/widgets/caution.h"
#include "app/widgets/verdict.h"

#include "support/support.h"
#include "tests/app/snapshot.h"

static SwWording *wording;

/* What a mark looks like without its colour: its bytes as a mask of inked pixels. */
static GBytes *
draw_mask (SwVerdictKind kind)
{
  GtkWidget *mark = sw_verdict_new (kind, 48);
  GtkWindow *window = sw_snapshot_window (mark, 48, 48, FALSE);
  g_autoptr (GdkPaintable) paintable = gtk_widget_paintable_new (mark);
  GtkSnapshot *snapshot = gtk_snapshot_new ();

  gdk_paintable_snapshot (paintable, snapshot, 48, 48);
  g_autoptr (GskRenderNode) node = gtk_snapshot_free_to_node (snapshot);
  g_autoptr (GdkTexture) texture = gsk_renderer_render_texture (
      gtk_native_get_renderer (GTK_NATIVE (window)), node, &GRAPHENE_RECT_INIT (0, 0, 48, 48));
  gsize stride = 48 * 4;
  guchar *pixels = g_malloc0 (stride * 48);
  gdk_texture_download (texture, pixels, stride);
  for (gsize i = 0; i < stride * 48; i += 4)
    {
      guchar inked = pixels[i + 3] > 127; /* alpha is the last byte of a little-endian pixel */
      memset (pixels + i, inked, 4);
    }
  gtk_window_destroy (window);
  return g_bytes_new_take (pixels, stride * 48);
}

/* No colour stands alone: with all ink black, no two shapes are the same. */
static void
test_shapes_differ (void)
{
  g_autoptr (GPtrArray) masks = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);

  for (int kind = 0; kind < SW_N_VERDICT_KINDS; kind++)
    {
      g_ptr_array_add (masks, draw_mask ((SwVerdictKind)kind));
      const guchar *pixels = g_bytes_get_data (masks->pdata[kind], NULL);
      gsize inked = 0;
      for (gsize i = 0; i < 48 * 48; i++)
        inked += pixels[i * 4];
      g_assert_cmpuint (inked, >, 100);
      for (int other = 0; other < kind; other++)
        g_assert_false (g_bytes_equal (masks->pdata[kind], masks->pdata[other]));
    }
}

static void
test_meanings (void)
{
  g_assert_cmpint (sw_verdict_of_outcome (SW_OUTCOME_ACID_FOUND), ==, SW_VERDICT_ACID);
  g_assert_cmpint (sw_verdict_of_outcome (SW_OUTCOME_PASSED), ==, SW_VERDICT_PASSED);
  g_assert_cmpint (sw_verdict_of_outcome (SW_OUTCOME_OVER_RANGE), ==, SW_VERDICT_OVER_RANGE);
  g_assert_cmpint (sw_verdict_of_outcome (SW_OUTCOME_OPEN), ==, SW_VERDICT_UNKNOWN);
  g_assert_cmpint (sw_verdict_of_field (SW_FIELD_BETWEEN), ==, SW_VERDICT_UNKNOWN);
  g_assert_cmpint (sw_verdict_of_field (SW_FIELD_ALKALINE), ==, SW_VERDICT_ALKALINE);
  g_assert_cmpint (sw_verdict_of_state (SW_FACT_STATE_RETEST_DUE), ==, SW_VERDICT_ACID);
  g_assert_cmpint (sw_verdict_of_state (SW_FACT_STATE_NEVER_TESTED), ==, SW_VERDICT_UNKNOWN);
}

static void
test_caution (gconstpointer data)
{
  SwCaution caution = (SwCaution)GPOINTER_TO_INT (data);
  GtkWidget *bar = sw_caution_bar_new ();
  GtkWindow *window = sw_snapshot_window (bar, 720, 120, caution % 2 == 1);

  sw_caution_bar_set (SW_CAUTION_BAR (bar), wording, caution);
  sw_caution_bar_set_extra (SW_CAUTION_BAR (bar), "A text of the method's own.");
  g_assert_nonnull (sw_find_text (bar, sw_say_caution (wording, caution)));
  g_assert_nonnull (sw_find_text (bar, "A text of the method's own."));
  g_autofree char *text = sw_visible_text (bar);
  g_assert_nonnull (strstr (text, sw_say_caution (wording, SW_CAUTION_DEFER)));
  g_autofree char *name = g_strdup_printf ("caution-%d", (int)caution);
  sw_snapshot (GTK_WIDGET (window), name);
  sw_caution_bar_set_extra (SW_CAUTION_BAR (bar), NULL);
  g_assert_null (sw_find_text (bar, "A text of the method's own."));
  gtk_window_destroy (window);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  wording = sw_wording_new ("en", "Europe/Berlin");
  g_test_add_func ("/app/widgets/shapes differ", test_shapes_differ);
  g_test_add_func ("/app/widgets/meanings", test_meanings);
  for (int i = 0; i < SW_N_CAUTIONS; i++)
    {
      g_autofree char *path = g_strdup_printf ("/app/widgets/caution/%d", i);
      g_test_add_data_func (path, GINT_TO_POINTER (i), test_caution);
    }
  int result = g_test_run ();
  sw_wording_unref (wording);
  return result;
}
