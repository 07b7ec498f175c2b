/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether what was answered in the box is right: each mistake is said at its field. */
#include "app/sign/sign-box-private.h"

#include "app/plant-words.h"

static const SwWording *
get_wording (SwSignBox *self)
{
  return sw_context_get_wording (self->context);
}

static SwStore *
get_store (SwSignBox *self)
{
  return sw_context_get_store (self->context);
}

/* An error that is not about what was typed. */
static void
show_error (SwSignBox *self, const GError *error)
{
  g_autofree char *words = sw_plant_say_error (get_wording (self), error);

  sw_sign_box_show_trouble (self, words);
}

static gboolean
has_right (SwSignBox *self, const SwSigner *signer)
{
  g_autoptr (GError) error = NULL;

  if (self->signs_in || sw_right_check_signer (get_store (self), signer, self->right, &error))
    return TRUE;
  show_error (self, error);
  return FALSE;
}

static gboolean
check_initials (SwSignBox *self, SwSigner *signer)
{
  g_autofree char *typed = g_strstrip (g_strdup (sw_form_row_get_text (self->initials)));
  g_autofree char *left = g_utf8_casefold (typed, -1);
  g_autofree char *right = g_utf8_casefold (self->person->initials, -1);

  *signer = (SwSigner){ self->person->record.id, SW_IDENTIFIED_SELECTED };
  if (g_str_equal (left, right))
    return TRUE;
  g_autofree char *words = sw_say_wrong_initials (get_wording (self), typed, self->person->name);
  sw_form_row_set_error (self->initials, words);
  gtk_widget_grab_focus (GTK_WIDGET (self->initials));
  return FALSE;
}

static gboolean
check_secret (SwSignBox *self, SwSigner *signer)
{
  const char *text = sw_secret_row_get_text (self->secret);
  gint64 person = self->person->record.id;
  g_autoptr (GError) error = NULL;

  if (sw_secret_row_is_waiting (self->secret))
    return FALSE;
  if (*text == '\0')
    sw_secret_row_set_error (self->secret,
                             sw_say_sign_word (get_wording (self), SW_SIGN_WORD_TYPE_SECRET));
  else if ((self->signs_in ? sw_sign_in : sw_sign_again) (get_store (self), person, text, signer,
                                                          &error))
    return TRUE;
  else
    sw_secret_row_refuse (self->secret, self->context, person, error);
  gtk_widget_grab_focus (GTK_WIDGET (self->secret));
  return FALSE;
}

static gboolean
check_answer (SwSignBox *self, SwSigner *signer)
{
  switch (self->known)
    {
    case SW_KNOWN_SECRET:
      return check_secret (self, signer);
    case SW_KNOWN_NAME:
      return check_initials (self, signer);
    case SW_KNOWN_INVENTED:
      *signer = (SwSigner){ self->person->record.id, SW_IDENTIFIED_DEMO };
      return TRUE;
    case SW_KNOWN_NO_SECRET:
    case SW_N_KNOWN:
    default:
      return FALSE;
    }
}

gboolean
sw_sign_box_check (SwSignBox *self, SwSigner *signer)
{
  return check_answer (self, signer) && has_right (self, signer);
}
