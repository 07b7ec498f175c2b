/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The records that a filter finds.
 *
 * Invariants:
 *   1. `ids` is the whole list; only replace_ids changes it, and only there items-changed is
 *      emitted.
 *   2. `cache` holds items by position, at most MOST_CACHED; every one has kind and id of its
 *      position.
 */
#include "app/records/record-list.h"

/* More rows than a screen shows, few enough to throw away without a thought. */
#define MOST_CACHED 512

struct _SwRecordList
{
  GObject parent_instance;

  /* Owned */
  SwContext *context;
  GArray *ids;       /* gint64 */
  GHashTable *cache; /* position to SwRecordItem */

  int kind;
};

/* ---- model ---- */

static GType
get_item_type (GListModel *model)
{
  return SW_TYPE_RECORD_ITEM;
}

static guint
get_n_items (GListModel *model)
{
  return SW_RECORD_LIST (model)->ids->len;
}

static gpointer
get_item (GListModel *model, guint position)
{
  SwRecordList *self = SW_RECORD_LIST (model);

  if (position >= self->ids->len)
    return NULL;
  SwRecordItem *item = g_hash_table_lookup (self->cache, GUINT_TO_POINTER (position));
  if (item != NULL)
    return g_object_ref (item);
  if (g_hash_table_size (self->cache) >= MOST_CACHED)
    g_hash_table_remove_all (self->cache);
  item
      = sw_record_item_new (self->context, self->kind, g_array_index (self->ids, gint64, position));
  g_hash_table_insert (self->cache, GUINT_TO_POINTER (position), item);
  return g_object_ref (item);
}

static void
model_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

G_DEFINE_FINAL_TYPE_WITH_CODE (SwRecordList,
                               sw_record_list,
                               G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, model_init))

static void
sw_record_list_finalize (GObject *object)
{
  SwRecordList *self = SW_RECORD_LIST (object);

  g_array_unref (self->ids);
  g_hash_table_unref (self->cache);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_record_list_parent_class)->finalize (object);
}

static void
sw_record_list_class_init (SwRecordListClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = sw_record_list_finalize;
}

static void
sw_record_list_init (SwRecordList *self)
{
  self->ids = g_array_new (FALSE, FALSE, sizeof (gint64));
  self->cache = g_hash_table_new_full (NULL, NULL, NULL, g_object_unref);
}

/* ---- other ids ---- */

/* How many ids both lists share, from the front or from the back. */
static guint
count_common (const GArray *a, const GArray *b, guint most, gboolean from_back)
{
  guint n = 0;

  while (n < most
         && g_array_index (a, gint64, from_back ? a->len - 1 - n : n)
                == g_array_index (b, gint64, from_back ? b->len - 1 - n : n))
    n++;
  return n;
}

/* Items of both ends go with their records to the new places; the others go. */
static void
renew_cache (SwRecordList *self, guint front, guint back, guint old_len)
{
  GHashTable *cache = g_hash_table_new_full (NULL, NULL, NULL, g_object_unref);
  GHashTableIter iter;
  gpointer place, item;

  g_hash_table_iter_init (&iter, self->cache);
  while (g_hash_table_iter_next (&iter, &place, &item))
    {
      guint at = GPOINTER_TO_UINT (place);
      if (at >= front && at < old_len - back)
        continue;
      guint to = at < front ? at : at - old_len + self->ids->len;
      g_hash_table_insert (cache, GUINT_TO_POINTER (to), g_object_ref (item));
    }
  g_hash_table_unref (self->cache);
  self->cache = cache;
}

/* Takes @ids, which share their first @front and last @back with those before. */
static void
replace_ids (SwRecordList *self, GArray *ids, guint front, guint back)
{
  g_autoptr (GArray) old = self->ids;

  self->ids = ids;
  renew_cache (self, front, back, old->len);
  g_list_model_items_changed (G_LIST_MODEL (self), front, old->len - front - back,
                              ids->len - front - back);
}

/* Takes @ids. A selection and a scrolled place survive what did not change. */
static void
take_ids (SwRecordList *self, GArray *ids, int kind)
{
  guint shorter = MIN (self->ids->len, ids->len);
  guint front = kind == self->kind ? count_common (self->ids, ids, shorter, FALSE) : 0;
  guint back = kind == self->kind ? count_common (self->ids, ids, shorter - front, TRUE) : 0;

  self->kind = kind;
  /* A list view looks for what was removed among all that is added, and would make an item for
   * every row of the file: here what goes is told first, and what comes after it. */
  if (self->ids->len > front + back && ids->len - front - back > MOST_CACHED)
    {
      replace_ids (self, g_array_new (FALSE, FALSE, sizeof (gint64)), 0, 0);
      front = back = 0;
    }
  replace_ids (self, ids, front, back);
}

SwRecordList *
sw_record_list_new (SwContext *context)
{
  SwRecordList *self = g_object_new (SW_TYPE_RECORD_LIST, NULL);

  self->context = g_object_ref (context);
  return self;
}

gboolean
sw_record_list_ask (SwRecordList *self, int kind, const SwBrowseFilter *filter, GError **error)
{
  g_return_val_if_fail (SW_IS_RECORD_LIST (self) && filter != NULL, FALSE);

  SwStore *store = sw_context_get_store (self->context);
  GArray *ids = kind == SW_KIND_JOURNAL ? sw_browse_acts (store, filter, FALSE, error)
                                        : sw_browse_ids (store, filter, error);
  gboolean asked = ids != NULL;
  take_ids (self, asked ? ids : g_array_new (FALSE, FALSE, sizeof (gint64)), kind);
  return asked;
}

int
sw_record_list_get_kind (SwRecordList *self)
{
  g_return_val_if_fail (SW_IS_RECORD_LIST (self), 0);
  return self->kind;
}

gint64
sw_record_list_get_id (SwRecordList *self, guint position)
{
  g_return_val_if_fail (SW_IS_RECORD_LIST (self), 0);
  return position < self->ids->len ? g_array_index (self->ids, gint64, position) : 0;
}

guint
sw_record_list_find (SwRecordList *self, gint64 id)
{
  g_return_val_if_fail (SW_IS_RECORD_LIST (self), G_MAXUINT);

  for (guint i = 0; i < self->ids->len; i++)
    if (g_array_index (self->ids, gint64, i) == id)
      return i;
  return G_MAXUINT;
}
