/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of a new plant. What is wrong is said at its field, all of it at once. */
#include "app/start/new-page.h"

#include <math.h>

#include "app/application.h"
#include "app/file-dialog.h"
#include "app/plant-words.h"
#include "app/sign/secret-row.h"
#include "app/start/new-plant.h"
#include "app/widgets/form-row.h"
#include "app/window.h"
#include "wording/sentence-sign.h"
#include "wording/sentence.h"
#include "workflow/sign-in.h"

struct _SwNewPage
{
  GtkWidget parent_instance;

  /* Template children */
  GtkWidget *layout;
  SwFormRow *site;
  SwFormRow *name;
  SwFormRow *initials;
  SwSecretRow *secret;
  SwSecretRow *again;
  GtkLabel *error;
};

static guint signal_back;

G_DEFINE_FINAL_TYPE (SwNewPage, sw_new_page, GTK_TYPE_WIDGET)

static GtkWindow *
get_window (SwNewPage *self)
{
  return GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));
}

static SwApplication *
get_application (SwNewPage *self)
{
  return SW_APPLICATION (gtk_window_get_application (get_window (self)));
}

static const SwWording *
get_wording (SwNewPage *self)
{
  return sw_application_get_wording (get_application (self));
}

/* An empty field is said at the field. */
static gboolean
check_filled (SwNewPage *self, SwFormRow *row, SwQuantityName quantity)
{
  g_autofree char *text = g_strstrip (g_strdup (sw_form_row_get_text (row)));
  const SwFault fault
      = { .code = SW_FAULT_MISSING, .quantity = quantity, .value = NAN, .low = NAN, .high = NAN };

  if (*text != '\0')
    return TRUE;
  g_autofree char *words = sw_say_fault (get_wording (self), &fault);
  sw_form_row_set_error (row, words);
  return FALSE;
}

static gboolean
check_secret (SwNewPage *self)
{
  const SwWording *wording = get_wording (self);
  const char *secret = sw_secret_row_get_text (self->secret);
  g_autoptr (GError) error = NULL;
  g_autofree char *words = NULL;

  if (!sw_secret_check (secret, &error))
    {
      words = sw_say_error (wording, error);
      sw_secret_row_set_error (self->secret, words);
    }
  else if (!g_str_equal (secret, sw_secret_row_get_text (self->again)))
    sw_secret_row_set_error (self->again, sw_say_sign_word (wording, SW_SIGN_WORD_NOT_THE_SAME));
  else
    return TRUE;
  return FALSE;
}

/* The first field of the page that is wrong, or NULL. */
static GtkWidget *
find_wrong (SwNewPage *self)
{
  gboolean site = check_filled (self, self->site, SW_QUANTITY_NAME);
  gboolean name = check_filled (self, self->name, SW_QUANTITY_NAME);
  gboolean initials = check_filled (self, self->initials, SW_QUANTITY_CODE);

  if (!check_secret (self) && site && name && initials)
    return GTK_WIDGET (sw_secret_row_get_error (self->secret) != NULL ? self->secret : self->again);
  if (site && name && initials)
    return NULL;
  return GTK_WIDGET (!site ? self->site : !name ? self->name : self->initials);
}

static void
show_error (SwNewPage *self, const GError *error)
{
  g_autofree char *words
      = error != NULL ? sw_plant_say_error (get_wording (self), error) : g_strdup ("");

  gtk_label_set_text (self->error, words);
  gtk_widget_set_visible (GTK_WIDGET (self->error), error != NULL);
}

static void
create_at (SwNewPage *self, const char *path)
{
  const SwNewPlant plant = { .site = sw_form_row_get_text (self->site),
                             .name = sw_form_row_get_text (self->name),
                             .initials = sw_form_row_get_text (self->initials),
                             .secret = sw_secret_row_get_text (self->secret) };
  g_autoptr (GError) error = NULL;
  SwSigner signer = { 0 };
  SwStore *store = sw_new_plant_create (path, &plant, &signer, &error);

  if (store == NULL)
    {
      show_error (self, error);
      return;
    }
  sw_secret_row_wipe (self->secret);
  sw_secret_row_wipe (self->again);
  SwWindow *window = sw_application_open_store (get_application (self), store);
  sw_context_set_signer (sw_window_get_context (window), &signer);
}

static void
place_chosen_cb (const char *path, gpointer data)
{
  g_autoptr (SwNewPage) self = data;

  /* The window may have been closed in the meantime. */
  if (path != NULL && gtk_widget_get_root (GTK_WIDGET (self)) != NULL)
    create_at (self, path);
}

static void
create_cb (GtkButton *button, SwNewPage *self)
{
  GtkWidget *wrong = find_wrong (self);

  show_error (self, NULL);
  if (wrong != NULL)
    {
      gtk_widget_grab_focus (wrong);
      return;
    }
  sw_file_dialog_save (get_window (self), get_wording (self), sw_form_row_get_text (self->site),
                       place_chosen_cb, g_object_ref (self));
}

static void
back_cb (GtkButton *button, SwNewPage *self)
{
  g_signal_emit (self, signal_back, 0);
}

static void
sw_new_page_dispose (GObject *object)
{
  SwNewPage *self = SW_NEW_PAGE (object);

  g_clear_pointer (&self->layout, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_new_page_parent_class)->dispose (object);
}

static void
sw_new_page_class_init (SwNewPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_new_page_dispose;
  signal_back = g_signal_new ("back", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                              NULL, G_TYPE_NONE, 0);
  g_type_ensure (SW_TYPE_FORM_ROW);
  g_type_ensure (SW_TYPE_SECRET_ROW);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/stillwarden/Stillwarden/ui/start/new-page.ui");
  gtk_widget_class_bind_template_child (widget_class, SwNewPage, layout);
  gtk_widget_class_bind_template_child (widget_class, SwNewPage, site);
  gtk_widget_class_bind_template_child (widget_class, SwNewPage, name);
  gtk_widget_class_bind_template_child (widget_class, SwNewPage, initials);
  gtk_widget_class_bind_template_child (widget_class, SwNewPage, secret);
  gtk_widget_class_bind_template_child (widget_class, SwNewPage, again);
  gtk_widget_class_bind_template_child (widget_class, SwNewPage, error);
  gtk_widget_class_bind_template_callback (widget_class, back_cb);
  gtk_widget_class_bind_template_callback (widget_class, create_cb);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
}

static void
sw_new_page_init (SwNewPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
sw_new_page_begin (SwNewPage *self)
{
  g_return_if_fail (SW_IS_NEW_PAGE (self));
  show_error (self, NULL);
  gtk_widget_grab_focus (GTK_WIDGET (self->site));
}
