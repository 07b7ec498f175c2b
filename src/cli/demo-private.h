/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of the demo plant share this. */
#pragma once

#include "cli/demo.h"
#include "workflow/guided.h"

G_BEGIN_DECLS

#define SW_DEMO_MINUTE_MS G_GINT64_CONSTANT (60000)
#define SW_DEMO_DAY_MS G_GINT64_CONSTANT (86400000)

/* How a machine stands at the end. */
typedef enum
{
  SW_DEMO_ENDING_NONE,
  SW_DEMO_ENDING_DUE_TODAY,
  SW_DEMO_ENDING_RETEST, /* acid found and dosed a few hours ago */
  SW_DEMO_ENDING_OPEN    /* somebody is in the middle of a test */
} SwDemoEnding;

/* A machine as nature has it: what the tests try to find out. */
typedef struct
{
  const char *tag; /* Borrowed from the plan of the plant: group "machine TAG" */
  gint64 id;       /* 0 = not on file yet */
  gint64 plan;
  gint64 point;
  gint64 start_ms;
  gint64 end_ms;
  double acid;     /* net acid now, drops; negative: reserve */
  gint64 acid_ms;  /* what "now" is for acid */
  double rate;     /* drops a day at rate_from_ms ... */
  double rate_end; /* ... and at the end */
  gint64 rate_from_ms;
  double noise; /* of a titration, drops */
  double extra;
  gint64 change_ms; /* of all its solvent; 0 = never, or done */
  double rate_after, rate_after_end;
  GArray *visits; /* Owned: gint64, times of its only tests; NULL = when due */
  SwDemoEnding ending;
  gint64 next_ms;
  GRand *random;       /* Owned: each machine has its own luck, whatever the others do */
  gint64 answers_dose; /* the next test is the re-test of this dose; 0 = routine */
} SwDemoMachine;

typedef struct
{
  GKeyFile *texts;   /* Owned: data/demo/plant.ini */
  SwStore *store;    /* Owned */
  GTimeZone *zone;   /* Owned */
  GRand *random;     /* Borrowed: of the machine that is at work */
  char *workstation; /* Owned */
  GArray *machines;  /* Owned: SwDemoMachine */
  GStrv tags;        /* Owned */
  gint64 now_ms;     /* the clock; only goes forward */
  gint64 end_ms;
  gint64 technician, colleague, reviewer, administrator;
  gint64 product, strips;
  gint64 product_lot, strip_lot, first_strip_lot, first_product_lot;
  gint64 hydrocarbon, alcohol;
  gint64 method;
  gint64 lots_ms;        /* when the second lots are opened; 0 = done */
  gint64 review_ms;      /* when the reviewer next looks at what was done */
  gint64 calibration_ms; /* when the dropper is calibrated again; 0 = done */
  SwDemoCounts counts;
} SwDemo;

/* 0 = the program itself, before anybody is there. */
SwActor sw_demo_actor (const SwDemo *demo, gint64 person);
SwSigner sw_demo_signer (gint64 person);
/* The clock moves on by @minutes and a little. */
void sw_demo_wait (SwDemo *demo, double minutes);
double sw_demo_gauss (SwDemo *demo);

/* ---- demo-plant.c: set-up, by the administrator ---- */
gboolean sw_demo_set_up_plant (SwDemo *demo, GError **error);
gboolean sw_demo_set_up_machine (SwDemo *demo, SwDemoMachine *machine, GError **error);
/* What the plant does between tests, when its time has come: new lots, a new calibration. */
gboolean sw_demo_keep_house (SwDemo *demo, GError **error);
/* A text of the plant; never NULL. (transfer full) */
char *sw_demo_text (const SwDemo *demo, const char *group, const char *key);
double sw_demo_number (const SwDemo *demo, const char *group, const char *key);

/* ---- demo-review.c ---- */
/* What the reviewer does, when its time has come. */
gboolean sw_demo_review (SwDemo *demo, GError **error);

/* ---- demo-model.c ---- */
void sw_demo_machine_load (SwDemo *demo, SwDemoMachine *machine, const char *tag);
void sw_demo_machine_clear (SwDemoMachine *machine);
/* Lets acid form until @at_ms. */
void sw_demo_machine_age (SwDemo *demo, SwDemoMachine *machine, gint64 at_ms);
/* New solvent: a small reserve from its maker, and the cause is gone. */
void sw_demo_machine_renew (SwDemoMachine *machine, gint64 at_ms);

/* ---- demo-test.c ---- */
/* A whole test now, with its dose where one is due; sets answers_dose and next_ms. */
gboolean sw_demo_test (SwDemo *demo, SwDemoMachine *machine, GError **error);
/* The same, left in the middle. */
gboolean sw_demo_open_test (SwDemo *demo, SwDemoMachine *machine, GError **error);

G_END_DECLS
