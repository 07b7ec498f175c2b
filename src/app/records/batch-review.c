/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One signature over many tests: sort out those that may be reviewed, ask, write, tell. */
#include "app/records/batch-review.h"

#include "app/plant-words.h"
#include "app/sign/sign-box.h"
#include "app/window.h"
#include "wording/sentence-list.h"
#include "workflow/review.h"

/* What waits for the signature. */
typedef struct
{
  GtkWidget *near;    /* Owned */
  SwContext *context; /* Owned */
  GArray *ids;        /* Owned: gint64, all may be reviewed */
  char *left_out;     /* Owned: a sentence; NULL = none is */
} Batch;

static void
free_batch (Batch *batch)
{
  g_object_unref (batch->near);
  g_object_unref (batch->context);
  g_array_unref (batch->ids);
  g_free (batch->left_out);
  g_free (batch);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Batch, free_batch)

static void
toast (GtkWidget *near, const char *text)
{
  SwWindow *window = sw_window_of (near);

  if (window != NULL)
    sw_window_toast (window, text);
}

static void
toast_error (GtkWidget *near, const GError *error)
{
  SwWindow *window = sw_window_of (near);

  if (window != NULL)
    sw_window_toast_error (window, error);
}

/* ---- which of them ---- */

/* The ids that may be reviewed; *why (transfer full) is said about the first that may not. */
static GArray *
sort_out (SwContext *context, GArray *ids, char **why)
{
  const SwWording *wording = sw_context_get_wording (context);
  GArray *good = g_array_new (FALSE, FALSE, sizeof (gint64));

  for (guint i = 0; i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);
      SwFact refusal = sw_fact (SW_FACT_NONE);
      g_autoptr (GError) error = NULL;

      if (sw_review_may (sw_context_get_store (context), sw_context_get_actor (context), id,
                         &refusal, &error))
        g_array_append_val (good, id);
      else if (*why == NULL)
        *why
            = error != NULL ? sw_plant_say_error (wording, error) : sw_say_fact (wording, &refusal);
    }
  return good;
}

static char *
dup_code (SwContext *context, gint64 titration)
{
  SwStore *store = sw_context_get_store (context);
  g_autoptr (SwTitration) row = sw_titration_load (store, titration, NULL);
  g_autoptr (SwSample) sample = row != NULL ? sw_sample_load (store, row->sample, NULL) : NULL;

  return g_strdup (sample != NULL && sample->code != NULL ? sample->code : "?");
}

/* Lists are newest first: the last one chosen is the earliest test. */
static char *
say_subject (const Batch *batch)
{
  g_autofree char *first
      = dup_code (batch->context, g_array_index (batch->ids, gint64, batch->ids->len - 1));
  g_autofree char *last = dup_code (batch->context, g_array_index (batch->ids, gint64, 0));

  return sw_say_review_subject (sw_context_get_wording (batch->context), batch->ids->len, first,
                                last);
}

/* ---- signed ---- */

static void
signed_cb (const SwSigner *signer, gpointer data)
{
  g_autoptr (Batch) batch = data;
  const SwWording *wording = sw_context_get_wording (batch->context);
  g_autoptr (GError) error = NULL;

  if (signer == NULL)
    return;
  if (!sw_review_sign (sw_context_get_store (batch->context), sw_context_get_actor (batch->context),
                       signer, (const gint64 *)batch->ids->data, batch->ids->len, &error))
    {
      toast_error (batch->near, error);
      return;
    }
  g_autofree char *done = sw_say_reviewed (wording, batch->ids->len);
  g_autofree char *words = batch->left_out != NULL
                               ? sw_say_two_sentences (wording, done, batch->left_out)
                               : g_strdup (done);
  sw_context_changed (batch->context);
  toast (batch->near, words);
}

static void
ask (Batch *batch)
{
  g_autofree char *subject = say_subject (batch);
  const SwSignRequest request = { .meaning = SW_MEANING_REVIEWED,
                                  .subject = subject,
                                  .n_subjects = batch->ids->len,
                                  .person = sw_context_get_person (batch->context) };

  sw_sign_ask (batch->near, batch->context, &request, signed_cb, batch);
}

void
sw_batch_review_ask (GtkWidget *near, SwContext *context, GArray *ids)
{
  g_return_if_fail (GTK_IS_WIDGET (near) && SW_IS_CONTEXT (context) && ids != NULL);

  const SwWording *wording = sw_context_get_wording (context);
  SwWindow *window = sw_window_of (near);
  g_autofree char *why = NULL;
  if (window != NULL && !sw_window_may (window, SW_RIGHT_REVIEW))
    return;
  if (ids->len > SW_BATCH_MOST)
    {
      g_autofree char *words = sw_say_too_many (wording, SW_BATCH_MOST);
      toast (near, words);
      return;
    }
  g_autoptr (GArray) good = sort_out (context, ids, &why);
  if (good->len == 0)
    {
      toast (near, why != NULL ? why : "");
      return;
    }
  Batch *batch = g_new0 (Batch, 1);
  batch->near = g_object_ref (near);
  batch->context = g_object_ref (context);
  batch->ids = g_array_ref (good);
  if (good->len < ids->len)
    batch->left_out = sw_say_left_out (wording, ids->len - good->len, ids->len, why);
  ask (batch);
}
