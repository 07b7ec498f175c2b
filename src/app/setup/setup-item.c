/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One line of a section's list. Filled once, before anybody sees it. */
#include "app/setup/setup-item-private.h"

struct _SwSetupItem
{
  GObject parent_instance;

  /* Owned */
  char *title;
  char *detail;
  char *state;

  gint64 id;
};

enum
{
  PROP_TITLE = 1,
  PROP_DETAIL,
  PROP_STATE,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (SwSetupItem, sw_setup_item, G_TYPE_OBJECT)

static void
sw_setup_item_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  SwSetupItem *self = SW_SETUP_ITEM (object);

  switch (id)
    {
    case PROP_TITLE:
      g_value_set_string (value, self->title);
      break;
    case PROP_DETAIL:
      g_value_set_string (value, self->detail);
      break;
    case PROP_STATE:
      g_value_set_string (value, self->state);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
sw_setup_item_finalize (GObject *object)
{
  SwSetupItem *self = SW_SETUP_ITEM (object);

  g_free (self->title);
  g_free (self->detail);
  g_free (self->state);
  G_OBJECT_CLASS (sw_setup_item_parent_class)->finalize (object);
}

static void
sw_setup_item_class_init (SwSetupItemClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GParamFlags flags = G_PARAM_READABLE | G_PARAM_STATIC_STRINGS;

  object_class->get_property = sw_setup_item_get_property;
  object_class->finalize = sw_setup_item_finalize;
  props[PROP_TITLE] = g_param_spec_string ("title", NULL, NULL, NULL, flags);
  props[PROP_DETAIL] = g_param_spec_string ("detail", NULL, NULL, NULL, flags);
  props[PROP_STATE] = g_param_spec_string ("state", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
sw_setup_item_init (SwSetupItem *self)
{
}

SwSetupItem *
sw_setup_item_new (gint64 id)
{
  SwSetupItem *self = g_object_new (SW_TYPE_SETUP_ITEM, NULL);

  self->id = id;
  return self;
}

gint64
sw_setup_item_get_id (SwSetupItem *self)
{
  g_return_val_if_fail (SW_IS_SETUP_ITEM (self), 0);
  return self->id;
}

static void
take (SwSetupItem *self, char **to, char *text, guint prop)
{
  g_free (*to);
  *to = text;
  g_object_notify_by_pspec (G_OBJECT (self), props[prop]);
}

void
sw_setup_item_take_title (SwSetupItem *self, char *text)
{
  g_return_if_fail (SW_IS_SETUP_ITEM (self));
  take (self, &self->title, text, PROP_TITLE);
}

void
sw_setup_item_take_detail (SwSetupItem *self, char *text)
{
  g_return_if_fail (SW_IS_SETUP_ITEM (self));
  take (self, &self->detail, text, PROP_DETAIL);
}

void
sw_setup_item_take_state (SwSetupItem *self, char *text)
{
  g_return_if_fail (SW_IS_SETUP_ITEM (self));
  take (self, &self->state, text, PROP_STATE);
}
