/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The second pair of eyes of the demo plant: the reviewer signs every week's tests, the last days'
 * still wait, and one correction after its review shows what that does to a signature. */
#include "cli/demo-private.h"

#include "workflow/amend.h"
#include "workflow/review.h"

#define REVIEW_DAYS 7
#define UNREVIEWED_DAYS 9

static gboolean
sign_all (SwDemo *demo, GArray *waiting, GError **error)
{
  const SwActor actor = sw_demo_actor (demo, demo->reviewer);
  const SwSigner signer = sw_demo_signer (demo->reviewer);

  return waiting->len == 0
         || sw_review_sign (demo->store, &actor, &signer, (const gint64 *)(void *)waiting->data,
                            waiting->len, error);
}

/* The newest of what was just reviewed: its sample was colder than written. */
static gboolean
correct_sample (SwDemo *demo, gint64 titration, GError **error)
{
  g_autofree char *reason = sw_demo_text (demo, "words", "correction");
  SwActor actor = sw_demo_actor (demo, demo->reviewer);
  g_autoptr (SwTitration) row = sw_titration_load (demo->store, titration, error);
  g_autoptr (SwSample) sample
      = row != NULL ? sw_sample_load (demo->store, row->sample, error) : NULL;

  if (sample == NULL)
    return FALSE;
  actor.reason = reason;
  sample->temperature.value -= 10.0;
  g_free (sample->temperature.typed);
  sample->temperature.typed = g_strdup_printf ("%.1f degC", sample->temperature.value);
  return sw_amend_sample (demo->store, &actor, sample, error);
}

gboolean
sw_demo_review (SwDemo *demo, GError **error)
{
  g_autoptr (GArray) waiting = NULL;
  const gint64 last_ms = demo->end_ms - UNREVIEWED_DAYS * SW_DEMO_DAY_MS;
  gboolean last;

  if (demo->now_ms < demo->review_ms || demo->now_ms > last_ms)
    return TRUE;
  last = demo->now_ms + REVIEW_DAYS * SW_DEMO_DAY_MS > last_ms;
  demo->review_ms = demo->now_ms + REVIEW_DAYS * SW_DEMO_DAY_MS;
  waiting = sw_review_waiting (demo->store, demo->reviewer, error);
  if (waiting == NULL || !sign_all (demo, waiting, error))
    return FALSE;
  return !last || waiting->len == 0
         || correct_sample (demo, g_array_index (waiting, gint64, waiting->len - 1), error);
}
