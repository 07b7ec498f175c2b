#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Compares doses, t factors and critical values with other people's programs.

python3-uncertainties propagates the dose formula of the design, written down here a second time from the
design's text, by automatic differentiation; scipy gives Student's t. Inputs are random with a fixed seed.
A missing package is a failure. Usage: oracle.py DRIVER; speaks TAP.
"""

import math
import random
import subprocess
import sys

SEED = 20261124
DOSES = 3000
TOLERANCE = 1e-9

try:
    from scipy import special, stats
    from uncertainties import ufloat
except ImportError as missing:
    print("1..1")
    print(f"not ok 1 - oracle is missing: {missing}")
    sys.exit(1)


def ask(driver, questions):
    """One answer a question, in order."""
    answered = subprocess.run(
        [driver], input="\n".join(questions) + "\n", capture_output=True, text=True, check=True
    )
    lines = answered.stdout.splitlines()
    if len(lines) != len(questions):
        raise RuntimeError(f"{len(questions)} questions, {len(lines)} answers")
    return lines


def log_uniform(draw, low, high):
    return math.exp(draw.uniform(math.log(low), math.log(high)))


class Quantity:
    """A value, its standard uncertainty and degrees of freedom, drawn at random."""

    def __init__(self, draw, low, high, widest=0.12):
        self.value = log_uniform(draw, low, high)
        self.u = self.value * draw.choice([0.0, draw.uniform(0.0005, widest)])
        self.freedom = draw.choice([math.inf, draw.randint(1, 40), draw.uniform(1, 9)])

    def variable(self):
        return ufloat(self.value, self.u)

    def words(self):
        return f"{self.value!r} {self.u!r} {self.freedom!r}"


UNKNOWN = "nan 0 inf"


class Case:
    """One random titration and dose, in one of the shapes that the design knows."""

    def __init__(self, draw):
        self.step = Quantity(draw, 0.01, 0.2)
        self.sample = Quantity(draw, 10, 200)
        self.system = Quantity(draw, 20, 5000)
        self.ratio_known = draw.random() < 0.4
        self.titrant = Quantity(draw, 0.01, 8)
        self.product = None if self.ratio_known else Quantity(draw, 0.5, 12)
        self.ratio = Quantity(draw, 0.005, 2) if self.ratio_known else None
        self.caustic = None
        self.counts = False
        self.blank = 0
        self.extra = draw.choice([0, draw.uniform(0, 6)])
        self.acid_at = draw.randint(0, 30)
        self.pass_at = self.acid_at + 1
        self.direction = 0
        self.high_mark = 0
        self.shape = draw.choice(["plain", "plain", "counts", "silent", "blank", "band"])
        if self.shape in ("counts", "silent"):
            self.caustic = Quantity(draw, 0.01, 2)
            self.counts = self.shape == "counts"
        if self.shape == "blank":
            self.blank = draw.randint(1, max(1, self.acid_at))
            self.acid_at = max(self.acid_at, self.blank)
            self.pass_at = self.acid_at + 1
        if self.shape == "band":
            self.direction = 1
            self.high_mark = self.acid_at + draw.uniform(0.5, 12)

    def question(self):
        return " ".join(
            [
                "dose",
                self.step.words(),
                self.sample.words(),
                self.system.words(),
                self.titrant.words(),
                self.product.words() if self.product else UNKNOWN,
                self.ratio.words() if self.ratio else UNKNOWN,
                self.caustic.words() if self.caustic else "0 0 inf",
                str(int(self.counts)),
                str(self.acid_at),
                str(self.pass_at),
                str(self.blank),
                repr(self.extra),
                str(self.direction),
                repr(self.high_mark),
            ]
        )

    def steps(self, reading, blank_reading):
        """Steps of titrant that the machine needs, for one end point and one blank."""
        if self.direction:
            return self.high_mark - reading
        return reading - blank_reading

    def dose(self, steps, freedoms):
        """(x v_d b + A) 1000 V_m / (s V_s) as an uncertain number; notes each variable's freedom."""

        def take(quantity):
            variable = quantity.variable()
            freedoms[variable] = quantity.freedom
            return variable

        step, sample, system, titrant = map(
            take, (self.step, self.sample, self.system, self.titrant)
        )
        # By definition ratio = b/s; where only the ratio is known, s is b over it.
        strength = take(self.product) if self.product else titrant / take(self.ratio)
        acid = steps * step * titrant
        if self.counts:
            acid = acid + take(self.caustic)
        return acid * 1000 * system / (strength * sample)

    def expected(self):
        middle_reading = ufloat(
            (self.acid_at + self.pass_at) / 2, (self.pass_at - self.acid_at) / math.sqrt(12)
        )
        blank = ufloat(self.blank - 0.5, 1 / math.sqrt(12)) if self.blank else 0
        freedoms = {}
        best = self.dose(self.steps(middle_reading, blank), freedoms)
        freedom = effective_freedom(best, freedoms)

        # The ends of the interval: the blank lies between B - 1 and B.
        ends = [
            self.steps(self.acid_at, self.blank),
            self.steps(self.pass_at, self.blank - 1 if self.blank else 0),
        ]
        ends.sort()
        low, doubt_low = self.end(ends[0], -1)
        high, doubt_high = self.end(ends[1], +1)
        dose = self.dose(ends[1] + self.extra, {})
        per_step = self.end(1, 0)[0] if not self.counts else None
        return {
            "best": best.nominal_value,
            "u": best.std_dev,
            "freedom": freedom,
            "U": best.std_dev * t_factor(freedom),
            "low": low,
            "high": high,
            "dose": dose.nominal_value,
            "dose u": dose.std_dev,
            "doubt low": doubt_low,
            "doubt high": doubt_high,
            "per step": per_step,
        }

    def end(self, steps, sign):
        freedoms = {}
        end = self.dose(steps, freedoms)
        wide = end.std_dev * t_factor(effective_freedom(end, freedoms))
        return end.nominal_value, end.nominal_value + sign * wide


def effective_freedom(result, freedoms):
    """Welch-Satterthwaite (JCGM 100 G.4.1) from the package's error components."""
    total = 0.0
    for variable, component in result.error_components().items():
        total += component**4 / freedoms.get(variable, math.inf)
    # Where a strength cancels, automatic differentiation leaves a residue of rounding.
    freedom = result.std_dev**4 / total if total > 0 else math.inf
    return freedom if freedom < 1e20 else math.inf


def student_t(upper, freedom):
    """scipy 1.10 stops its search for the quantile at 4e-9; a Newton step on its own distribution
    function, which is exact, goes on from there."""
    t = stats.t.ppf(1 - upper, freedom)
    return float(t - (special.stdtr(freedom, t) - (1 - upper)) / stats.t.pdf(t, freedom))


def t_factor(freedom):
    return float(stats.norm.ppf(0.975)) if math.isinf(freedom) else student_t(0.025, freedom)


def differs(actual, expected, scale):
    if math.isinf(expected) or math.isinf(actual):
        return actual != expected
    return not abs(actual - expected) <= TOLERANCE * max(abs(expected), scale)


def compare_doses(driver):
    draw = random.Random(SEED)
    cases = [Case(draw) for _ in range(DOSES)]
    bad = []
    shapes = set()
    for case, line in zip(cases, ask(driver, [case.question() for case in cases])):
        expected = case.expected()
        shapes.add((case.shape, case.ratio_known))
        if line.startswith("error"):
            bad.append(f"{case.question()}: {line}")
            continue
        for (name, value), word in zip(expected.items(), line.split()):
            # Ends near 0 are differences of large numbers; freedoms have no scale of their own.
            scale = 0.0 if name == "freedom" else expected["u"]
            if value is not None and differs(float(word), value, scale):
                bad.append(f"{case.shape} {name}: {word}, expected {value!r}: {case.question()}")
    if len(shapes) < 10:
        bad.append(f"only these shapes were drawn: {sorted(shapes)}")
    return f"{DOSES} doses, 11 figures each, as python3-uncertainties", bad


def compare_t(driver):
    draw = random.Random(SEED)
    freedoms = [float(n) for n in range(1, 61)] + [log_uniform(draw, 1, 1e6) for _ in range(500)]
    bad = []
    for freedom, line in zip(freedoms, ask(driver, [f"t {freedom!r}" for freedom in freedoms])):
        if differs(float(line), t_factor(freedom), 0.0):
            bad.append(f"{freedom}: {line}, expected {t_factor(freedom)!r}")
    return f"{len(freedoms)} t factors as scipy", bad


def compare_grubbs(driver):
    bad = []
    sizes = range(3, 101)
    for k, line in zip(sizes, ask(driver, [f"grubbs {k}" for k in sizes])):
        t = student_t(0.05 / (2 * k), k - 2)
        expected = (k - 1) / math.sqrt(k) * math.sqrt(t * t / (k - 2 + t * t))
        if differs(float(line), float(expected), 0.0):
            bad.append(f"{k}: {line}, expected {expected!r}")
    return f"{len(sizes)} critical values of Grubbs' test as scipy's t gives them", bad


def main():
    driver = sys.argv[1]
    checks = [compare_doses, compare_t, compare_grubbs]
    failed = False
    print(f"1..{len(checks)}")
    for number, check in enumerate(checks, 1):
        title, bad = check(driver)
        failed = failed or bool(bad)
        print(f"{'not ok' if bad else 'ok'} {number} - {title}")
        for line in bad[:5]:
            print(f"# {line}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
