/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The two settings that say how people are known: an administrator's. */
#include "workflow/guided-private.h"

static gboolean
put_inside (
    SwStore *store, const SwActor *actor, const char *name, const char *value, GError **error)
{
  return sw_right_check (store, actor, SW_RIGHT_SET_UP, error)
         && sw_setting_put (store, name, value, error) && sw_act_commit (store, error);
}

static gboolean
put (SwStore *store, const SwActor *actor, const char *name, const char *value, GError **error)
{
  SwFact refusal;

  if (!sw_guided_check_writable (store, &refusal))
    return sw_workflow_refuse (error, &refusal);
  if (!sw_act_begin (store, SW_ACT_SETUP, actor, error))
    return FALSE;
  if (put_inside (store, actor, name, value, error))
    return TRUE;
  sw_act_cancel (store);
  return FALSE;
}

gboolean
sw_right_set_name_only (SwStore *store, const SwActor *actor, gboolean allowed, GError **error)
{
  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  return put (store, actor, SW_SETTING_NAME_ONLY, allowed ? "yes" : "no", error);
}

gboolean
sw_right_set_idle_lock_min (SwStore *store, const SwActor *actor, double minutes, GError **error)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE];

  g_return_val_if_fail (store != NULL && actor != NULL, FALSE);
  if (minutes != 0.0
      && !sw_check_within (SW_QUANTITY_IDLE_LOCK, minutes, NULL, SW_IDLE_LOCK_LEAST_MIN,
                           SW_IDLE_LOCK_MOST_MIN, error))
    return FALSE;
  return put (store, actor, SW_SETTING_IDLE_LOCK,
              g_ascii_formatd (digits, sizeof digits, "%g", minutes), error);
}
