/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of people. */
#include "app/setup/record-editor.h"
#include "app/setup/secret-line.h"
#include "app/setup/section-spec.h"
#include "wording/sentence-setup.h"
#include "workflow/setup.h"

/* clang-format off */
static const SwFormSpec person_fields[] = {
  { .id = "name", .label = N_ ("Name"), .kind = SW_FORM_TEXT, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwPerson, name), .quantity = SW_QUANTITY_NAME },
  { .id = "initials", .label = N_ ("Initials"),
    .hint = N_ ("Short, and nobody else's: they stand beside each entry."), .kind = SW_FORM_TEXT,
    .needed = TRUE, .offset = G_STRUCT_OFFSET (SwPerson, initials), .quantity = SW_QUANTITY_CODE },
  { .id = "role", .label = N_ ("Role"),
    .hint = N_ ("A reviewer releases unusual doses and closes incidents. An administrator may do "
                "all of it."),
    .kind = SW_FORM_WORD, .offset = G_STRUCT_OFFSET (SwPerson, role), .word = sw_say_role,
    .n_words = SW_N_ROLES },
  { .id = "language", .label = N_ ("Language"), .kind = SW_FORM_CODE,
    .offset = G_STRUCT_OFFSET (SwPerson, language), .word = sw_say_language,
    .n_words = SW_N_SETUP_LANGUAGES, .codes = sw_setup_languages, .empty = N_ ("That of the site") },
  { .id = "active", .label = N_ ("Works here now"),
    .hint = N_ ("Only these people are offered when a test begins."), .kind = SW_FORM_SWITCH,
    .offset = G_STRUCT_OFFSET (SwPerson, active) },
  { .id = "second-reader", .label = N_ ("A second person reads the strip"),
    .hint = N_ ("For anybody who is not sure about colours."), .kind = SW_FORM_SWITCH,
    .offset = G_STRUCT_OFFSET (SwPerson, second_reader) },
};
/* clang-format on */

SW_RECORD_OPS (person, SwPerson, sw_person)

static void
prepare_person (SwContext *context, gpointer record)
{
  ((SwPerson *)record)->active = TRUE;
}

static gboolean
save_person (SwContext *context, const SwActor *actor, gpointer record, GError **error)
{
  return sw_setup_person (sw_context_get_store (context), actor, record, error);
}

static void
show_secret (GtkWidget *line, gconstpointer record)
{
  sw_secret_line_show (SW_SECRET_LINE (line), ((const SwPerson *)record)->record.id);
}

static const SwRecordSpec person_spec = {
  .fields = person_fields,
  .n_fields = G_N_ELEMENTS (person_fields),
  .ops = &person_ops,
  .save = save_person,
  .prepare = prepare_person,
  .extra = sw_secret_line_new,
  .show_extra = show_secret,
};

static GtkWidget *
build_person (SwContext *context)
{
  return sw_record_editor_new (context, &person_spec);
}

static gboolean
describe_person (SwContext *context, gint64 id, SwSetupItem *item, GError **error)
{
  const SwWording *wording = sw_context_get_wording (context);
  g_autoptr (SwPerson) person = sw_person_load (sw_context_get_store (context), id, error);

  if (person == NULL)
    return FALSE;
  sw_setup_item_take_title (item, sw_say_person_name (wording, person->name, person->initials));
  sw_setup_item_take_detail (item, g_strdup (sw_say_role (wording, person->role)));
  sw_setup_item_take_state (item, sw_say_person_state (wording, person->active));
  return TRUE;
}

const SwSectionSpec sw_section_people = {
  .name = "people",
  .title = N_ ("People"),
  .add_label = N_ ("_Add Person"),
  .new_title = N_ ("New Person"),
  .empty = N_ ("Nobody is on file yet."),
  .void_hint = N_ ("Nothing is deleted: what this person did stays under their name. For somebody "
                   "who only left, take away “Works here now” instead."),
  .table = SW_TABLE_PERSON,
  .editor = build_person,
  .describe = describe_person,
};
