/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records of how a test is done: methods, their versions, colour fields and texts, calibrations,
 * plans. */
#pragma once

#include "calc/outcome.h"
#include "records/plant.h"

G_BEGIN_DECLS

typedef struct
{
  SwRecord record;
  char *name;   /* "Drop test, bromothymol strip" */
  char *origin; /* the template it was adopted from, such as "drop-test-caustic"; NULL = own */
  gboolean active;
} SwMethod;
SW_DECLARE_RECORD (SwMethod, sw_method)

/* A version never changes once a titration uses it; a change is a new version. */
typedef struct
{
  SwRecord record;
  gint64 method;
  int version; /* 1, 2, ... unique per method */
  SwDirection direction;
  gboolean burette;         /* steps are mL of a burette; else drops */
  gboolean for_hydrocarbon; /* families the method may be used for */
  gboolean for_modified_alcohol;
  gboolean for_chlorinated;
  gboolean for_other;
  SwAmount sample; /* mL; default 50 */
  double sample_u_ml;
  gint64 titrant; /* product delivered drop by drop (the neutraliser itself, or a titrant) */
  gint64 caustic; /* product, 0 = no caustic addition */
  SwAmount caustic_volume; /* mL of it into the flask */
  double caustic_mmol;     /* A; NAN = the amount is not known */
  double caustic_u_mmol;
  gboolean caustic_counts;
  SwAmount water;   /* mL */
  char *water_kind; /* "deionised", "any clean" */
  double blank;     /* B, steps; 0 = none */
  double maximum;   /* last step, steps */
  double shake_s;
  double strip_wait_s;         /* read the strip within */
  double supplier_factor_ml_l; /* supplier's mL of product per L of solvent and step; NAN = none */
  gboolean supplier_governs;
} SwMethodVersion;
SW_DECLARE_RECORD (SwMethodVersion, sw_method_version)

typedef struct
{
  SwRecord record;
  gint64 method_version;
  int rank;    /* order on the strip and number key, 1 first */
  char *label; /* "Yellow" */
  SwField meaning;
  char *swatch; /* "#E8C53A" */
} SwColourField;
SW_DECLARE_RECORD (SwColourField, sw_colour_field)

/* A method's prompts in each language; read by step and language. */
typedef struct
{
  SwRecord record;
  gint64 method_version;
  char *step;     /* "draw", "prepare", "read", "caution" */
  char *language; /* "en" */
  char *text;
} SwMethodText;
SW_DECLARE_RECORD (SwMethodText, sw_method_text)

/* The volume of one drop of one liquid from one dropper; happened_ms is when it was measured. */
typedef struct
{
  SwRecord record;
  gint64 product; /* the liquid */
  char *dropper;  /* "dropper A" */
  SwAmount drop;  /* mL */
  double drop_u_ml;
  double freedom; /* NAN = infinite */
  int weighings;  /* 0: the value was typed, not measured */
  gint64 due_ms;  /* 0 = no date */
} SwCalibration;
SW_DECLARE_RECORD (SwCalibration, sw_calibration)

typedef struct
{
  SwRecord record;
  gint64 machine;
  gint64 method;
  double shortest_days;
  double longest_days;
  double alpha;            /* accepted risk */
  double back_to_start_at; /* an acid result of so many steps returns to one day; NAN = off */
  gboolean active;
} SwPlan;
SW_DECLARE_RECORD (SwPlan, sw_plan)

/* ---- helpers ---- */

/* The newest version of a method; 0 when there is none. */
gint64 sw_method_latest_version (SwStore *store, gint64 method, GError **error);
/* The calibration of a liquid in force at a time; 0 when there is none. */
gint64 sw_calibration_in_force (SwStore *store, gint64 product, gint64 at_ms, GError **error);
/* The text of a step in a language, falling back to "en"; NULL when there is none. (transfer full)
 */
char *sw_method_text_dup (
    SwStore *store, gint64 version, const char *step, const char *language, GError **error);
/* Whether a version may be used for a solvent family. */
gboolean sw_method_version_suits (const SwMethodVersion *version, SwFamily family);

/* Templates shipped with the program (the .ini files of data/methods, embedded). Names,
 * NULL-terminated. */
const char *const *sw_method_template_names (void);
/* What a template would bring, for a look before it is adopted: version and colour fields (element
 * SwColourField), all (transfer full), and whether it asks for a caustic addition. */
gboolean sw_method_template_load (const char *template_name,
                                  SwMethodVersion **version,
                                  GPtrArray **fields,
                                  gboolean *has_caustic,
                                  GError **error);
/* Inside an act: copies a template, texts and colour fields included, into rows as version 1 of a
 * new method. @titrant and @caustic are products (caustic 0 when the template has none). What a
 * template cannot know (caustic amount, drop volume) stays empty. (out) the method's id. */
gboolean sw_method_adopt (SwStore *store,
                          const char *template_name,
                          const char *name,
                          gint64 titrant,
                          gint64 caustic,
                          gint64 *method,
                          GError **error);

G_END_DECLS
