/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The filter bar. What can be chosen (machines, people) is asked of the file anew whenever it
 * changed; what is chosen stays. */
#include "app/records/filter-bar.h"

#include <glib/gi18n.h>

#include "app/plant-words.h"
#include "app/records/date-pick.h"
#include "app/records/filter-pick.h"
#include "wording/sentence-list.h"
#include "wording/sentence-setup.h"

#define ANY_OUTCOME -1

struct _SwFilterBar
{
  GtkWidget parent_instance;

  /* Template children */
  SwFilterPick *kind;
  GtkLabel *count;
  GtkSearchEntry *search;
  SwFilterPick *machine;
  SwDatePick *days;
  SwFilterPick *person;
  SwFilterPick *outcome;
  SwFilterPick *state;

  SwContext *context; /* Owned */
};

enum
{
  SIGNAL_CHANGED,
  SIGNAL_LEAVE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (SwFilterBar, sw_filter_bar, GTK_TYPE_WIDGET)

static const SwWording *
wording_of (SwFilterBar *self)
{
  return sw_context_get_wording (self->context);
}

/* ---- what can be chosen ---- */

static void
fill_kinds (SwFilterBar *self)
{
  for (guint i = 0; i < sw_n_kinds; i++)
    {
      const SwKind *kind = &sw_kinds[i];
      const char *heading
          = kind->group != NULL ? sw_trc (wording_of (self), "kinds of record", kind->group) : NULL;

      sw_filter_pick_add (self->kind, kind->kind, sw_kind_name (wording_of (self), kind), heading);
    }
}

static void
fill_machines (SwFilterBar *self)
{
  SwStore *store = sw_context_get_store (self->context);
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_MACHINE, NULL, 0, NULL);

  sw_filter_pick_add (self->machine, 0, sw_tr (wording_of (self), "Any machine"), NULL);
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);
      g_autofree char *name = sw_plant_machine_name (self->context, id);
      sw_filter_pick_add (self->machine, id, name, NULL);
    }
}

static void
fill_people (SwFilterBar *self)
{
  SwStore *store = sw_context_get_store (self->context);
  g_autoptr (GArray) ids = sw_record_ids (store, SW_TABLE_PERSON, NULL, 0, NULL);

  sw_filter_pick_add (self->person, 0, sw_tr (wording_of (self), "Anybody"), NULL);
  for (guint i = 0; ids != NULL && i < ids->len; i++)
    {
      gint64 id = g_array_index (ids, gint64, i);
      g_autoptr (SwPerson) person = sw_person_load (store, id, NULL);
      if (person == NULL)
        continue;
      g_autofree char *name
          = sw_say_person_name (wording_of (self), person->name, person->initials);
      sw_filter_pick_add (self->person, id, name, NULL);
    }
}

static void
fill_outcomes (SwFilterBar *self)
{
  sw_filter_pick_add (self->outcome, ANY_OUTCOME, sw_tr (wording_of (self), "Any outcome"), NULL);
  for (int i = 0; i < SW_N_OUTCOMES; i++)
    {
      g_autofree char *word = sw_say_list_outcome (wording_of (self), (SwOutcomeKind)i);
      sw_filter_pick_add (self->outcome, i, word, NULL);
    }
}

/* Only tests are reviewed. */
static gboolean
has_state (int kind, SwBrowseState state)
{
  return kind == SW_TABLE_TITRATION
         || (state != SW_BROWSE_TO_REVIEW && state != SW_BROWSE_REVIEW_LOST);
}

static void
fill_states (SwFilterBar *self)
{
  int kind = sw_filter_bar_get_kind (self);

  for (int i = 0; i < SW_N_BROWSE_STATES; i++)
    if (has_state (kind, (SwBrowseState)i))
      sw_filter_pick_add (self->state, i, sw_say_list_state (wording_of (self), (guint)i), NULL);
}

/* The lines anew; what was chosen stays where it is still there. */
static void
refill (SwFilterBar *self, SwFilterPick *pick, void (*fill) (SwFilterBar *self))
{
  gint64 value = sw_filter_pick_get (pick);

  sw_filter_pick_clear (pick);
  fill (self);
  sw_filter_pick_set (pick, value);
}

/* What the kind has not got cannot be asked for. */
static void
show_kind (SwFilterBar *self)
{
  int kind = sw_filter_bar_get_kind (self);

  gtk_widget_set_sensitive (GTK_WIDGET (self->machine), sw_kind_has_machine (kind));
  gtk_widget_set_sensitive (GTK_WIDGET (self->outcome), sw_kind_has_outcome (kind));
  gtk_widget_set_sensitive (GTK_WIDGET (self->state), kind != SW_KIND_JOURNAL);
}

static void
show_plant (SwFilterBar *self)
{
  refill (self, self->machine, fill_machines);
  refill (self, self->person, fill_people);
}

/* ---- the person's choice ---- */

static void
changed_cb (GtkWidget *widget, SwFilterBar *self)
{
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

static void
kind_changed_cb (SwFilterPick *pick, SwFilterBar *self)
{
  refill (self, self->state, fill_states);
  show_kind (self);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

/* Escape empties the search first, and leaves it the second time. */
static void
stop_search_cb (GtkSearchEntry *entry, SwFilterBar *self)
{
  if (*gtk_editable_get_text (GTK_EDITABLE (entry)) != '\0')
    gtk_editable_set_text (GTK_EDITABLE (entry), "");
  else
    g_signal_emit (self, signals[SIGNAL_LEAVE], 0);
}

static void
activate_search_cb (GtkSearchEntry *entry, SwFilterBar *self)
{
  g_signal_emit (self, signals[SIGNAL_LEAVE], 0);
}

/* ---- class ---- */

static gboolean
sw_filter_bar_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (SW_FILTER_BAR (widget)->kind));
}

static void
sw_filter_bar_dispose (GObject *object)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (object));

  g_clear_pointer (&child, gtk_widget_unparent);
  g_clear_object (&SW_FILTER_BAR (object)->context);
  G_OBJECT_CLASS (sw_filter_bar_parent_class)->dispose (object);
}

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (
      widget_class, "/org/stillwarden/Stillwarden/ui/records/filter-bar.ui");
  gtk_widget_class_bind_template_child (widget_class, SwFilterBar, kind);
  gtk_widget_class_bind_template_child (widget_class, SwFilterBar, count);
  gtk_widget_class_bind_template_child (widget_class, SwFilterBar, search);
  gtk_widget_class_bind_template_child (widget_class, SwFilterBar, machine);
  gtk_widget_class_bind_template_child (widget_class, SwFilterBar, days);
  gtk_widget_class_bind_template_child (widget_class, SwFilterBar, person);
  gtk_widget_class_bind_template_child (widget_class, SwFilterBar, outcome);
  gtk_widget_class_bind_template_child (widget_class, SwFilterBar, state);
  gtk_widget_class_bind_template_callback (widget_class, changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, kind_changed_cb);
  gtk_widget_class_bind_template_callback (widget_class, stop_search_cb);
  gtk_widget_class_bind_template_callback (widget_class, activate_search_cb);
}

static void
sw_filter_bar_class_init (SwFilterBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = sw_filter_bar_dispose;
  widget_class->grab_focus = sw_filter_bar_grab_focus;
  signals[SIGNAL_CHANGED]
      = g_signal_new ("changed", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_LEAVE]
      = g_signal_new ("leave", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_type_ensure (SW_TYPE_FILTER_PICK);
  g_type_ensure (SW_TYPE_DATE_PICK);
  bind_template (widget_class);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_SEARCH);
}

static void
sw_filter_bar_init (SwFilterBar *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

/* ---- public ---- */

void
sw_filter_bar_set_context (SwFilterBar *self, SwContext *context)
{
  g_return_if_fail (SW_IS_FILTER_BAR (self) && self->context == NULL);

  self->context = g_object_ref (context);
  sw_date_pick_set_context (self->days, context);
  fill_kinds (self);
  fill_machines (self);
  fill_people (self);
  fill_outcomes (self);
  fill_states (self);
  show_kind (self);
  g_signal_connect_object (context, "changed", G_CALLBACK (show_plant), self, G_CONNECT_SWAPPED);
}

int
sw_filter_bar_get_kind (SwFilterBar *self)
{
  g_return_val_if_fail (SW_IS_FILTER_BAR (self), 0);
  return (int)sw_filter_pick_get (self->kind);
}

void
sw_filter_bar_get (SwFilterBar *self, SwBrowseFilter *filter)
{
  g_return_if_fail (SW_IS_FILTER_BAR (self) && filter != NULL);

  int kind = sw_filter_bar_get_kind (self);
  *filter = (SwBrowseFilter){
    .table = kind == SW_KIND_JOURNAL ? SW_TABLE_TITRATION : (SwTable)kind,
    .state
    = kind == SW_KIND_JOURNAL ? SW_BROWSE_ALL : (SwBrowseState)sw_filter_pick_get (self->state),
    .machine = sw_kind_has_machine (kind) ? sw_filter_pick_get (self->machine) : 0,
    .person = sw_filter_pick_get (self->person),
    .outcome = sw_kind_has_outcome (kind) ? (int)sw_filter_pick_get (self->outcome) : ANY_OUTCOME,
    .search = gtk_editable_get_text (GTK_EDITABLE (self->search)),
  };
  sw_date_pick_get (self->days, &filter->from_ms, &filter->to_ms);
}

/* Without a signal: the entry's own is told after a pause. */
static void
set_search (SwFilterBar *self, const char *text)
{
  g_signal_handlers_block_by_func (self->search, changed_cb, self);
  gtk_editable_set_text (GTK_EDITABLE (self->search), text != NULL ? text : "");
  g_signal_handlers_unblock_by_func (self->search, changed_cb, self);
}

void
sw_filter_bar_set (SwFilterBar *self, const SwBrowseFilter *filter)
{
  g_return_if_fail (SW_IS_FILTER_BAR (self) && filter != NULL);

  sw_filter_pick_set (self->kind, filter->table);
  refill (self, self->state, fill_states);
  sw_filter_pick_set (self->state, filter->state);
  sw_filter_pick_set (self->machine, filter->machine);
  sw_filter_pick_set (self->person, filter->person);
  sw_filter_pick_set (self->outcome, filter->outcome);
  sw_date_pick_set (self->days, filter->from_ms, filter->to_ms);
  set_search (self, filter->search);
  show_kind (self);
}

gboolean
sw_filter_bar_is_narrow (SwFilterBar *self)
{
  g_return_val_if_fail (SW_IS_FILTER_BAR (self), FALSE);

  SwBrowseFilter filter;
  sw_filter_bar_get (self, &filter);
  return filter.machine != 0 || filter.person != 0 || filter.outcome != ANY_OUTCOME
         || filter.from_ms != 0 || filter.to_ms != 0 || *filter.search != '\0'
         || (filter.state != SW_BROWSE_CURRENT && filter.state != SW_BROWSE_ALL);
}

void
sw_filter_bar_clear (SwFilterBar *self)
{
  g_return_if_fail (SW_IS_FILTER_BAR (self));

  sw_filter_pick_set (self->machine, 0);
  sw_filter_pick_set (self->person, 0);
  sw_filter_pick_set (self->outcome, ANY_OUTCOME);
  sw_filter_pick_set (self->state, SW_BROWSE_CURRENT);
  sw_date_pick_set (self->days, 0, 0);
  set_search (self, NULL);
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

void
sw_filter_bar_set_count (SwFilterBar *self, const char *words)
{
  g_return_if_fail (SW_IS_FILTER_BAR (self));
  gtk_label_set_text (self->count, words);
}

void
sw_filter_bar_find (SwFilterBar *self)
{
  g_return_if_fail (SW_IS_FILTER_BAR (self));
  gtk_widget_grab_focus (GTK_WIDGET (self->search));
}
