#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Proves that the checks bite: every constant of src/calc, made wrong by 1 %, must break a test.

1. Each numeric literal with a point or an exponent in src/calc must be found by an entry of CONSTANTS (is
   made wrong here) or of FIXED (with the reason why it is not).
2. With nothing changed every test program used here passes; otherwise a failure would prove nothing.
3. One constant at a time is changed in a scratch copy, what depends on it is compiled again, and the named
   test program must fail. A copy that does not compile, or hangs, is no proof and counts as a failure.

Usage: bite.py SOURCE_ROOT CC [CC_ARGS]; speaks TAP. The compiler works without optimisation: it is faster.
"""

import concurrent.futures
import os
import pathlib
import re
import resource
import subprocess
import sys
import tempfile

REF = "tests/reference/test-"
OUR = "tests/calc/test-"


def define(name, value):
    # The formatter may have moved the value to the next line.
    return rf"#define {name}\s(?:\s|\\|/\*.*?\*/)*({re.escape(value)})(?![\w.])"


# (file, pattern whose group is the constant, test program that must notice[, what to put instead])
CONSTANTS = [
    # physical constants
    ("content.h", define("SW_MOLAR_MASS_HCL", "36.458"), REF + "content"),
    ("content.h", define("SW_MOLAR_MASS_NAOH", "39.9968"), REF + "content"),
    ("content.h", define("SW_MOLAR_MASS_KOH", "56.1053"), REF + "content"),
    ("content.h", define("SW_MOLAR_MASS_H2SO4", "98.072"), REF + "content"),
    ("content.h", define("SW_MOLAR_MASS_ACETIC_ACID", "60.052"), REF + "content"),
    ("content.h", define("SW_MOLAR_MASS_TRIETHANOLAMINE", "149.190"), REF + "content"),
    ("content.c", define("MILLI", "1000.0"), REF + "content"),
    ("content.c", define("ACCEPTANCE_FACTOR", "4.000"), REF + "content"),
    ("dose_model.c", define("MILLI", "1000.0"), REF + "dose"),
    ("calibration.c", define("PHARMACOPOEIAL_LOW_G", "0.950"), REF + "calibration"),
    ("calibration.c", define("PHARMACOPOEIAL_HIGH_G", "1.050"), REF + "calibration"),
    # statistics
    ("budget.c", define("UPPER_TAIL", "0.025"), REF + "budget"),
    ("budget.c", r"half_width / sqrt \((3\.0)\)", REF + "budget"),
    ("budget.c", r"half_width / sqrt \((6\.0)\)", REF + "budget"),
    ("budget.c", r"\? (1\.0) / sum", REF + "budget"),
    ("calibration.c", define("GRUBBS_ALPHA", "0.05"), REF + "calibration"),
    ("calibration.c", r"GRUBBS_ALPHA / \((2\.0) \* n\)", REF + "calibration"),
    ("calibration.c", r", n - (2\.0)\);", REF + "calibration"),
    ("calibration.c", r"\(n - (1\.0)\) / sqrt", REF + "calibration"),
    ("calibration.c", r"\(n - (2\.0) \+ t \* t\)", REF + "calibration"),
    ("calibration.c", r"\(double\)k - (1\.0) \}", REF + "calibration"),
    ("calibration.c", r"spread, SW_DISTRIBUTION_NORMAL, (1\.0)\)", REF + "calibration"),
    ("dose.c", r"blank > 0\.0 \? (1\.0) : 0\.0", REF + "dose"),
    ("dose.c", r"blank_width\) / (12\.0)", REF + "dose"),
    ("dose.c", r"\(steps\.low \+ steps\.high\) / (2\.0)", REF + "dose"),
    ("dose.c", r"net\.high\) / (2\.0) \* per_step", REF + "dose"),
    ("monte_carlo.c", define("COVERAGE", "0.95"), REF + "monte-carlo"),
    ("monte_carlo.c", r"gsl_ran_flat \(rng, 0\.0, (1\.0)\)", REF + "monte-carlo"),
    ("outcome.c", r"pass_at - blank \+ (1\.0) \}", REF + "dose"),
    # the normal distribution, lines through intervals
    ("normal.c", define("HALF_LOG_2_PI", "0.91893853320467274178"), REF + "censored"),
    ("normal.c", r"return -(0\.5) \* z \* z", REF + "censored"),
    ("normal.c", r"log1p \(-(0\.5) \* erfc", REF + "censored"),
    ("normal.c", r"return log \((0\.5) \* erfc", REF + "censored"),
    ("normal.c", r"outside = (0\.5) \* erfc", REF + "censored"),
    ("normal.c", r"erfc \(-a \* M_SQRT1_2\) \+ (0\.5) \* erfc", REF + "censored"),
    ("normal.c", r"return log \((0\.5) \* \(erf", REF + "censored"),
    ("censored.c", r"add_outer \(point, -(1\.0), by_b", REF + "censored"),
    ("censored.c", r"gradient\[n - 1\] \+= (1\.0) / tau", REF + "censored"),
    ("censored.c", r"\[n - 1\] -= (1\.0) / \(tau", REF + "censored"),
    ("demand.c", define("Z_90", "1.2815515655446004"), REF + "demand"),
    ("demand.c", define("Z_95", "1.6448536269514722"), REF + "demand"),
    ("demand.c", r"\+ (2\.0) \* a \* x \* fit", REF + "demand"),
    ("demand-profile.c", define("DROP", "1.352771727047702"), REF + "demand"),
    # charts and trends
    ("control-chart.c", define("D2_OF_TWO", "1.128"), REF + "control-chart"),
    ("control-chart.c", define("D4_OF_TWO", "3.267"), REF + "control-chart"),
    ("control-chart.c", r"mean - (3\.0) \*", REF + "control-chart"),
    ("control-chart.c", r"mean \+ (3\.0) \*", REF + "control-chart"),
    ("control-chart.c", r"lambda / \((2\.0) - lambda", REF + "control-chart"),
    ("control-chart.c", r"bad\) > (2\.0);", REF + "control-chart"),
    ("control-chart.c", r"here > (3\.0)", REF + "control-chart"),
    ("control-chart.c", r"here > (2\.0)", REF + "control-chart"),
    ("control-chart.h", define("SW_EWMA_LAMBDA", "0.2"), REF + "control-chart"),
    ("control-chart.h", define("SW_EWMA_L", "2.962"), REF + "control-chart"),
    ("control-chart.h", define("SW_CUSUM_K", "0.5"), REF + "control-chart"),
    ("control-chart.h", define("SW_CUSUM_H", "4.0"), REF + "control-chart"),
    ("trend.h", define("SW_CYCLES_WARN", "1.3"), REF + "trend"),
    ("trend.c", r"share\[0\] = (1\.0)", REF + "trend"),
    ("trend.c", r"k == 0 \? (1\.0)", REF + "trend"),
    ("spearman.c", r"\+ 1\.0\) / (2\.0)", REF + "trend"),
    ("trend.c", r"\(size - (1\.0)\) \* \(2", REF + "trend"),
    ("trend.c", r"\(size - 1\.0\) \* \((2\.0) \* size", REF + "trend"),
    ("trend.c", r"\* size \+ (5\.0)\)", REF + "trend"),
    ("trend.c", r"\(\(double\)tied - (1\.0)\)", REF + "trend"),
    ("trend.c", r"\* \((2\.0) \* \(double\)tied", REF + "trend"),
    ("trend.c", r"\(double\)tied \+ (5\.0)\)", REF + "trend"),
    ("trend.c", r"sum / (18\.0)", REF + "trend"),
    ("trend.c", r"- s\) / (2\.0)\)", REF + "trend"),
    ("trend.c", r"log \((0\.05)\)", REF + "trend"),
    ("trend.c", r"sum / \((2\.0) \* \(double\)k", REF + "trend"),
    # the re-test
    ("retest.c", define("COVERAGE", "2.0"), REF + "retest"),
    ("retest.c", r"width / (12\.0)", REF + "retest"),
    ("retest.c", r"\+ (2\.0) \* input", REF + "retest"),
    ("retest.c", r"expected = (0\.5)", REF + "retest"),
    # the staircase
    ("schedule.h", define("SW_STAIRCASE_START_DAYS", "1.0"), REF + "schedule"),
    ("schedule.h", define("SW_STAIRCASE_FACTOR", "1.25"), REF + "schedule"),
    ("schedule.h", define("SW_STAIRCASE_PASSES", "3"), REF + "schedule", "4"),
    ("schedule.h", define("SW_STAIRCASE_CREDIT", "0.8"), REF + "schedule"),
    ("schedule.c", define("HALF", "0.5"), REF + "schedule"),
    # house rules: no outside source, so a table test of our own holds them
    ("outcome.c", define("WIDE_STEPS", "1.0"), OUR + "outcome"),
    ("outcome.c", define("WIDE_SHARE", "0.1"), OUR + "outcome"),
    ("dose.c", define("COARSE_SHARE", "0.10"), OUR + "dose-measure"),
    ("dose.c", define("COARSE_STEP", "0.5"), OUR + "dose-measure"),
    ("dose.c", define("SUPPLIER_DIFFERENCE", "0.10"), OUR + "dose-measure"),
    ("range.c", define("LARGEST_RELATIVE_UNCERTAINTY", "0.5"), OUR + "fault"),
    ("calibration.c", r"\(double\)k, (2\.0), 1000\.0", OUR + "calibration"),
]

# Units: the column of the table to change (0 numerator, 1 denominator, 2 offset).
UNITS = [
    ("PERCENT", 1), ("MICROLITRE", 1), ("ML", 1), ("LITRE", 1), ("US_GALLON", 0), ("US_GALLON", 1),
    ("US_FLUID_OUNCE", 0), ("US_FLUID_OUNCE", 1), ("IMPERIAL_GALLON", 0), ("IMPERIAL_GALLON", 1),
    ("MG", 1), ("GRAM", 1), ("KG", 0), ("POUND", 0), ("POUND", 1), ("CELSIUS", 2), ("FAHRENHEIT", 0),
    ("FAHRENHEIT", 1), ("FAHRENHEIT", 2), ("KILOPASCAL", 0), ("MBAR", 0), ("TORR", 0), ("TORR", 1),
    ("MMOL", 1), ("MMOL_PER_ML", 0), ("MOL_PER_L", 0), ("G_PER_ML", 0), ("MINUTE", 0), ("HOUR", 0),
    ("DAY", 0), ("ML_PER_L", 1),
]  # fmt: skip

# (file, pattern, why it is not made wrong). A pattern may match several times, never zero times.
GUARD = "guard against rounding errors; its size does not matter within powers of ten"
LIMIT = "limit of what may be typed; common practice, no source; tests/calc/test-fault.c tries both ends"
SANITY = "limit against a slip, no result depends on it"
NEUTRAL = "the number one itself: an identity, a loop, a comparison"
FORM = "where one form of a formula gives way to another: both are right there"
CLIMB = "how the maximum is looked for, not where it is"
FIXED = [
    ("censored-frame.c", r"#define DEPENDENT 1e-10", GUARD),
    ("censored-frame.c", r"low \+ 0\.5 \*", CLIMB),
    ("censored-frame.c", r"\+ 0\.3 \* widest", CLIMB),
    ("censored-frame.c", r"scale = 1\.0", CLIMB),
    ("censored.c", r"#define LEAST_GAIN 1e-13", CLIMB),
    ("censored.c", r"double part = 1\.0", CLIMB),
    ("censored.c", r"part \*= 0\.5", CLIMB),
    ("censored.c", r"\(1\.0 \+ fabs", CLIMB),
    ("censored.c", r"\? 1\.0 : frame", CLIMB),
    ("control-chart.c", r"lambda <= 1\.0", NEUTRAL),
    ("demand-profile.c", r"#define FARTHEST 1e4", SANITY),
    ("demand-profile.c", r"inside \+ 0\.5 \*", CLIMB),
    ("demand-profile.c", r"<= 1e-12 \*", GUARD),
    ("demand-profile.c", r"away = 1\.0", CLIMB),
    ("demand-profile.c", r"away \*= 1\.6", CLIMB),
    ("demand-profile.c", r"&profile, -?1\.0\)", NEUTRAL),
    ("demand-refusal.c", r"#define TOUCHING 1e-13", GUARD),
    ("demand-refusal.c", r"t0, -?1\.0\)", NEUTRAL),
    ("demand.c", r"low \+ 0\.5 \*", CLIMB),
    ("demand.c", r"MAX \(1e-6 \* fabs \(from\), 1e-3\)", CLIMB),
    ("demand.c", r"alpha < 1\.0", NEUTRAL),
    ("demand.c", r"reach \*= 2\.0", CLIMB),
    ("spearman.c", r"#define SAME 1e-12", GUARD),
    ("spearman.c", r"\(double\)tied \+ 1\.0", "shifts every rank alike"),
    ("spearman.c", r"DRAWS \+ 1\.0", "far below the scatter of the draws themselves"),
    ("normal.c", r"#define SERIES_BELOW \(-30\.0\)", FORM),
    ("normal.c", r"outside < 0\.5", FORM),
    ("normal.c", r"double (?:term|sum) = 1\.0", NEUTRAL),
    ("range.c", r"\[SW_QUANTITY_\w+\] = \{ TRUE, [^}]*\}", LIMIT),
    ("content.c", r"volume_ml, 0\.0, 1000\.0", LIMIT),
    ("calibration.c", r", 1000\.0, SW_UNIT_NONE", SANITY),
    ("dose.c", r"#define MOST_PARTS 1000\.0", SANITY),
    ("monte_carlo.c", r"#define FEWEST_TRIALS 1000\.0", SANITY),
    ("monte_carlo.c", r"#define MOST_TRIALS 10000000\.0", SANITY),
    ("monte_carlo.c", r"\(double\)trials \+ 0\.5", GUARD),
    ("dose.c", r"#define ROUND_OFF 1e-9", GUARD),
    ("dose.c", r"\(1\.0 \+ ROUND_OFF\)", GUARD),
    ("dose.c", r"ROUND_OFF \* MAX \(1\.0, quotient\)", GUARD),
    ("schedule.c", r"#define ROUND_OFF 1e-9", GUARD),
    ("schedule.c", r"\(1\.0 - ROUND_OFF\)", GUARD),
    ("outcome.c", r"#define SAME_TOTAL 1e-9", GUARD),
    ("budget.c", r"#define AS_GOOD_AS_NORMAL 1e10", GUARD),
    ("budget.c", r"upper < 1\.0", NEUTRAL),
    ("dose.c", r"fabs \(ratio - 1\.0\)", NEUTRAL),
    ("dose_model.c", r"ratio->value == 1\.0", NEUTRAL),
    ("schedule.c", r"SW_STAIRCASE_PASSES - 1\.0", NEUTRAL),
]

LITERAL = re.compile(r"(?<![\w.])(?:\d+\.\d*(?:[eE][-+]?\d+)?|\d+[eE][-+]?\d+|\.\d+)")
FACTOR = 1.01


def unit_entry(name, column):
    numbers = r"([\d.]+), ([\d.]+), ([\d.]+)".split(", ")
    numbers = [number if i == column else r"[\d.]+" for i, number in enumerate(numbers)]
    pattern = rf'\[SW_UNIT_{name}\] = \{{ \w+, "[^"]*", ' + ", ".join(numbers) + r" \}"
    return ("unit.c", pattern, REF + "unit")


def all_constants():
    return CONSTANTS + [unit_entry(name, column) for name, column in UNITS]


def without_comments(text):
    """The same text with comments and strings blanked out: every offset stays."""

    def blank(match):
        return re.sub(r"[^\n]", " ", match.group())

    return re.sub(r'/\*.*?\*/|"(?:\\.|[^"\\\n])*"', blank, text, flags=re.S)


def scan(calc):
    """Literals that no entry knows, and entries that do not match as they should."""
    bad = []
    spans = {}
    for file, pattern, *_ in all_constants():
        found = list(re.finditer(pattern, (calc / file).read_text(), re.S))
        if len(found) != 1:
            bad.append(f"{file}: {len(found)} matches of {pattern}")
        spans.setdefault(file, []).extend(match.span(1) for match in found)
    for file, pattern, _ in FIXED:
        found = list(re.finditer(pattern, (calc / file).read_text(), re.S))
        if not found:
            bad.append(f"{file}: no match of {pattern}")
        spans.setdefault(file, []).extend(match.span() for match in found)
    for path in sorted(calc.glob("*.[ch]")):
        text = without_comments(path.read_text())
        for match in LITERAL.finditer(text):
            known = any(a <= match.start() and match.end() <= b for a, b in spans.get(path.name, []))
            if float(match.group()) != 0 and not known:
                line = text.count("\n", 0, match.start()) + 1
                bad.append(f"{path.name}:{line}: {match.group()} is in neither list of bite.py")
    return bad


class Builder:
    """Compiles calc and the test programs once, then single files again."""

    def __init__(self, root, compiler, scratch):
        self.root = root
        self.scratch = scratch
        self.compiler = compiler
        packages = ["glib-2.0", "gsl"]
        self.cflags = self.pkg_config("--cflags", packages)
        self.libs = self.pkg_config("--libs", packages) + ["-lm"]
        self.library = []  # sources linked into every program
        self.objects = {}
        self.includes = {}

    @staticmethod
    def pkg_config(what, packages):
        return subprocess.check_output(["pkg-config", what, *packages], text=True).split()

    def run(self, command):
        done = subprocess.run(command, capture_output=True, text=True, check=False)
        if done.returncode != 0:
            raise RuntimeError(f"{' '.join(command[:1])}: {done.stderr.strip()[:300]}")

    def compile(self, source, out, overlay=None):
        """Headers in @overlay hide those of the tree."""
        first = ["-I", str(overlay)] if overlay else []
        self.run(
            self.compiler
            + ["-std=gnu11", "-O0", "-w", "-MMD", '-DG_LOG_DOMAIN="stillwarden"']
            + first
            + ["-I", str(self.root / "src"), "-I", str(self.root / "tests")]
            + self.cflags
            + ["-c", str(source), "-o", str(out)]
        )

    def compile_all(self, sources):
        def one(source):
            out = self.scratch / (source.parent.name + "-" + source.stem + ".o")
            self.compile(source, out)
            self.objects[source] = out
            self.includes[source] = out.with_suffix(".d").read_text()

        with concurrent.futures.ThreadPoolExecutor(workers()) as pool:
            list(pool.map(one, sources))

    def link_and_run(self, program, objects, out):
        """TRUE when the test program passes."""
        parts = [str(objects[source]) for source in [program, *self.library]]
        self.run(self.compiler + parts + ["-o", str(out)] + self.libs)
        done = subprocess.run(
            [str(out)], cwd=self.scratch, capture_output=True, check=False, timeout=60
        )
        return done.returncode == 0

    def passes_with(self, number, file, text, program):
        """Whether @program still passes with @text in place of src/calc/@file."""
        overlay = self.scratch / str(number)
        (overlay / "calc").mkdir(parents=True)
        changed = overlay / "calc" / file
        changed.write_text(text)
        objects = dict(self.objects)
        original = self.root / "src" / "calc" / file
        for source in [program, *self.library]:
            if source != original and f"/calc/{file}" not in self.includes[source]:
                continue
            out = overlay / (source.parent.name + "-" + source.stem + ".o")
            self.compile(changed if source == original else source, out, overlay)
            objects[source] = out
        return self.link_and_run(program, objects, overlay / "program")


def workers():
    return min(2, os.cpu_count() or 1)


def change(text, pattern, instead=None):
    match = re.search(pattern, text, re.S)
    value = instead or repr(float(match.group(1)) * FACTOR)
    return text[: match.start(1)] + value + text[match.end(1) :], match.group(1), value


def check_constant(builder, number, entry):
    """(title, complaint or None)"""
    file, pattern, program, *instead = entry
    original = (builder.root / "src" / "calc" / file).read_text()
    text, before, after = change(original, pattern, *instead)
    where = original[: re.search(pattern, original, re.S).start(1)].count("\n") + 1
    title = f"{file}:{where} {before} -> {after} breaks {program}"
    try:
        passes = builder.passes_with(number, file, text, builder.root / f"{program}.c")
    except (RuntimeError, subprocess.TimeoutExpired) as error:
        return title, str(error)
    return title, "the test passes all the same" if passes else None


def report(number, title, bad):
    print(f"{'not ok' if bad else 'ok'} {number} - {title}", flush=True)
    for line in bad[:20]:
        print(f"# {line}", flush=True)
    return bool(bad)


def check_baseline(builder, programs):
    bad = []
    for i, program in enumerate(programs):
        if not builder.link_and_run(program, builder.objects, builder.scratch / f"base-{i}"):
            bad.append(f"{program.name} fails with nothing changed")
    return bad


def main():
    root = pathlib.Path(sys.argv[1])
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    print(f"1..{2 + len(all_constants())}", flush=True)
    missing = scan(root / "src" / "calc")
    failed = report(1, "every number in src/calc is in a list", missing)
    if any("matches of" in line for line in missing):
        print("Bail out! an entry of the list does not match exactly once")
        return 1

    with tempfile.TemporaryDirectory(prefix="stillwarden-bite-") as folder:
        builder = Builder(root, sys.argv[2:], pathlib.Path(folder))
        programs = sorted({root / f"{entry[2]}.c" for entry in all_constants()})
        builder.library = sorted((root / "src" / "calc").glob("*.c"))
        builder.library.append(root / "tests/support/support.c")
        builder.library.append(root / "tests/reference/series.c")
        builder.compile_all(builder.library + programs)
        failed |= report(2, "with nothing changed all pass", check_baseline(builder, programs))
        with concurrent.futures.ThreadPoolExecutor(workers()) as pool:
            jobs = [
                pool.submit(check_constant, builder, number, entry)
                for number, entry in enumerate(all_constants(), 3)
            ]
            for number, job in enumerate(jobs, 3):
                title, complaint = job.result()
                failed |= report(number, title, [complaint] if complaint else [])
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
