/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The words of the set-up: what kinds of things there are, and what its lists and forms say.
 *
 * The kinds are counted as records/plant.h counts them; wording knows no records, so they come as
 * plain numbers. NULL for a number that is none of them.
 */
#pragma once

#include "calc/calibration.h"
#include "wording/sentence.h"

G_BEGIN_DECLS

/* One or two words, with a capital, for choices and lists. (transfer none) */
const char *sw_say_role (const SwWording *wording, guint role);             /* SwRole */
const char *sw_say_family (const SwWording *wording, guint family);         /* SwFamily */
const char *sw_say_product_use (const SwWording *wording, guint use);       /* SwProductUse */
const char *sw_say_neutraliser_kind (const SwWording *wording, guint kind); /* SwNeutraliserKind */
const char *sw_say_service_state (const SwWording *wording, guint service); /* SwServiceState */
const char *sw_say_compartment_kind (const SwWording *wording, guint kind); /* SwCompartmentKind */
/* "drop volume known" or "weighed drops": how a dropper's value comes about, 0 and 1. */
const char *sw_say_dropper_way (const SwWording *wording, guint way);

/* The languages a person can read, each named in itself, and the papers. */
#define SW_N_SETUP_LANGUAGES 12
extern const char *const sw_setup_languages[SW_N_SETUP_LANGUAGES]; /* "en", "de", ... */
const char *sw_say_language (const SwWording *wording, guint language);
#define SW_N_SETUP_PAPERS 2
extern const char *const sw_setup_papers[SW_N_SETUP_PAPERS]; /* "a4", "letter" */
const char *sw_say_paper (const SwWording *wording, guint paper);

/* ---- pages; (transfer none) ---- */
const char *sw_say_saved (const SwWording *wording);
const char *sw_say_undone (const SwWording *wording);
const char *sw_say_out_of_use (const SwWording *wording);
const char *sw_say_setup_read_only (const SwWording *wording);

/* ---- all below (transfer full) ---- */
/* "2026-05-24" in the reader's zone, as it is typed in any language. */
char *sw_date_typed_format (const SwWording *wording, gint64 utc_ms);
/* @what has unsaved entries. */
char *sw_say_draft (const SwWording *wording, const char *what);

/* Lines of the lists. A text may be NULL or empty. */
char *sw_say_machine_line (const SwWording *wording, const char *area, const char *solvent);
char *sw_say_ready (const SwWording *wording, const char *service, gulong missing);
char *sw_say_uses (const SwWording *wording, gulong n);
char *
sw_say_lot_state (const SwWording *wording, gboolean used_up, gint64 expires_ms, gint64 now_ms);
char *sw_say_dropper_state (const SwWording *wording, double drop_ml, int weighings);
char *sw_say_method_line (const SwWording *wording, const char *titrant, const char *caustic);
char *sw_say_version (const SwWording *wording, int version);
char *sw_say_person_name (const SwWording *wording, const char *name, const char *initials);
char *sw_say_person_state (const SwWording *wording, gboolean active);

/* "System volume: 320 L, standard uncertainty 6 L." @complete FALSE: some part has no uncertainty.
 */
char *sw_say_system_volume (const SwWording *wording, SwQuantity system_l, gboolean complete);
/* What weighings say about the drop, and about the weighing that does not fit (NULL: all fit). */
char *sw_say_calibration (const SwWording *wording, const SwCalibrationResult *result, gulong k);
char *sw_say_outlier (const SwWording *wording, const SwCalibrationResult *result);

/* ---- methods ---- */
/* What a template is called and when to take it; its own name for one that has no words yet.
 * (transfer none) */
const char *sw_say_template (const SwWording *wording, const char *name);
const char *sw_say_template_use (const SwWording *wording, const char *name);
/* "Sample volume: 50 mL" (transfer full) */
char *
sw_say_method_fact (const SwWording *wording, SwQuantityName quantity, double value, SwUnit unit);
/* What it means that the caustic addition counts, or does not. (transfer none) */
const char *sw_say_caustic_counts (const SwWording *wording, gboolean counts);
/* "Acid is shown by", a field's name beside its colour. (transfer full) */
char *sw_say_strip_row (const SwWording *wording, SwField meaning);
/* "Yellow means acid" (transfer full) */
char *sw_say_colour_field (const SwWording *wording, const char *label, SwField meaning);
/* Heading of a method's text: "draw", "prepare", "read", "caution". (transfer none) */
const char *sw_say_method_step (const SwWording *wording, const char *step);

G_END_DECLS
