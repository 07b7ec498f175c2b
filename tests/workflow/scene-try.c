/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any move of a guided test, with arguments that are right for it. */
#include "scene.h"

static gboolean
try_page (Scene *scene, SwMove move, GError **error)
{
  const SwDrawEntry draw = scene_draw_entry (scene);
  const SwPrepareEntry prepare = scene_prepare_entry (scene);
  const char *reason = "for a test";

  switch ((int)move)
    {
    case SW_MOVE_DRAW:
      return sw_guided_test_draw (scene->test, &draw, error);
    case SW_MOVE_PREPARE:
      return sw_guided_test_prepare (scene->test, &prepare, error);
    case SW_MOVE_SHAKE:
      return sw_guided_test_shake (scene->test, error);
    case SW_MOVE_ADD:
      return sw_guided_test_add (scene->test, 1.0, error);
    case SW_MOVE_READ:
      return sw_guided_test_read (scene->test, scene_field (scene, SW_FIELD_ACID), error);
    case SW_MOVE_STRIKE:
      return sw_guided_test_strike (scene->test, FALSE, reason, error);
    case SW_MOVE_BACK:
      return sw_guided_test_back (scene->test, error);
    case SW_MOVE_ABANDON:
      return sw_guided_test_abandon (scene->test, reason, error);
    case SW_MOVE_FRESH_PORTION:
      return sw_guided_test_fresh_portion (scene->test, reason, error);
    default:
      g_assert_not_reached ();
    }
}

/* The jug's last figure, or one drop's worth where there is none. */
static gboolean
try_record (Scene *scene, GError **error)
{
  const SwDoseRow *dose = sw_guided_test_get_dose (scene->test);
  const SwAddedEntry entry = { .added = { .value = dose != NULL ? dose->measured_ml : 420.0 },
                               .lot = scene->plant->neutraliser_lot };

  return sw_guided_test_record_added (scene->test, &entry, error);
}

gboolean
scene_try (Scene *scene, SwMove move, GError **error)
{
  const SwSigner signer = sw_test_plant_signer (scene->person);
  const SwSigner release = sw_test_plant_signer (scene->plant->reviewer);

  switch ((int)move)
    {
    case SW_MOVE_CLOSE:
      return sw_guided_test_close (scene->test, error);
    case SW_MOVE_ACCEPT:
      return sw_guided_test_accept (scene->test, error);
    case SW_MOVE_SIGN:
      return sw_guided_test_sign (scene->test, &signer, error);
    case SW_MOVE_DECIDE_DOSE:
      return sw_guided_test_decide_dose (scene->test, 0.0, NULL, &release, error);
    case SW_MOVE_NO_DOSE:
      return sw_guided_test_no_dose (scene->test, error);
    case SW_MOVE_RECORD_ADDED:
      return try_record (scene, error);
    case SW_MOVE_NOT_ADDED:
      return sw_guided_test_not_added (scene->test, NULL, error);
    case SW_MOVE_NOT_KNOWN:
      return sw_guided_test_not_known (scene->test, error);
    default:
      return try_page (scene, move, error);
    }
}
