#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""keys-guided.py PROGRAM MAKE-PLANT: a whole guided test with real keys only, in the real program.

On an X server of its own (with-display): signs in with a secret, begins a test, titrates 3 drops, is
killed in between and resumed, signs, doses 1260 mL, records it. After each key the file is asked,
read-only, until it holds what the key must have done; nothing waits for a fixed time.

1260 mL by hand: 3 drops x 0.05 mL x 1000 x 420 L / 50 mL, the product itself being the titrant.
"""
import os
import pathlib
import sqlite3
import subprocess
import sys
import tempfile
import time

WAIT_S = 60
POLL_S = 0.05
count = 0


def ok(name):
    global count
    count += 1
    print(f"ok {count} {name}", flush=True)


class Bench:
    """The program, its window and its file."""

    def __init__(self, program, file):
        self.program, self.file = program, file
        self.process = self.window = None

    def ask(self, query):
        """The one value that @query finds, or None; the file may be busy for a moment."""
        try:
            with sqlite3.connect(f"file:{self.file}?mode=ro", uri=True, timeout=5) as file:
                row = file.execute(query).fetchone()
        except sqlite3.OperationalError:
            return None
        return row[0] if row else None

    def wait(self, query, value, what):
        until = time.monotonic() + WAIT_S
        while self.ask(query) != value:
            if self.process.poll() is not None:
                self.fail(f"{what}: the program ended with {self.process.returncode}")
            if time.monotonic() > until:
                self.fail(f"{what}: {query} is {self.ask(query)!r}, not {value!r}")
            time.sleep(POLL_S)

    def fail(self, why):
        print(f"not ok {count + 1} {why}", flush=True)
        folder = os.environ.get("SW_SNAPSHOT_DIR")
        if folder:
            subprocess.run(["import", "-window", "root", f"{folder}/keys-guided.png"], check=False)
        self.kill()
        print(f"1..{count + 1}")
        sys.exit(1)

    def start(self):
        self.process = subprocess.Popen([self.program, self.file])
        found = subprocess.run(
            ["xdotool", "search", "--sync", "--onlyvisible", "--class", "stillwarden"],
            capture_output=True, text=True, timeout=WAIT_S, check=True)
        self.window = found.stdout.split()[-1]
        subprocess.run(["xdotool", "windowfocus", "--sync", self.window], timeout=WAIT_S, check=True)

    def kill(self):
        self.process.kill()
        self.process.wait()

    def keys(self, *names):
        subprocess.run(["xdotool", "key", "--delay", "40", *names], timeout=WAIT_S, check=True)

    def type(self, text):
        subprocess.run(["xdotool", "type", "--delay", "40", text], timeout=WAIT_S, check=True)


SECRET = "invented secret"  # SW_TEST_PLANT_SECRET
SIGN_INS = "SELECT count(*) FROM sign_in WHERE accepted = 1"
STEP = "SELECT step FROM titration ORDER BY id DESC LIMIT 1"
READINGS = "SELECT count(*) FROM reading"
TOTAL = "SELECT coalesce(pending_total, -1) FROM titration ORDER BY id DESC LIMIT 1"
SHAKEN = "SELECT coalesce(shake_started_ms, 0) > 0 FROM titration ORDER BY id DESC LIMIT 1"


def sign_in(bench, times):
    """Picks the first person and types the secret, until the file holds as many sign-ins."""
    until = time.monotonic() + WAIT_S
    while bench.ask(SIGN_INS) != times:
        if time.monotonic() > until:
            bench.fail(f"sign in: {bench.ask(SIGN_INS)!r}, not {times}")
        bench.keys("Escape", "ctrl+i")
        time.sleep(0.3)
        bench.keys("Return")
        time.sleep(0.3)
        bench.type(SECRET)
        bench.keys("Return")
        for _ in range(40):
            if bench.ask(SIGN_INS) == times:
                return
            time.sleep(POLL_S)


def come_to_test(bench, query, value, what, *then):
    """Who works now (who signed in already), then to the machine and its button, and the keys @then. Until the file shows it:
    the list of people opens and closes in its own time, and resuming writes nothing."""
    until = time.monotonic() + WAIT_S
    while True:
        bench.keys("Escape", "ctrl+i")
        time.sleep(0.3)
        bench.keys("Return")
        time.sleep(0.3)
        bench.keys("Tab", "Tab", "Tab", "Tab", "Tab", "Return", *then)
        for _ in range(40):
            if bench.ask(query) == value:
                return
            time.sleep(POLL_S)
        if time.monotonic() > until:
            bench.fail(f"{what}: {bench.ask(query)!r}")


def draw(bench):
    bench.type("m-07")
    bench.keys("Tab", "space")                 # running: yes
    bench.keys("Tab", "Tab", "space")          # level: yes
    bench.keys("Tab", "Tab", "Tab", "space")   # added since: no
    bench.keys("Tab", "Tab", "space")          # the best sampling point
    bench.keys("alt+v")
    bench.type("150")
    bench.keys("alt+e")
    bench.type("21.5")
    bench.keys("Return")
    bench.wait(STEP, "prepare", "draw")
    bench.wait("SELECT volume_typed FROM sample", "150 mL", "draw")


def shake(bench):
    bench.keys("s")
    bench.wait(SHAKEN, 1, "shake")


def read(bench, field, readings):
    shake(bench)
    bench.keys(field)
    bench.wait(READINGS, readings, f"reading {readings}")


def add(bench, total):
    bench.keys("plus" if total % 2 else "Insert")
    bench.wait(TOTAL, float(total), f"drop {total}")


def titrate_first(bench):
    read(bench, "1", 1)
    add(bench, 1)
    read(bench, "1", 2)
    add(bench, 2)


def titrate_rest(bench):
    read(bench, "1", 3)
    add(bench, 3)
    read(bench, "2", 4)
    read(bench, "2", 5)
    bench.keys("Return")
    bench.wait(STEP, "result", "close")


def dose(bench):
    bench.type("0")
    bench.keys("alt+t")
    bench.type("M-07")
    bench.keys("Return")
    bench.wait(STEP, "added", "dose")
    bench.wait("SELECT round(measured_m3 * 1e6, 6) FROM dose", 1260.0, "dose")


def record(bench):
    bench.type("1260")
    bench.keys("Tab", "space")  # just now
    bench.keys("alt+a")
    bench.wait(STEP, "done", "added")
    bench.wait("SELECT state FROM dose", "added", "added")
    bench.wait("SELECT round(added_si * 1e6, 6) FROM dose", 1260.0, "added")
    bench.wait("SELECT (retest_due_ms - added_ms) / 60000 FROM dose", 45, "re-test after 45 min")


def run(bench, program):
    bench.start()
    sign_in(bench, 1)
    ok("signs in by keys")
    come_to_test(bench, STEP, "draw", "begin")
    ok("begins a test by keys")
    draw(bench)
    ok("draws the sample")
    bench.keys("Return")
    bench.wait(STEP, "read", "prepare")
    ok("prepares the flask")
    titrate_first(bench)
    ok("titrates two drops")

    bench.kill()
    bench.start()
    sign_in(bench, 2)
    come_to_test(bench, SHAKEN, 1, "resume", "s")
    bench.wait(TOTAL, 2.0, "resume")
    titrate_rest(bench)
    ok("goes on after a kill and finds the end point")

    bench.keys("Return")
    bench.wait(STEP, "check", "accept")
    bench.keys("Return", "Escape")            # the box goes, the page stays
    bench.keys("Return", "Tab", "shift+Tab")  # round in the box, back to the field
    bench.type(SECRET)
    bench.keys("Return")
    bench.wait(STEP, "dose", "sign")
    bench.wait("SELECT identified_by FROM review", "secret", "sign")
    ok("signs")
    dose(bench)
    ok("doses 1260 mL")
    record(bench)
    ok("records what was added")
    bench.keys("Return", "ctrl+q")
    bench.process.wait(timeout=WAIT_S)
    done = subprocess.run([program, "verify", bench.file], capture_output=True, text=True,
                          timeout=WAIT_S, check=False)
    if done.returncode != 0:
        bench.fail(f"verify: {done.stdout}{done.stderr}")
    ok("leaves a file that verifies")


def main():
    program, make_plant = sys.argv[1:3]
    with tempfile.TemporaryDirectory() as folder:
        file = str(pathlib.Path(folder) / "plant.swlog")
        subprocess.run([make_plant, file], check=True)
        bench = Bench(program, file)
        try:
            run(bench, program)
        finally:
            if bench.process and bench.process.poll() is None:
                bench.kill()
    print(f"1..{count}")


if __name__ == "__main__":
    main()
