/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records of the plant: site, people, liquids, lots, machines, settings. */
#pragma once

#include "records/record.h"

G_BEGIN_DECLS

typedef struct
{
  SwRecord record;
  char *name;
  char *uuid;     /* made by the store on create */
  char *zone;     /* IANA name, "Europe/Berlin"; NULL = the PC's */
  char *language; /* "de"; NULL = the PC's */
  char *paper;    /* "a4" or "letter" */
  gboolean demo;  /* an invented plant: banner and watermark */
  int retention_years;
} SwSite;
SW_DECLARE_RECORD (SwSite, sw_site)

typedef enum
{
  SW_ROLE_TECHNICIAN,
  SW_ROLE_REVIEWER,
  SW_ROLE_ADMINISTRATOR,
  SW_ROLE_AUDITOR, /* reads only */
  SW_N_ROLES
} SwRole;

typedef struct
{
  SwRecord record;
  char *name;
  char *initials; /* unique */
  SwRole role;
  char *language; /* NULL = the site's */
  gboolean active;
  gboolean second_reader; /* the test asks for a second reader of the strip */
  char *secret;           /* Argon2id text; the journal says only "changed", with a digest */
  gint64 secret_given_by; /* the person who chose it for them; 0 = they did. To be changed at the
                             next sign-in */
} SwPerson;
SW_DECLARE_RECORD (SwPerson, sw_person)

/* Families a method can be used for; stored as words. */
typedef enum
{
  SW_FAMILY_HYDROCARBON,
  SW_FAMILY_MODIFIED_ALCOHOL,
  SW_FAMILY_CHLORINATED,
  SW_FAMILY_OTHER,
  SW_N_FAMILIES
} SwFamily;

typedef struct
{
  SwRecord record;
  char *name; /* unique */
  SwFamily family;
  double density_g_ml; /* NAN = unknown */
  char *sds_reference;
} SwSolvent;
SW_DECLARE_RECORD (SwSolvent, sw_solvent)

typedef enum
{
  SW_PRODUCT_NEUTRALISER, /* may be dosed */
  SW_PRODUCT_CAUSTIC,     /* sodium hydroxide solution for the flask; never dosed */
  SW_PRODUCT_TITRANT,     /* a bench titrant that is not the neutraliser itself */
  SW_PRODUCT_STRIPS,
  SW_PRODUCT_CONTROL,
  SW_N_PRODUCT_USES
} SwProductUse;

typedef enum
{
  SW_NEUTRALISER_UNKNOWN,
  SW_NEUTRALISER_AMINE,
  SW_NEUTRALISER_EPOXIDE,
  SW_NEUTRALISER_BOTH,
  SW_N_NEUTRALISER_KINDS
} SwNeutraliserKind;

typedef struct
{
  SwRecord record;
  char *name; /* unique */
  SwProductUse use;
  SwNeutraliserKind kind;    /* of a neutraliser */
  double strength_mmol_ml;   /* NAN = unknown */
  double strength_u_mmol_ml; /* standard uncertainty; NAN = unknown */
  double density_g_ml;
  double limit_each_ml_l;  /* mL of product per L of solvent in one addition; NAN = not on file */
  double limit_total_ml_l; /* the same for all since the fill was new */
  char *no_limits_by;      /* "the sheet gives none", said by this name; NULL = nobody said so */
  double reaction_min;     /* how long the product takes to act, min; NAN = unknown */
  char *sds_reference;
} SwProduct;
SW_DECLARE_RECORD (SwProduct, sw_product)

typedef struct
{
  SwRecord record;
  gint64 product;
  char *code; /* unique per product */
  gint64 received_ms;
  gint64 opened_ms;
  gint64 expires_ms; /* 0 = none given */
  SwAmount quantity; /* mL for liquids, pieces for strips */
  gboolean used_up;
} SwLot;
SW_DECLARE_RECORD (SwLot, sw_lot)

typedef enum
{
  SW_SERVICE_RUNNING,
  SW_SERVICE_STOPPED,
  SW_SERVICE_RETIRED,
  SW_N_SERVICE_STATES
} SwServiceState;

typedef struct
{
  SwRecord record;
  char *tag;  /* unique, "M-07" */
  char *name; /* "Long bed" */
  char *area;
  gint64 solvent;
  gint64 neutraliser; /* product dosed into it; 0 = not decided: no dose is shown */
  SwServiceState service;
  double chamber_l;       /* NAN = unknown */
  char *dosing_place;     /* where the maker's manual allows it; NULL: no dose is shown */
  double circulation_min; /* before a re-test means anything; NAN: no dose is shown */
  SwAmount graduation;    /* mL, marks of the measuring jug; NAN: no dose is shown */
  double reserve_low;     /* band of reserve, steps; NAN = not used */
  double reserve_high;
} SwMachine;
SW_DECLARE_RECORD (SwMachine, sw_machine)

typedef enum
{
  SW_COMPARTMENT_WASH_TANK,
  SW_COMPARTMENT_CHAMBER,
  SW_COMPARTMENT_STILL,
  SW_COMPARTMENT_CONDENSATE,
  SW_COMPARTMENT_SEPARATOR,
  SW_COMPARTMENT_PIPES,
  SW_COMPARTMENT_OTHER,
  SW_N_COMPARTMENT_KINDS
} SwCompartmentKind;

typedef struct
{
  SwRecord record;
  gint64 machine;
  SwCompartmentKind kind;
  char *name;
  SwAmount volume;   /* L, running volume */
  double volume_u_l; /* standard uncertainty, L; NAN = unknown */
} SwCompartment;
SW_DECLARE_RECORD (SwCompartment, sw_compartment)

typedef struct
{
  SwRecord record;
  gint64 machine;
  int rank; /* order of preference, 1 first */
  char *name;
  char *directions;
  gboolean dose_basis; /* doses may be worked out from it */
} SwSamplingPoint;
SW_DECLARE_RECORD (SwSamplingPoint, sw_sampling_point)

/* A machine's solvent from one full change to the next; happened_ms is its start. */
typedef struct
{
  SwRecord record;
  gint64 machine;
  gint64 solvent;
  gint64 ended_ms; /* 0 = the present one */
} SwFill;
SW_DECLARE_RECORD (SwFill, sw_fill)

typedef struct
{
  SwRecord record;
  char *name; /* unique */
  char *value;
} SwSetting;
SW_DECLARE_RECORD (SwSetting, sw_setting)

/* ---- helpers ---- */

/* The file's site (row 1). (transfer full) */
SwSite *sw_site_get (SwStore *store, GError **error);
/* Sum of the machine's compartments, L: value and combined standard uncertainty (root of the sum of
 * squares; a compartment without one counts as 0 and makes *complete FALSE). SW_UNKNOWN without
 * any. */
gboolean sw_machine_volume (
    SwStore *store, gint64 machine, SwQuantity *system_l, gboolean *complete, GError **error);
/* The machine's present fill; 0 when there is none. */
gint64 sw_machine_fill (SwStore *store, gint64 machine, GError **error);
/* A setting's value or NULL. (transfer full) */
char *sw_setting_dup (SwStore *store, const char *name, GError **error);
/* Inside an act: writes or updates a setting. */
gboolean sw_setting_put (SwStore *store, const char *name, const char *value, GError **error);

G_END_DECLS
