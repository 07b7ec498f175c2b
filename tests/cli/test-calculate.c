/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Calculations from the command line: what they print, in whatever language.
 *
 * Figures: worked doses and the identity of the acid number recomputed by hand (one drop of 0.05 mL
 * in 50 mL is worth 420 mL in 420 L); acid acceptance from the definition, 1.00 mL of 0.1 N on 10 g
 * is 0.040 % NaOH; OpenStax Chemistry 2e, 50.00 mL of acid and 35.23 mL of 0.250 M NaOH: 0.176 M.
 */
#include "spawn.h"
#include "support/support.h"

#define DOSE "calculate dose --acid-at 2 --pass-at 3 --drop-volume '0.05 mL' --system '420 L' "
#define RATIO DOSE "--sample '50 mL' --strength-ratio 1 "
#define STRENGTHS DOSE "--titrant '0.1 mmol/mL' --product '7.5 mmol/mL' "
#define CALIBRATION "calculate calibration --density '0.998 g/mL' --drops 20 "

typedef struct
{
  const char *name;
  const char *arguments;
  const char *lines; /* each must be there; newline between them */
} Row;

/* clang-format off */
static const Row rows[] = {
  { "dose", RATIO,
    "dose\t1260\tmL\ndose_low\t840\tmL\ndose_high\t1260\tmL\ndose_best\t1050\tmL\n"
    "volume_per_drop\t420\tmL\nnet_acid_low\t2\tsteps\nnet_acid_high\t3\tsteps\n"
    "dose_measured\tnone\tmL\ncontent_low_mmol_l\tnone\tmmol/L\nstep_too_wide\tno\n"
    "assumed\tblank\t0\nassumed\textra_drops\t0\nassumed\tcaustic\t0 mmol\n"
    "assumed\tu_drop_volume\t0 mL\nassumed\tu_system\t0 L\nassumed\tgraduation\tnone\n"
    "assumed\tlimit_each\tnone\nassumed\tlimit_total\tnone\nassumed\tdirection\tbase" },
  { "assumed sample", DOSE "--strength-ratio 1",
    "dose\t1260\tmL\nassumed\tsample\t50 mL\nassumed\tu_sample\t0 mL" },
  { "other order, equals signs",
    "calculate dose --strength-ratio=1 --system='420 L' --drop-volume='0.05 mL' --pass-at=3 --acid-at=2",
    "dose\t1260\tmL" },
  { "dilute titrant", STRENGTHS,
    "dose\t16.8\tmL\nvolume_per_drop\t5.6\tmL\ncontent_low_mmol_l\t0.2\tmmol/L\n"
    "content_high_mmol_l\t0.3\tmmol/L\ncontent_best_mmol_l\t0.25\tmmol/L" },
  { "dilute titrant, counting caustic", STRENGTHS "--caustic '0.1 mmol' --caustic-counts",
    "dose\t128.8\tmL\nnet_acid_low\t22\tsteps\nnet_acid_high\t23\tsteps" },
  { "dilute titrant, caustic as threshold", STRENGTHS "--caustic '0.1 mmol'",
    "dose\t16.8\tmL\nthreshold_mmol_l\t2\tmmol/L\nassumed\tcaustic_counts\tno" },
  { "product as titrant", DOSE "--strength-ratio 1 --titrant '7.5 mmol/mL' --product '7.5 mmol/mL'",
    "dose\t1260\tmL" },
  { "product as titrant, counting caustic",
    DOSE "--strength-ratio 1 --titrant '7.5 mmol/mL' --product '7.5 mmol/mL' --caustic '0.1 mmol' --caustic-counts",
    "dose\t1372\tmL" },
  { "extra drops", RATIO "--extra-drops 2", "dose\t2100\tmL\ndose_extra\t840\tmL" },
  { "graduation", RATIO "--graduation '50 mL'", "dose\t1260\tmL\ndose_measured\t1300\tmL" },
  { "limit each", RATIO "--graduation '50 mL' --limit-each '2 mL/L' --limit-total '10 mL/L'",
    "addition\t800\tmL\naddition\t500\tmL" },
  { "other units",
    "calculate dose --acid-at 2 --pass-at 3 --drop-volume '50 uL' --system '0.42 m3'"
        " --strength-ratio '100 %'",
    "dose\t1260\tmL" },
  { "uncertainty", RATIO "--u-drop-volume '0.005 mL' --freedom-drop-volume 9",
    "dominant\tend_point\nassumed\tu_system\t0 L" },
  { "wide step",
    "calculate dose --acid-at 5 --pass-at 8 --drop-volume '0.05 mL' --system '420 L' --strength-ratio 1",
    "dose\tnone\tmL\nstep_too_wide\tyes\ndose_high\t3360\tmL" },
  { "reserve titration",
    "calculate dose --direction acid --acid-at 2 --pass-at 3 --reserve-high 6"
        " --drop-volume '0.05 mL' --system '420 L' --strength-ratio 1",
    "dose\t1680\tmL\nnet_acid_low\t-3\tsteps\nnet_acid_high\t-2\tsteps" },

  { "outcome", "calculate outcome --readings '0:acid,1:acid,2:acid,3:neutral,3:neutral'",
    "outcome\tacid_found\nnext\tclose\nacid_at\t2\tsteps\npass_at\t3\tsteps\ntotal\t3\tsteps\n"
    "net_acid_low\t2\tsteps\nnet_acid_high\t3\tsteps\nassumed\tmaximum\t1000\nassumed\tblank\t0\n"
    "assumed\tcaustic\t0 mmol\nassumed\tdirection\tbase" },
  { "open without a second strip", "calculate outcome --readings '0:acid,1:acid,3:neutral'",
    "outcome\topen\nnext\tsecond_strip\nnet_acid_low\tnone\tsteps\nnet_acid_high\tnone\tsteps" },
  { "passed", "calculate outcome --readings '0:neutral,0:neutral'",
    "outcome\tpassed\nnet_acid_low\t-inf\tsteps\nnet_acid_high\t0\tsteps\nacid_at\tnone\tsteps" },
  { "over range", "calculate outcome --readings '0:acid,20:acid' --maximum 20",
    "outcome\tover_range\nnext\tstop_and_call\nnet_acid_low\t20\tsteps\nnet_acid_high\tinf\tsteps" },
  { "struck",
    "calculate outcome --readings '0:acid, 1:acid, 2:alkaline:struck, 2:acid, 3:neutral, 3:neutral'",
    "outcome\tacid_found\nacid_at\t2\tsteps" },
  { "not added", "calculate outcome --readings '0:acid,1:acid,9:acid:not-added,2:neutral,2:neutral'",
    "outcome\tacid_found\ntotal\t2\tsteps" },
  { "blank", "calculate outcome --readings '0:acid,1:acid,2:acid,3:neutral,3:neutral' --blank 1",
    "net_acid_low\t1\tsteps\nnet_acid_high\t3\tsteps" },
  { "counting caustic",
    "calculate outcome --readings '0:neutral,0:neutral' --caustic '0.1 mmol' --caustic-counts"
        " --drop-volume '0.05 mL' --titrant '0.1 mmol/mL' --sample '50 mL'",
    "caustic_steps\t20\tsteps\nnet_acid_high\t20\tsteps\ncontent_high_mmol_l\t2\tmmol/L" },
  { "threshold", "calculate outcome --readings '0:neutral,0:neutral' --caustic '0.1 mmol' --sample '50 mL'",
    "threshold_mmol_l\t2\tmmol/L\nassumed\tcaustic_counts\tno" },
  { "acid titrant",
    "calculate outcome --direction acid --readings '0:alkaline,4:alkaline,5:neutral,5:neutral'",
    "outcome\treserve_found\nnet_acid_low\t-5\tsteps\nnet_acid_high\t-4\tsteps" },

  { "content", "calculate content --drops 20 --drop-volume '0.05 mL' --titrant '0.1 mmol/mL'",
    "content_mmol_l\t2\tmmol/L\ncontent_as_hcl\t72.916\tmg/L\nassumed\tsample\t50 mL" },
  { "content of a burette",
    "calculate content --drops 35.23 --drop-volume '1 mL' --titrant '0.250 mol/L' --sample '50.00 mL'",
    "content_mmol_l\t176.15\tmmol/L" },
  { "content of product",
    "calculate content --drops 3 --drop-volume '0.05 mL' --strength-ratio 1 --sample '50 mL'",
    "content_ml_l\t3\tmL/L" },
  { "acceptance",
    "calculate acceptance --blank-titrant '21.00 mL' --sample-titrant '20.00 mL'"
        " --titrant '0.1 mmol/mL' --weight '10 g'",
    "acid_acceptance\t0.04\t% NaOH" },
  { "acid number",
    "calculate acid-number --blank-titrant '0 mL' --sample-titrant '1 mL' --titrant '0.1 mmol/mL'"
        " --weight '10 g'",
    "acid_number\t0.561053\tmg KOH/g" },

  /* 20 drops of 1.000 g mean: 1/(20*0.998) mL */
  { "calibration", CALIBRATION "--weighings '1.01,0.99,1.00,1.00 g' --water",
    "drop_volume\t0.0501002004008016\tmL\ndrop_volume_degrees_of_freedom\t3\nmass_of_20_drops\t1\tg\n"
    "pharmacopoeial\tyes\noutlier\tnone\nassumed\tu_density\t0 g/mL" },
  { "calibration in mg", CALIBRATION "--weighings '1010 mg, 990 mg'", "mass_of_20_drops\t1\tg" },
  { "calibration by count", "calculate calibration --counts '20,20,20' --volume '1 mL'",
    "drop_volume\t0.05\tmL\ndrop_volume_spread\t0\tmL" },
  { "outlier", CALIBRATION "--weighings '1.00,1.01,0.99,1.00,1.01,0.99,1.5 g'", "outlier\t7" },
};
/* clang-format on */

static void
check (const Row *row, const char *language)
{
  g_autoptr (SwSpawned) spawned = sw_spawn (row->arguments, language);
  g_auto (GStrv) lines = g_strsplit (row->lines, "\n", -1);

  g_assert_cmpstr (spawned->err, ==, "");
  g_assert_cmpint (spawned->code, ==, 0);
  for (gsize i = 0; lines[i] != NULL; i++)
    if (!sw_spawned_has_line (spawned, lines[i]))
      g_error ("no line \"%s\" in:\n%s", lines[i], spawned->out);
}

static void
test_row (gconstpointer data)
{
  check (data, NULL);
}

static void
test_row_in_german (gconstpointer data)
{
  check (data, "de");
}

/* Below five drops an interval from draws lies around the best estimate; from five on there is
 * none. A rectangle's central 95 % is 0.475 of its width to either side of the middle. */
static void
test_interval (void)
{
  g_autoptr (SwSpawned) few = sw_spawn (RATIO, NULL);
  g_autoptr (SwSpawned) many
      = sw_spawn ("calculate dose --acid-at 5 --pass-at 6 --drop-volume '0.05 mL' --system '420 L' "
                  "--strength-ratio 1",
                  NULL);
  g_autofree char *low = sw_spawned_value (few, "dose_interval_low");
  g_autofree char *high = sw_spawned_value (few, "dose_interval_high");

  sw_assert_close (g_ascii_strtod (low, NULL), 1050 - 0.475 * 420, 2e-3);
  sw_assert_close (g_ascii_strtod (high, NULL), 1050 + 0.475 * 420, 2e-3);
  g_assert_null (g_strstr_len (many->out, -1, "dose_interval"));
}

/* GUM, rectangular: u = 420/sqrt(12); with no other line k is the normal's 1.959964. */
static void
test_uncertainty (void)
{
  g_autoptr (SwSpawned) plain = sw_spawn (RATIO, NULL);
  g_autofree char *u = sw_spawned_value (plain, "dose_best_standard_uncertainty");
  g_autofree char *expanded = sw_spawned_value (plain, "dose_best_expanded_uncertainty");
  g_autofree char *share = sw_spawned_value (plain, "share_end_point");

  sw_assert_close (g_ascii_strtod (u, NULL), 420.0 / sqrt (12.0), 1e-12);
  sw_assert_close (g_ascii_strtod (expanded, NULL), 1.959964 * 420.0 / sqrt (12.0), 1e-6);
  g_assert_cmpstr (share, ==, "1");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  sw_spawn_init (argc, argv);
  SW_TEST_ROWS ("/calculate/rows", rows, test_row);
  SW_TEST_ROWS ("/calculate/german", rows, test_row_in_german);
  g_test_add_func ("/calculate/interval", test_interval);
  g_test_add_func ("/calculate/uncertainty", test_uncertainty);
  return g_test_run ();
}
