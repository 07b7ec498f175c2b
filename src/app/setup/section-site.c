/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-up of the site: its row, and the settings of how people sign in, as one form. */
#include "app/setup/record-editor.h"
#include "app/setup/section-spec.h"
#include "wording/sentence-setup.h"
#include "workflow/rights.h"
#include "workflow/setup.h"

/* What the form shows: members of the site and two settings. */
typedef struct
{
  SwRecord record;
  SwSite *site; /* Owned */
  char *name, *zone, *language, *paper;
  gboolean name_only;
  double idle_lock_min;
} SiteForm;

/* clang-format off */
static const SwFormSpec site_fields[] = {
  { .id = "name", .label = N_ ("Name of the site"), .kind = SW_FORM_TEXT, .needed = TRUE,
    .offset = G_STRUCT_OFFSET (SiteForm, name), .quantity = SW_QUANTITY_NAME },
  { .id = "zone", .label = N_ ("Time zone"),
    .hint = N_ ("As Europe/Berlin or America/Chicago. Empty: the zone of this computer."),
    .kind = SW_FORM_TEXT, .offset = G_STRUCT_OFFSET (SiteForm, zone), .quantity = SW_QUANTITY_CODE },
  { .id = "language", .label = N_ ("Language"), .kind = SW_FORM_CODE,
    .offset = G_STRUCT_OFFSET (SiteForm, language), .word = sw_say_language,
    .n_words = SW_N_SETUP_LANGUAGES, .codes = sw_setup_languages,
    .empty = N_ ("That of this computer") },
  { .id = "paper", .label = N_ ("Paper"), .kind = SW_FORM_CODE,
    .offset = G_STRUCT_OFFSET (SiteForm, paper), .word = sw_say_paper, .n_words = SW_N_SETUP_PAPERS,
    .codes = sw_setup_papers, .empty = N_ ("As usual in the country") },
  { .id = "name-only", .group = N_ ("Signing in"),
    .label = N_ ("Technicians may work by name alone"),
    .hint = N_ ("Then anybody at the bench can pick a technician’s name, without a secret, and test, "
                "dose and sign under it. The records say so, and an auditor will ask how you know who "
                "it was. Who has a secret is asked for it all the same; reviewers and administrators "
                "always need one."),
    .kind = SW_FORM_SWITCH, .offset = G_STRUCT_OFFSET (SiteForm, name_only), .wide = TRUE },
  { .id = "idle-lock", .label = N_ ("Sign out after this time without key or pointer"),
    .hint = N_ ("1 to 480 min; 0: never. Not while a guided test is on screen, and nothing typed is "
                "lost."),
    .kind = SW_FORM_REAL, .needed = TRUE, .offset = G_STRUCT_OFFSET (SiteForm, idle_lock_min),
    .quantity = SW_QUANTITY_IDLE_LOCK, .unit = SW_UNIT_MINUTE },
};
/* clang-format on */

static gpointer
create (void)
{
  SiteForm *form = g_new0 (SiteForm, 1);

  form->site = sw_site_new ();
  form->idle_lock_min = SW_IDLE_LOCK_MIN;
  return form;
}

static void
discard (gpointer data)
{
  SiteForm *form = data;

  sw_site_free (form->site);
  g_free (form->name);
  g_free (form->zone);
  g_free (form->language);
  g_free (form->paper);
  g_free (form);
}

static gpointer
copy (gconstpointer data)
{
  const SiteForm *form = data;
  SiteForm *other = g_memdup2 (form, sizeof *form);

  other->site = sw_site_copy (form->site);
  other->name = g_strdup (form->name);
  other->zone = g_strdup (form->zone);
  other->language = g_strdup (form->language);
  other->paper = g_strdup (form->paper);
  return other;
}

static gpointer
load (SwStore *store, gint64 id, GError **error)
{
  SwSite *site = sw_site_load (store, id, error);
  SiteForm *form;

  if (site == NULL)
    return NULL;
  form = g_new0 (SiteForm, 1);
  form->record = site->record;
  form->site = site;
  form->name = g_strdup (site->name);
  form->zone = g_strdup (site->zone);
  form->language = g_strdup (site->language);
  form->paper = g_strdup (site->paper);
  form->name_only = sw_right_name_only (store);
  form->idle_lock_min = sw_right_idle_lock_min (store);
  return form;
}

static const SwRecordOps ops = { create, load, copy, discard };

static void
set_text (char **place, const char *text)
{
  g_free (*place);
  *place = g_strdup (text);
}

/* The form knows the range from 0; between 0 and the least there is nothing. */
static gboolean
check_minutes (const SiteForm *form, GError **error)
{
  return form->idle_lock_min == 0.0
         || sw_fault_check_range (SW_QUANTITY_IDLE_LOCK, form->idle_lock_min,
                                  SW_IDLE_LOCK_LEAST_MIN, SW_IDLE_LOCK_MOST_MIN, SW_UNIT_MINUTE,
                                  error);
}

/* Three acts at most, each a change that makes sense without the others. The numbers are checked
 * before the first; what did not change is not written. */
static gboolean
save (SwContext *context, const SwActor *actor, gpointer record, GError **error)
{
  SwStore *store = sw_context_get_store (context);
  SiteForm *form = record;

  set_text (&form->site->name, form->name);
  set_text (&form->site->zone, form->zone);
  set_text (&form->site->language, form->language);
  set_text (&form->site->paper, form->paper);
  return check_minutes (form, error) && sw_setup_site (store, actor, form->site, error)
         && (form->name_only == sw_right_name_only (store)
             || sw_right_set_name_only (store, actor, form->name_only, error))
         && (form->idle_lock_min == sw_right_idle_lock_min (store)
             || sw_right_set_idle_lock_min (store, actor, form->idle_lock_min, error));
}

static gboolean
is_blank (gconstpointer record)
{
  return ((const SiteForm *)record)->site->name == NULL;
}

static const SwRecordSpec spec = {
  .fields = site_fields,
  .n_fields = G_N_ELEMENTS (site_fields),
  .ops = &ops,
  .save = save,
  .is_blank = is_blank,
  .note = N_ ("Language, zone and paper take effect when the file is opened next."),
};

static GtkWidget *
build_site (SwContext *context)
{
  return sw_record_editor_new (context, &spec);
}

const SwSectionSpec sw_section_site = {
  .name = "site",
  .title = N_ ("Site"),
  .new_title = N_ ("Site"),
  .table = SW_TABLE_SITE,
  .single = TRUE,
  .editor = build_site,
};
