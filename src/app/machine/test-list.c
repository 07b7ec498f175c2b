/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The closed tests of a machine.
 *
 * Invariants:
 *   1. `ids` is the whole list; only sw_test_list_set_machine changes it, and only there
 *      items-changed is emitted.
 *   2. `cache` holds items by position, at most MOST_CACHED; every one has the id at its position.
 */
#include "app/machine/test-list.h"

#include "app/plant-words.h"
#include "wording/sentence-todo.h"

/* More rows than a screen shows, few enough to throw away without a thought. */
#define MOST_CACHED 512

/* ---- item ---- */

struct _SwTestItem
{
  GObject parent_instance;

  /* Owned */
  SwContext *context;
  char *when;
  char *result;
  char *dose;
  char *initials;

  gint64 titration;
  SwOutcomeKind outcome;
  gboolean loaded;
};

G_DEFINE_FINAL_TYPE (SwTestItem, sw_test_item, G_TYPE_OBJECT)

static void
sw_test_item_finalize (GObject *object)
{
  SwTestItem *self = SW_TEST_ITEM (object);

  g_clear_object (&self->context);
  g_free (self->when);
  g_free (self->result);
  g_free (self->dose);
  g_free (self->initials);
  G_OBJECT_CLASS (sw_test_item_parent_class)->finalize (object);
}

static void
sw_test_item_class_init (SwTestItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = sw_test_item_finalize;
}

static void
sw_test_item_init (SwTestItem *self)
{
}

/* What went in after the test, in words; "" when nothing did. */
static char *
dup_dose (SwTestItem *self)
{
  SwStore *store = sw_context_get_store (self->context);
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_DOSE, "titration", self->titration, NULL);

  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      g_autoptr (SwDoseRow) dose = sw_dose_row_load (store, g_array_index (ids, gint64, i), NULL);
      if (dose == NULL)
        continue;
      if (dose->state == SW_DOSE_ADDED)
        return sw_say_added (wording, dose->added.value, dose->added_ms, dose->place);
      if (dose->state == SW_DOSE_NOT_KNOWN)
        return g_strdup (sw_tr (wording, "not known whether added"));
    }
  return g_strdup ("");
}

static void
load_words (SwTestItem *self, const SwTitration *titration)
{
  SwStore *store = sw_context_get_store (self->context);
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autoptr (SwSample) sample = sw_sample_load (store, titration->sample, NULL);
  g_autoptr (SwMethodVersion) method
      = sw_method_version_load (store, titration->method_version, NULL);

  self->outcome = titration->outcome;
  self->when = sw_date_time_format (wording, sample != NULL ? sample->record.happened_ms
                                                            : titration->record.happened_ms);
  self->result = sw_say_test_short (wording, titration->outcome, titration->net_low,
                                    titration->net_high, method != NULL && method->burette);
  self->dose = dup_dose (self);
  self->initials = titration->signed_ms != 0
                       ? sw_plant_person_initials (self->context, titration->analyst)
                       : g_strdup (sw_tr (wording, "not signed"));
}

static void
ensure_loaded (SwTestItem *self)
{
  if (self->loaded)
    return;
  self->loaded = TRUE;
  g_autoptr (GError) error = NULL;
  g_autoptr (SwTitration) titration
      = sw_titration_load (sw_context_get_store (self->context), self->titration, &error);
  if (titration != NULL)
    load_words (self, titration);
  else
    self->result = sw_say_error (sw_context_get_wording (self->context), error);
}

gint64
sw_test_item_get_titration (SwTestItem *self)
{
  return self->titration;
}

SwOutcomeKind
sw_test_item_get_outcome (SwTestItem *self)
{
  ensure_loaded (self);
  return self->outcome;
}

static const char *
or_empty (const char *text)
{
  return text != NULL ? text : "";
}

const char *
sw_test_item_get_when (SwTestItem *self)
{
  ensure_loaded (self);
  return or_empty (self->when);
}

const char *
sw_test_item_get_result (SwTestItem *self)
{
  ensure_loaded (self);
  return or_empty (self->result);
}

const char *
sw_test_item_get_dose (SwTestItem *self)
{
  ensure_loaded (self);
  return or_empty (self->dose);
}

const char *
sw_test_item_get_signed (SwTestItem *self)
{
  ensure_loaded (self);
  return or_empty (self->initials);
}

/* ---- list ---- */

struct _SwTestList
{
  GObject parent_instance;

  /* Owned */
  SwContext *context;
  GArray *ids;       /* gint64 */
  GHashTable *cache; /* position to SwTestItem */
};

static GType
get_item_type (GListModel *model)
{
  return SW_TYPE_TEST_ITEM;
}

static guint
get_n_items (GListModel *model)
{
  SwTestList *self = SW_TEST_LIST (model);

  return self->ids != NULL ? self->ids->len : 0;
}

static gpointer
get_item (GListModel *model, guint position)
{
  SwTestList *self = SW_TEST_LIST (model);

  if (position >= get_n_items (model))
    return NULL;
  SwTestItem *item = g_hash_table_lookup (self->cache, GUINT_TO_POINTER (position));
  if (item != NULL)
    return g_object_ref (item);
  if (g_hash_table_size (self->cache) >= MOST_CACHED)
    g_hash_table_remove_all (self->cache);
  item = g_object_new (SW_TYPE_TEST_ITEM, NULL);
  item->context = g_object_ref (self->context);
  item->titration = g_array_index (self->ids, gint64, position);
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

G_DEFINE_FINAL_TYPE_WITH_CODE (SwTestList,
                               sw_test_list,
                               G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, model_init))

static void
sw_test_list_finalize (GObject *object)
{
  SwTestList *self = SW_TEST_LIST (object);

  g_clear_pointer (&self->ids, g_array_unref);
  g_clear_pointer (&self->cache, g_hash_table_unref);
  g_clear_object (&self->context);
  G_OBJECT_CLASS (sw_test_list_parent_class)->finalize (object);
}

static void
sw_test_list_class_init (SwTestListClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = sw_test_list_finalize;
}

static void
sw_test_list_init (SwTestList *self)
{
  self->cache = g_hash_table_new_full (NULL, NULL, NULL, g_object_unref);
}

SwTestList *
sw_test_list_new (SwContext *context)
{
  SwTestList *self = g_object_new (SW_TYPE_TEST_LIST, NULL);

  self->context = g_object_ref (context);
  return self;
}

void
sw_test_list_set_machine (SwTestList *self, gint64 machine)
{
  g_return_if_fail (SW_IS_TEST_LIST (self));

  guint before = get_n_items (G_LIST_MODEL (self));
  g_clear_pointer (&self->ids, g_array_unref);
  g_hash_table_remove_all (self->cache);
  if (machine != 0)
    self->ids
        = sw_titration_closed_ids (sw_context_get_store (self->context), machine, 0, 0, 0, NULL);
  g_list_model_items_changed (G_LIST_MODEL (self), 0, before, get_n_items (G_LIST_MODEL (self)));
}

int
sw_test_list_find (SwTestList *self, gint64 titration)
{
  g_return_val_if_fail (SW_IS_TEST_LIST (self), -1);

  for (guint i = 0; self->ids != NULL && i < self->ids->len; i++)
    if (g_array_index (self->ids, gint64, i) == titration)
      return (int)i;
  return -1;
}
