/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loads one row, or one act, and says it.
 *
 * Invariant: what is borrowed from the getters stays until the item is forgotten or gone.
 */
#include "app/records/record-item.h"

#include "app/records/record-words.h"
#include "records/review-state.h"
#include "wording/sentence-todo.h"

struct _SwRecordItem
{
  GObject parent_instance;

  /* Owned */
  SwContext *context;
  char *when;
  char *machine;
  char *what;
  char *detail;
  char *person;
  char *state;

  int kind;
  gint64 id;
  gint64 machine_id;
  guint marks;
  SwVerdictKind verdict;
  gboolean loaded;
};

static guint signal_changed;
static guint64 n_loads;

G_DEFINE_FINAL_TYPE (SwRecordItem, sw_record_item, G_TYPE_OBJECT)

static void
clear_words (SwRecordItem *self)
{
  g_clear_pointer (&self->when, g_free);
  g_clear_pointer (&self->machine, g_free);
  g_clear_pointer (&self->what, g_free);
  g_clear_pointer (&self->detail, g_free);
  g_clear_pointer (&self->person, g_free);
  g_clear_pointer (&self->state, g_free);
  self->marks = 0;
  self->machine_id = 0;
  self->verdict = SW_N_VERDICT_KINDS;
}

static void
sw_record_item_finalize (GObject *object)
{
  clear_words (SW_RECORD_ITEM (object));
  g_clear_object (&SW_RECORD_ITEM (object)->context);
  G_OBJECT_CLASS (sw_record_item_parent_class)->finalize (object);
}

static void
sw_record_item_class_init (SwRecordItemClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = sw_record_item_finalize;
  signal_changed = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                 NULL, NULL, G_TYPE_NONE, 0);
}

static void
sw_record_item_init (SwRecordItem *self)
{
  self->verdict = SW_N_VERDICT_KINDS;
}

/* ---- loading ---- */

static gboolean
load_row (SwRecordItem *self, GError **error)
{
  SwStore *store = sw_context_get_store (self->context);
  const SwWording *wording = sw_context_get_wording (self->context);
  g_autoptr (SwBrowseRow) row = sw_browse_load (store, (SwTable)self->kind, self->id, error);

  if (row == NULL)
    return FALSE;
  self->when = sw_moment_list_format (wording, row->happened_ms);
  self->machine = g_strdup (row->machine_tag);
  self->machine_id = row->machine;
  self->what = sw_record_words_what (self->context, row);
  self->detail = sw_record_words_detail (self->context, row);
  self->person = g_strdup (row->initials);
  self->marks = sw_record_words_marks (self->context, row);
  self->verdict = sw_record_words_verdict (row);
  return TRUE;
}

static gboolean
load_act (SwRecordItem *self, GError **error)
{
  SwStore *store = sw_context_get_store (self->context);
  g_autoptr (GPtrArray) chapters = sw_browse_act (store, self->id, error);

  if (chapters == NULL)
    return FALSE;
  if (chapters->len == 0)
    return TRUE;
  const SwChapter *first = chapters->pdata[0];
  self->when = sw_moment_list_format (sw_context_get_wording (self->context), first->utc_ms);
  self->what = sw_record_words_act (self->context, first);
  self->detail = sw_record_words_act_detail (self->context, chapters);
  self->person = sw_record_words_initials (self->context, first->person);
  return TRUE;
}

static void
ensure_loaded (SwRecordItem *self)
{
  if (self->loaded)
    return;
  g_autoptr (GError) error = NULL;
  self->loaded = TRUE;
  n_loads++;
  if (!(self->kind == SW_KIND_JOURNAL ? load_act (self, &error) : load_row (self, &error)))
    self->what = sw_say_error (sw_context_get_wording (self->context), error);
  self->state = sw_say_marks (sw_context_get_wording (self->context), self->marks);
}

/* ---- public ---- */

SwRecordItem *
sw_record_item_new (SwContext *context, int kind, gint64 id)
{
  SwRecordItem *self = g_object_new (SW_TYPE_RECORD_ITEM, NULL);

  self->context = g_object_ref (context);
  self->kind = kind;
  self->id = id;
  g_signal_connect_object (context, "changed", G_CALLBACK (sw_record_item_forget), self,
                           G_CONNECT_SWAPPED);
  return self;
}

int
sw_record_item_get_kind (SwRecordItem *self)
{
  return self->kind;
}

gint64
sw_record_item_get_id (SwRecordItem *self)
{
  return self->id;
}

static const char *
or_empty (const char *text)
{
  return text != NULL ? text : "";
}

const char *
sw_record_item_get_when (SwRecordItem *self)
{
  ensure_loaded (self);
  return or_empty (self->when);
}

const char *
sw_record_item_get_machine (SwRecordItem *self)
{
  ensure_loaded (self);
  return or_empty (self->machine);
}

const char *
sw_record_item_get_what (SwRecordItem *self)
{
  ensure_loaded (self);
  return or_empty (self->what);
}

const char *
sw_record_item_get_detail (SwRecordItem *self)
{
  ensure_loaded (self);
  return or_empty (self->detail);
}

const char *
sw_record_item_get_person (SwRecordItem *self)
{
  ensure_loaded (self);
  return or_empty (self->person);
}

const char *
sw_record_item_get_state (SwRecordItem *self)
{
  ensure_loaded (self);
  return or_empty (self->state);
}

guint
sw_record_item_get_marks (SwRecordItem *self)
{
  ensure_loaded (self);
  return self->marks;
}

SwVerdictKind
sw_record_item_get_verdict (SwRecordItem *self)
{
  ensure_loaded (self);
  return self->verdict;
}

gint64
sw_record_item_get_machine_id (SwRecordItem *self)
{
  ensure_loaded (self);
  return self->machine_id;
}

void
sw_record_item_forget (SwRecordItem *self)
{
  g_return_if_fail (SW_IS_RECORD_ITEM (self));
  if (!self->loaded)
    return;
  self->loaded = FALSE;
  clear_words (self);
  g_signal_emit (self, signal_changed, 0);
}

guint64
sw_record_item_count_loads (void)
{
  return n_loads;
}
