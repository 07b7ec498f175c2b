/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Records page in every look; the pictures are for eyes, the drawing and the size are the test.
 */
#include "app/theme.h"
#include "tests/app/busy-plant.h"
#include "tests/app/snapshot.h"

/* Large text: the desktop's text scale reaches the toolkit as a higher resolution, in 1024ths. */
static void
set_dpi (int dpi)
{
  g_object_set (gtk_settings_get_default (), "gtk-xft-dpi", dpi * 1024, NULL);
}

static gint64
find_test_with_dose (BusyPlant *plant)
{
  g_autoptr (SwDoseRow) dose
      = sw_dose_row_load (sw_context_get_store (plant->context), plant->dose, NULL);

  return dose->titration;
}

/* The form of the record on screen, as the button opens it. */
static void
open_form (SwWindow *window)
{
  GtkWidget *amend = sw_find_widget (GTK_WIDGET (window), GTK_TYPE_BUTTON, "amend");

  g_assert_true (gtk_widget_is_sensitive (amend));
  g_signal_emit_by_name (amend, "clicked");
}

static void
take_picture (SwWindow *window, const char *what, const char *look)
{
  g_autofree char *name = g_strconcat ("records-", what, "-", look, NULL);

  sw_snapshot (GTK_WIDGET (window), name);
}

static void
test_looks (void)
{
  static const struct
  {
    const char *name;
    const char *language;
    int width, height;
    gboolean dark;
    gboolean contrast;
    int dpi;
  } looks[] = {
    { "small-light", "en", 1024, 600, FALSE, FALSE, 96 },
    { "small-dark", "en", 1024, 600, TRUE, FALSE, 96 },
    { "large-light", "en", 1280, 900, FALSE, FALSE, 96 },
    { "small-long", "xx", 1024, 600, FALSE, FALSE, 96 },
    { "contrast-dark", "en", 1280, 900, TRUE, TRUE, 96 },
    { "large-text", "xx", 1280, 900, FALSE, FALSE, 144 },
    { "right-to-left", "xr", 1024, 600, FALSE, FALSE, 96 },
    { "german", "de", 1024, 600, FALSE, FALSE, 96 },
  };
  g_autoptr (BusyPlant) plant = busy_plant_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (looks); i++)
    {
      gtk_widget_set_default_direction (g_str_equal (looks[i].language, "xr") ? GTK_TEXT_DIR_RTL
                                                                              : GTK_TEXT_DIR_LTR);
      SwWindow *window = busy_plant_open_window (plant, looks[i].language, looks[i].width,
                                                 looks[i].height, looks[i].dark);
      sw_theme_force (looks[i].dark ? SW_SCHEME_DARK : SW_SCHEME_LIGHT, looks[i].contrast);
      set_dpi (looks[i].dpi);
      sw_window_show_records (window, NULL);
      take_picture (window, "list", looks[i].name);
      sw_window_show_record (window, SW_TABLE_TITRATION, find_test_with_dose (plant));
      take_picture (window, "test", looks[i].name);
      sw_window_show_record (window, SW_TABLE_DOSE, plant->dose);
      take_picture (window, "dose", looks[i].name);
      open_form (window);
      take_picture (window, "amend", looks[i].name);
      g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, looks[i].width);
      g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, looks[i].height);
      busy_plant_close_window (plant);
    }
  set_dpi (96);
  gtk_widget_set_default_direction (GTK_TEXT_DIR_LTR);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  sw_wording_init (NULL);
  g_test_add_func ("/app/records/looks", test_looks);
  return g_test_run ();
}
