/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of methods: adopting a template with the site's own liquids and strip colours; a method
 * on file is only read, because results depend on it.
 *
 * Invariants:
 *   1. fields are the colour fields of the template chosen in the form.
 *   2. Adopting and naming the colours are two acts; when the second is refused the method is on
 *      file with the template's own words, and the form shows it so.
 */
#include "app/setup/form.h"
#include "app/setup/method-view.h"
#include "app/setup/pick-row.h"
#include "app/setup/plant-choices.h"
#include "app/setup/record-editor.h"
#include "app/setup/section-spec.h"
#include "app/setup/strip-editor.h"
#include "wording/sentence-setup.h"
#include "workflow/setup.h"

/* The form's record. */
typedef struct
{
  SwRecord record;
  int origin; /* which of sw_method_template_names */
  char *name; /* Owned */
  gint64 titrant;
  gint64 caustic;
  double caustic_mmol;
  gboolean caustic_counts;
} Entry;

/* By the order of sw_method_template_names; a test compares them with the templates themselves. */
#define N_TEMPLATES 3
#define WITH_CAUSTIC SW_FORM_BIT (1)
#define WITH_ACID SW_FORM_BIT (2)
#define WITH_BASE (SW_FORM_BIT (0) | SW_FORM_BIT (1))

static const char *
say_origin (const SwWording *wording, guint value)
{
  return sw_say_template (wording, sw_method_template_names ()[value]);
}

/* clang-format off */
static const SwFormSpec fields[] = {
  { .id = "template", .label = N_ ("Template"), .kind = SW_FORM_WORD, .wide = TRUE,
    .offset = G_STRUCT_OFFSET (Entry, origin), .word = say_origin, .n_words = N_TEMPLATES },
  { .id = "name", .label = N_ ("Name at this site"), .kind = SW_FORM_TEXT, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (Entry, name), .quantity = SW_QUANTITY_NAME,
    .hint = N_ ("As people call this test.") },
  { .id = "titrant", .label = N_ ("What is dropped in"),
    .hint = N_ ("The neutraliser itself, or a bench titrant of known strength."),
    .kind = SW_FORM_RECORD, .needed = TRUE, .offset = G_STRUCT_OFFSET (Entry, titrant),
    .quantity = SW_QUANTITY_TITRANT_STRENGTH, .rows = sw_choose_titrants,
    .say_row = sw_choice_product, .shown_with = "template", .shown_mask = WITH_BASE },
  { .id = "acid", .label = N_ ("What is dropped in"), .hint = N_ ("An acid of known strength."),
    .kind = SW_FORM_RECORD, .needed = TRUE, .offset = G_STRUCT_OFFSET (Entry, titrant),
    .quantity = SW_QUANTITY_TITRANT_STRENGTH, .rows = sw_choose_bench_titrants,
    .say_row = sw_choice_product, .shown_with = "template", .shown_mask = WITH_ACID },
  { .id = "caustic", .label = N_ ("Caustic that goes into the flask"), .kind = SW_FORM_RECORD,
    .needed = TRUE, .offset = G_STRUCT_OFFSET (Entry, caustic), .rows = sw_choose_caustics,
    .say_row = sw_choice_product, .shown_with = "template", .shown_mask = WITH_CAUSTIC },
  { .id = "amount", .label = N_ ("Amount of it"),
    .hint = N_ ("Volume times strength, as the supplier's directions say. Empty: not known."),
    .kind = SW_FORM_REAL, .offset = G_STRUCT_OFFSET (Entry, caustic_mmol),
    .quantity = SW_QUANTITY_CAUSTIC, .unit = SW_UNIT_MMOL,
    .shown_with = "template", .shown_mask = WITH_CAUSTIC },
  { .id = "counts", .label = N_ ("The addition counts"), .kind = SW_FORM_SWITCH, .wide = TRUE,
    .offset = G_STRUCT_OFFSET (Entry, caustic_counts),
    .shown_with = "template", .shown_mask = WITH_CAUSTIC },
};
/* clang-format on */

#define SW_TYPE_METHOD_EDITOR (sw_method_editor_get_type ())
G_DECLARE_FINAL_TYPE (SwMethodEditor, sw_method_editor, SW, METHOD_EDITOR, SwEditor)

struct _SwMethodEditor
{
  SwEditor parent_instance;

  /* Borrowed: in the box */
  GtkWidget *adopt; /* all that is shown of a new one */
  SwForm *form;
  GtkLabel *counts;
  GtkBox *facts;
  SwStripEditor *strips;
  SwMethodView *view; /* all that is shown of one on file */

  GPtrArray *fields; /* Owned: SwColourField */
  int origin;        /* whose they are; -1 = nobody's yet */
};

G_DEFINE_FINAL_TYPE (SwMethodEditor, sw_method_editor, SW_TYPE_EDITOR)

static void
clear_entry (Entry *entry)
{
  g_clear_pointer (&entry->name, g_free);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Entry, clear_entry)

static const SwWording *
wording_of (SwMethodEditor *self)
{
  return sw_context_get_wording (sw_editor_get_context (SW_EDITOR (self)));
}

/* ---- the template that is chosen ---- */

static void
show_facts (SwMethodEditor *self, const SwMethodVersion *version)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->facts))) != NULL)
    gtk_box_remove (self->facts, child);
  sw_method_add_facts (self->facts, wording_of (self), version);
}

static void
take_template (SwMethodEditor *self, int origin)
{
  const char *name = sw_method_template_names ()[origin];
  g_autoptr (SwMethodVersion) version = NULL;
  GPtrArray *colour_fields = NULL;
  gboolean has_caustic;

  if (origin == self->origin)
    return;
  sw_pick_row_set_hint (SW_PICK_ROW (sw_form_get_row (self->form, "template")),
                        sw_say_template_use (wording_of (self), name));
  if (!sw_method_template_load (name, &version, &colour_fields, &has_caustic, NULL))
    return;
  g_clear_pointer (&self->fields, g_ptr_array_unref);
  self->fields = colour_fields;
  self->origin = origin;
  sw_strip_editor_set_fields (self->strips, colour_fields);
  show_facts (self, version);
}

static void
changed_cb (SwMethodEditor *self)
{
  g_auto (Entry) entry = { .caustic_mmol = NAN };
  gboolean caustic;

  sw_form_peek (self->form, &entry);
  take_template (self, entry.origin);
  caustic = (WITH_CAUSTIC & SW_FORM_BIT (entry.origin)) != 0;
  gtk_widget_set_visible (GTK_WIDGET (self->counts), caustic);
  gtk_label_set_text (self->counts,
                      sw_say_caustic_counts (wording_of (self), entry.caustic_counts));
  sw_editor_changed (SW_EDITOR (self));
}

/* ---- the editor ---- */

static gboolean
sw_method_editor_open (SwEditor *editor, gint64 id, GError **error)
{
  SwMethodEditor *self = SW_METHOD_EDITOR (editor);
  const Entry blank = { .caustic_mmol = NAN };

  gtk_widget_set_visible (self->adopt, id == 0);
  gtk_widget_set_visible (GTK_WIDGET (self->view), id != 0);
  sw_form_load (self->form, &blank);
  sw_strip_editor_reset (self->strips);
  return id == 0 || sw_method_view_show (self->view, id, error);
}

/* Gives the method's own colour fields the names and colours of the form's. */
static gboolean
write_strips (SwMethodEditor *self, const SwActor *actor, gint64 method, GError **error)
{
  SwStore *store = sw_context_get_store (sw_editor_get_context (SW_EDITOR (self)));
  gint64 version = sw_method_latest_version (store, method, NULL);
  g_autoptr (GArray) ids
      = sw_record_ids (store, SW_TABLE_COLOUR_FIELD, "method_version", version, error);

  for (guint i = 0; ids != NULL && i < ids->len && i < self->fields->len; i++)
    {
      SwColourField *field = g_ptr_array_index (self->fields, i);

      field->record.id = g_array_index (ids, gint64, i);
      field->method_version = version;
    }
  return ids != NULL && sw_setup_colour_fields (store, actor, self->fields, error);
}

static gboolean
adopt (SwMethodEditor *self, const SwActor *actor, const Entry *entry, gint64 *id, GError **error)
{
  return sw_setup_adopt_method (sw_context_get_store (sw_editor_get_context (SW_EDITOR (self))),
                                actor, sw_method_template_names ()[entry->origin], entry->name,
                                entry->titrant, entry->caustic, entry->caustic_mmol,
                                entry->caustic_counts, id, error);
}

static gboolean
sw_method_editor_save (SwEditor *editor, const SwActor *actor, gint64 *id, GError **error)
{
  SwMethodEditor *self = SW_METHOD_EDITOR (editor);
  g_auto (Entry) entry = { .caustic_mmol = NAN };
  gboolean named = sw_strip_editor_is_changed (self->strips);
  gboolean good;

  if (!sw_form_save (self->form, &entry) || !sw_strip_editor_save (self->strips, self->fields))
    return FALSE;
  if (!adopt (self, actor, &entry, id, error))
    return FALSE;
  good = !named || write_strips (self, actor, *id, error);
  /* The fields belong to that method now; the next one begins with its template's. */
  self->origin = -1;
  return sw_method_editor_open (editor, *id, good ? error : NULL) && good;
}

static gboolean
sw_method_editor_is_changed (SwEditor *editor)
{
  SwMethodEditor *self = SW_METHOD_EDITOR (editor);

  return gtk_widget_get_visible (self->adopt)
         && (sw_form_is_changed (self->form) || sw_strip_editor_is_changed (self->strips));
}

static gboolean
sw_method_editor_show_error (SwEditor *editor, const GError *error)
{
  return sw_form_show_error (SW_METHOD_EDITOR (editor)->form, error);
}

static void
sw_method_editor_refresh (SwEditor *editor)
{
  sw_form_refresh (SW_METHOD_EDITOR (editor)->form);
}

static void
sw_method_editor_focus (SwEditor *editor, const char *field)
{
  SwMethodEditor *self = SW_METHOD_EDITOR (editor);

  if (gtk_widget_get_visible (self->adopt))
    sw_form_focus (self->form, field);
}

static void
sw_method_editor_finalize (GObject *object)
{
  g_clear_pointer (&SW_METHOD_EDITOR (object)->fields, g_ptr_array_unref);
  G_OBJECT_CLASS (sw_method_editor_parent_class)->finalize (object);
}

static void
sw_method_editor_class_init (SwMethodEditorClass *klass)
{
  SwEditorClass *editor_class = SW_EDITOR_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = sw_method_editor_finalize;
  editor_class->open = sw_method_editor_open;
  editor_class->save = sw_method_editor_save;
  editor_class->is_changed = sw_method_editor_is_changed;
  editor_class->show_error = sw_method_editor_show_error;
  editor_class->refresh = sw_method_editor_refresh;
  editor_class->focus = sw_method_editor_focus;
}

static void
sw_method_editor_init (SwMethodEditor *self)
{
  self->origin = -1;
}

/* ---- building ---- */

static GtkWidget *
add_note (SwMethodEditor *self, const char *text, const char *class)
{
  GtkWidget *note = sw_setup_note_new (text);

  if (class != NULL)
    gtk_widget_add_css_class (note, class);
  gtk_box_append (GTK_BOX (self->adopt), note);
  return note;
}

static void
build_adopt (SwMethodEditor *self, SwContext *context)
{
  const SwWording *wording = sw_context_get_wording (context);

  self->adopt = gtk_box_new (GTK_ORIENTATION_VERTICAL, 12);
  self->form = sw_form_new (context, fields, G_N_ELEMENTS (fields), 2);
  gtk_box_append (GTK_BOX (self->adopt), GTK_WIDGET (self->form));
  self->counts = GTK_LABEL (add_note (self, NULL, NULL));
  self->facts = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 0));
  gtk_box_append (GTK_BOX (self->adopt), GTK_WIDGET (self->facts));
  add_note (self, sw_tr (wording, "What your strips show"), "sw-section");
  add_note (self,
            sw_tr (wording, "The colours of the template are those of bromothymol blue. Hold your "
                            "own strip's card beside the screen, and name and colour each field "
                            "as it is there."),
            NULL);
  self->strips = SW_STRIP_EDITOR (sw_strip_editor_new (context));
  gtk_box_append (GTK_BOX (self->adopt), GTK_WIDGET (self->strips));
}

static GtkWidget *
build_method (SwContext *context)
{
  SwMethodEditor *self = g_object_new (SW_TYPE_METHOD_EDITOR, NULL);
  GtkBox *box = sw_editor_get_box (SW_EDITOR (self));

  sw_editor_set_context (SW_EDITOR (self), context);
  build_adopt (self, context);
  self->view = SW_METHOD_VIEW (sw_method_view_new (context));
  gtk_box_append (box, self->adopt);
  gtk_box_append (box, GTK_WIDGET (self->view));
  g_signal_connect_object (self->form, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  changed_cb (self);
  return GTK_WIDGET (self);
}

/* ---- the section ---- */

static gboolean
describe_method (SwContext *context, gint64 id, SwSetupItem *item, GError **error)
{
  static const char *const in_plans[] = { "method", NULL };
  const SwWording *wording = sw_context_get_wording (context);
  g_autoptr (SwMethod) method = sw_method_load (sw_context_get_store (context), id, error);

  if (method == NULL)
    return FALSE;
  sw_setup_item_take_title (item, g_strdup (method->name));
  sw_setup_item_take_detail (
      item, g_strdup (method->origin != NULL ? sw_say_template (wording, method->origin) : ""));
  sw_setup_item_take_state (
      item, sw_say_uses (wording, sw_count_uses (context, SW_TABLE_PLAN, in_plans, id)));
  return TRUE;
}

const SwSectionSpec sw_section_methods = {
  .name = "methods",
  .title = N_ ("Methods"),
  .add_label = N_ ("_Adopt Method"),
  .new_title = N_ ("Adopt a Method"),
  .empty = N_ ("No method yet. Adopt one of the templates that come with the program; it becomes "
               "your own, with your liquids and the colours of your strips."),
  .void_hint = N_ ("Nothing is deleted: tests keep the version they were made with. It is only not "
                   "offered any more."),
  .table = SW_TABLE_METHOD,
  .fixed = TRUE,
  .editor = build_method,
  .describe = describe_method,
};
