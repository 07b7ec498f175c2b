/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of people, and of the site they work at. */
#include "app/setup/record-editor.h"
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

static const SwFormSpec site_fields[] = {
  { .id = "name", .label = N_ ("Name of the site"), .kind = SW_FORM_TEXT, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SwSite, name), .quantity = SW_QUANTITY_NAME },
  { .id = "zone", .label = N_ ("Time zone"),
    .hint = N_ ("As Europe/Berlin or America/Chicago. Empty: the zone of this computer."),
    .kind = SW_FORM_TEXT, .offset = G_STRUCT_OFFSET (SwSite, zone), .quantity = SW_QUANTITY_CODE },
  { .id = "language", .label = N_ ("Language"), .kind = SW_FORM_CODE,
    .offset = G_STRUCT_OFFSET (SwSite, language), .word = sw_say_language,
    .n_words = SW_N_SETUP_LANGUAGES, .codes = sw_setup_languages,
    .empty = N_ ("That of this computer") },
  { .id = "paper", .label = N_ ("Paper"), .kind = SW_FORM_CODE,
    .offset = G_STRUCT_OFFSET (SwSite, paper), .word = sw_say_paper, .n_words = SW_N_SETUP_PAPERS,
    .codes = sw_setup_papers, .empty = N_ ("As usual in the country") },
};
/* clang-format on */

/* ---- people ---- */

SW_RECORD_OPS (person, SwPerson, sw_person)

static void
prepare_person (SwContext *context, gpointer record)
{
  ((SwPerson *)record)->active = TRUE;
}

/* The first person of a new file is the one at the bench: there is nobody else to pick. */
static gboolean
save_person (SwContext *context, const SwActor *actor, gpointer record, GError **error)
{
  SwPerson *person = record;

  if (!sw_setup_person (sw_context_get_store (context), actor, person, error))
    return FALSE;
  if (sw_context_get_person (context) == 0)
    sw_context_set_person (context, person->record.id);
  return TRUE;
}

static const SwRecordSpec person_spec = {
  .fields = person_fields,
  .n_fields = G_N_ELEMENTS (person_fields),
  .ops = &person_ops,
  .save = save_person,
  .prepare = prepare_person,
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
  .empty = N_ ("Nobody is on file yet. Begin with yourself: every entry names who made it."),
  .void_hint = N_ ("Nothing is deleted: what this person did stays under their name. For somebody "
                   "who only left, take away “Works here now” instead."),
  .table = SW_TABLE_PERSON,
  .editor = build_person,
  .describe = describe_person,
};

/* ---- site ---- */

SW_RECORD_OPS (site, SwSite, sw_site)

static gboolean
save_site (SwContext *context, const SwActor *actor, gpointer record, GError **error)
{
  return sw_setup_site (sw_context_get_store (context), actor, record, error);
}

static gboolean
is_blank_site (gconstpointer record)
{
  return ((const SwSite *)record)->name == NULL;
}

static const SwRecordSpec site_spec = {
  .fields = site_fields,
  .n_fields = G_N_ELEMENTS (site_fields),
  .ops = &site_ops,
  .save = save_site,
  .is_blank = is_blank_site,
  .note = N_ ("Language, zone and paper take effect when the file is opened next."),
};

static GtkWidget *
build_site (SwContext *context)
{
  return sw_record_editor_new (context, &site_spec);
}

const SwSectionSpec sw_section_site = {
  .name = "site",
  .title = N_ ("Site"),
  .new_title = N_ ("Site"),
  .table = SW_TABLE_SITE,
  .single = TRUE,
  .editor = build_site,
};
