/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A list model over an array of ids; the line of an id is made when it is asked for. */
#include "app/setup/setup-item-private.h"

#include "wording/sentence.h"

struct _SwSetupList
{
  GObject parent_instance;

  /* Owned */
  SwContext *context;
  GArray *ids; /* gint64 */

  SwSetupDescribe describe;
};

static void list_model_init (GListModelInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (SwSetupList,
                               sw_setup_list,
                               G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, list_model_init))

static GType
get_item_type (GListModel *model)
{
  return SW_TYPE_SETUP_ITEM;
}

static guint
get_n_items (GListModel *model)
{
  return SW_SETUP_LIST (model)->ids->len;
}

static gpointer
get_item (GListModel *model, guint position)
{
  SwSetupList *self = SW_SETUP_LIST (model);
  g_autoptr (GError) error = NULL;
  SwSetupItem *item;
  gint64 id;

  if (position >= self->ids->len)
    return NULL;
  id = g_array_index (self->ids, gint64, position);
  item = sw_setup_item_new (id);
  if (!self->describe (self->context, id, item, &error))
    sw_setup_item_take_title (item, sw_say_error (sw_context_get_wording (self->context), error));
  return item;
}

static void
list_model_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

static void
sw_setup_list_finalize (GObject *object)
{
  SwSetupList *self = SW_SETUP_LIST (object);

  g_clear_object (&self->context);
  g_array_unref (self->ids);
  G_OBJECT_CLASS (sw_setup_list_parent_class)->finalize (object);
}

static void
sw_setup_list_class_init (SwSetupListClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = sw_setup_list_finalize;
}

static void
sw_setup_list_init (SwSetupList *self)
{
  self->ids = g_array_new (FALSE, FALSE, sizeof (gint64));
}

SwSetupList *
sw_setup_list_new (SwContext *context, SwSetupDescribe describe)
{
  SwSetupList *self = g_object_new (SW_TYPE_SETUP_LIST, NULL);

  self->context = g_object_ref (context);
  self->describe = describe;
  return self;
}

void
sw_setup_list_take_ids (SwSetupList *self, GArray *ids)
{
  guint before;

  g_return_if_fail (SW_IS_SETUP_LIST (self) && ids != NULL);
  before = self->ids->len;
  g_array_unref (self->ids);
  self->ids = ids;
  g_list_model_items_changed (G_LIST_MODEL (self), 0, before, ids->len);
}

char *
sw_setup_list_dup_title (SwContext *context, SwSetupDescribe describe, gint64 id)
{
  g_autoptr (SwSetupItem) item = sw_setup_item_new (id);
  char *title = NULL;

  if (describe (context, id, item, NULL))
    g_object_get (item, "title", &title, NULL);
  return title;
}
