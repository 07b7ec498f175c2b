#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Attacks on a file, each looked for with `stillwarden verify` in three ways: with the file alone, with
a head that an export printed before, with the checkpoints of the PC. What is not found is said too:
the table that this prints stands in docs/security.md, and the test fails when they differ.

Usage: attack.py SOURCE_FOLDER MAKE_AUDITED PROGRAM [--table]; speaks TAP, or prints the table.
"""
import os
import pathlib
import random
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile

import forge

SOURCE, MAKE, PROGRAM = pathlib.Path(sys.argv[1]), sys.argv[2], sys.argv[3]
REVIEWER = 3


class Case:
    """A copy of the plant's file, what stands beside it, and what left the plant before."""

    def __init__(self, master, folder):
        self.folder = pathlib.Path(folder) / "case"
        shutil.copytree(master, self.folder)
        self.path = self.folder / "plant.stillwarden"
        self.trust = self.folder / "trust"
        self.empty = self.folder / "empty"
        self.empty.mkdir()
        with sqlite3.connect(f"file:{self.path}?mode=ro", uri=True) as db:
            self.head = db.execute("SELECT hash FROM journal ORDER BY seq DESC LIMIT 1").fetchone()[0]

    def free(self):
        return forge.open_free(self.path)

    def sql(self, script):
        """With the triggers out of the way, and back after."""
        db, guards = self.free()
        db.executescript(script)
        forge.put_guards_back(db, guards)

    def expect_row(self, where):
        """The program has written such a row of the journal when it happened."""
        with sqlite3.connect(f"file:{self.path}?mode=ro", uri=True) as db:
            assert db.execute(f"SELECT count(*) FROM journal WHERE {where}").fetchone()[0] == 1, where

    def run(self, *options):
        return subprocess.run([PROGRAM, "verify", str(self.path), *options], capture_output=True, text=True,
                              env=dict(os.environ, LC_ALL="C.UTF-8"), check=False)

    def recomputed(self):
        """(table, column, row, value) where a stored result is not what its readings give."""
        out = self.run("--trust", str(self.empty)).stdout
        return re.findall(r"^finding\tresult\ttable=(\w+) column=(\w+) row=(\d+) .*expected=(\S+)", out, re.M)

    def verify(self, *options):
        """What was found: kinds of findings, "refused" when the file is not opened, or nothing."""
        done = self.run(*options)
        kinds = [line.split("\t")[1] for line in done.stdout.splitlines() if line.startswith("finding\t")]
        if done.returncode == 1:
            return ["refused"]
        assert done.returncode == (3 if kinds else 0), done.stdout + done.stderr
        return sorted(set(kinds))

    def verify_all(self):
        alone = self.verify("--trust", str(self.empty))
        head = self.verify("--trust", str(self.empty), "--head", self.head)
        trust = self.verify("--trust", str(self.trust))
        return alone, head, trust


# ---- the attacks ----


def attack_nothing(case):
    """nothing is done"""


def attack_value(case):
    """a value is edited in the sqlite3 shell, triggers dropped and made again"""
    case.sql("UPDATE sample SET remarks = 'as usual' WHERE id = 2")


def attack_number(case):
    """a dose that was added is made smaller, triggers dropped and made again"""
    case.sql("UPDATE dose SET added_si = added_si / 2 WHERE id = 1")


def attack_result(case):
    """a reading is changed together with its result, so that the recomputation agrees"""
    case.sql("UPDATE reading SET total = 2 WHERE titration = 2 AND total = 3;"
             "UPDATE reading SET meaning = 'neutral', colour_field = 2 WHERE titration = 2 AND total = 2;"
             "UPDATE titration SET net_low = 1, net_high = 2, acid_at = 1, pass_at = 2 WHERE id = 2")
    # the program itself says what would agree
    case.sql(";".join(f"UPDATE {table} SET {column} = {value} WHERE id = {row}"
                      for table, column, row, value in case.recomputed()))
    assert not case.recomputed()


def attack_trigger(case):
    """a trigger is dropped"""
    with sqlite3.connect(case.path) as db:
        db.execute("DROP TRIGGER titration_delete")


def attack_insert(case):
    """a test is inserted that nobody did"""
    case.sql("INSERT INTO sample SELECT 90, happened_ms, recorded_ms, offset_min, late, voided, journal_seq, 'M-07-X',"
             " machine, point, plan, fill, drawn_by, purpose, NULL, running, level_ok, added_since, volume_si,"
             " volume_typed, temperature_si, temperature_typed, appearance, retained, remarks FROM sample WHERE id = 1")


def attack_delete(case):
    """a reading is deleted"""
    case.sql("DELETE FROM reading WHERE id = 4")


def attack_review(case):
    """a review is inserted without a journal row"""
    case.sql("INSERT INTO review SELECT 90, happened_ms, recorded_ms, offset_min, 0, 0, journal_seq, 'titration', 2,"
             f" {REVIEWER}, 'reviewed', subject_seq, 'secret' FROM review LIMIT 1")


def attack_secret(case):
    """a person's secret is replaced by one that the attacker knows"""
    case.sql("UPDATE person SET secret = '$argon2id$v=19$m=65536,t=2,p=1$a25vd24$a25vd24' WHERE id = 4")


def attack_columns(case):
    """the journal's columns are edited: another person, another reason"""
    case.sql("UPDATE journal SET person = 1, reason = 'asked to' WHERE kind = 'amend'")


def attack_entry(case):
    """an entry of the journal is edited, its hash made to fit"""
    db, guards = case.free()
    row = db.execute("SELECT * FROM journal WHERE kind = 'amend'").fetchone()
    entry = row["entry"].replace("condenser", "tank")
    db.execute("UPDATE journal SET entry = ?, hash = ? WHERE seq = ?", (entry, forge.hash_of(entry), row["seq"]))
    forge.put_guards_back(db, guards)


def attack_last_ten(case):
    """the last ten journal rows are deleted, and their records are put back as they were"""
    db, guards = case.free()
    forge.undo_last(db, 10)
    forge.put_guards_back(db, guards)


def change_remarks(db, lines):
    changed = [line.replace("drawn at the condenser", "drawn at the tank") for line in lines]
    if changed != lines:
        db.execute("UPDATE sample SET remarks = 'drawn at the tank' WHERE remarks = 'drawn at the condenser'")
    return changed


def attack_rewrite(case):
    """a value is edited, and the whole journal written anew so that it fits"""
    db, guards = case.free()
    forge.rewrite_journal(db, lambda seq, lines: change_remarks(db, lines))
    forge.put_guards_back(db, guards)


def attack_rewrite_unsigned(case):
    """the same, with the checkpoints taken out of the file"""
    db, guards = case.free()
    row = db.execute("SELECT min(journal_seq) AS first, max(journal_seq) AS last FROM checkpoint").fetchone()
    forge.undo_last(db, forge.last_row(db)["seq"] - row["first"] + 1)
    forge.rewrite_journal(db, lambda seq, lines: change_remarks(db, lines))
    forge.put_guards_back(db, guards)


def attack_yesterday(case):
    """yesterday's copy is put back in the file's place"""
    shutil.copyfile(case.folder / "yesterday.stillwarden", case.path)


def forget_checkpoints(case, count):
    for path in case.trust.glob("*.checkpoints"):
        lines = path.read_text().splitlines(keepends=True)
        path.write_text("".join(lines[:-count]))


def attack_yesterday_and_trust(case):
    """the same, and the PC's last checkpoint is deleted with it"""
    attack_yesterday(case)
    forget_checkpoints(case, 1)


def attack_forged_act(case):
    """a reading and its result are changed by a forged act at the journal's end, in the program's form"""
    db, guards = case.free()
    forge.forge_act(db, 1, "test", "update", "reading", 6, {"total": 2.0})
    forge.forge_act(db, 1, "test", "update", "reading", 7, {"total": 2.0})
    forge.forge_act(db, 1, "test", "update", "reading", 5, {"meaning": "neutral", "colour_field": 2})
    forge.forge_act(db, 1, "test", "update", "titration", 2,
                    {"net_low": 1.0, "net_high": 2.0, "acid_at": 1.0, "pass_at": 2.0})
    forge.put_guards_back(db, guards)
    agreeing = {column: float(value) for _, column, _, value in case.recomputed()}
    db, guards = case.free()
    forge.forge_act(db, 1, "test", "update", "dose", 1, agreeing)
    forge.put_guards_back(db, guards)


def attack_forged_review(case):
    """a review is forged at the journal's end, in the program's form, in the reviewer's name"""
    db, guards = case.free()
    last = forge.last_row(db)
    now = last["utc_ms"] + 60000
    subject = db.execute("SELECT journal_seq FROM titration WHERE id = 2").fetchone()[0]
    forge.forge_act(db, REVIEWER, "sign", "insert", "review", 90, {
        "happened_ms": now, "recorded_ms": now, "offset_min": last["offset_min"], "late": 0, "voided": 0,
        "subject_table": "titration", "subject": 2, "person": REVIEWER, "meaning": "reviewed", "subject_seq": subject,
        "identified_by": "secret"})
    forge.put_guards_back(db, guards)


def attack_application(case):
    """the application id is changed"""
    with sqlite3.connect(case.path) as db:
        db.execute("PRAGMA application_id = 1")


def attack_version(case):
    """the file is said to be of version 1"""
    with sqlite3.connect(case.path) as db:
        db.execute("PRAGMA user_version = 1")


def attack_page(case):
    """bytes of a page are overwritten"""
    data = bytearray(case.path.read_bytes())
    data[4096 * 20 : 4096 * 20 + 64] = b"\x55" * 64
    case.path.write_bytes(data)


def attack_wal(case):
    """a -wal file of another file is put beside it"""
    other = case.folder / "other.stillwarden"
    shutil.copyfile(case.folder / "yesterday.stillwarden", other)
    db = sqlite3.connect(other, isolation_level=None)
    db.execute("PRAGMA journal_mode = WAL")
    for trigger in ("sample_update", "machine_update"):
        db.execute(f"DROP TRIGGER {trigger}")
    db.execute("UPDATE sample SET remarks = 'of another file'")
    db.execute("UPDATE machine SET name = 'Other'")
    wal, before = pathlib.Path(f"{case.path}-wal"), case.path.read_bytes()
    shutil.copyfile(f"{other}-wal", wal)
    db.close()
    assert case.verify() == ["refused"] and case.path.read_bytes() == before
    kept = wal.read_bytes()
    wal.unlink()
    assert case.verify("--trust", str(case.trust)) == []
    wal.write_bytes(kept)


def attack_clock_back(case):
    """the clock is put back by two hours while the program works"""
    case.expect_row("clock_back_ms = 7140000")


def attack_clock_ahead(case):
    """the clock is put ahead by three hours while the program works"""
    case.expect_row("clock_ahead_ms = 10800000")


def attack_clock_from_start(case):
    """the clock is wrong from before the program starts, and stays so"""


STORY = "the journal: who, when, from which PC; old and new value stand there"
TIMES = "the journal: `clock_back_ms`, `clock_ahead_ms`, shown in the records and by the auditor's queries"

# In the order of docs/security.md, with what else tells.
ATTACKS = [
    (attack_nothing, ""),
    (attack_value, ""),
    (attack_number, ""),
    (attack_result, ""),
    (attack_insert, ""),
    (attack_delete, ""),
    (attack_review, ""),
    (attack_secret, "that person, who cannot sign in any more"),
    (attack_trigger, ""),
    (attack_columns, ""),
    (attack_entry, ""),
    (attack_application, ""),
    (attack_version, ""),
    (attack_page, ""),
    (attack_wal, "the file is untouched, and sound once the `-wal` is taken away"),
    (attack_last_ten, "a backup"),
    (attack_rewrite, "a backup"),
    (attack_rewrite_unsigned, "a backup"),
    (attack_yesterday, "a backup"),
    (attack_yesterday_and_trust, "a backup"),
    (attack_forged_act, STORY),
    (attack_forged_review, "the reviewer; there is no sign-in of theirs at that time"),
    (attack_clock_back, TIMES),
    (attack_clock_ahead, TIMES),
    (attack_clock_from_start, "times that do not fit the plant's papers"),
]
TITLES = ["attack", "the file alone", "with an earlier head", "with the PC's checkpoints", "what else tells"]


def say(kinds):
    return ", ".join(f"`{kind}`" for kind in kinds) if kinds else "not found"


def run_attack(master, attack, tells):
    """The row of the table."""
    with tempfile.TemporaryDirectory() as folder:
        case = Case(master, folder)
        attack(case)
        return "| " + " | ".join([attack.__doc__, *map(say, case.verify_all()), tells]) + " |"


def read_table():
    """The rows of the page, by attack."""
    rows = {}
    for line in (SOURCE / "docs" / "security.md").read_text().splitlines():
        if line.startswith("| "):
            rows[line.split(" | ")[0][2:]] = line
    return rows


# ---- single bytes ----


def dump(path):
    """Everything that a query can return, or None where the file cannot be read."""
    try:
        with sqlite3.connect(f"file:{path}?mode=ro", uri=True) as db:
            return list(db.iterdump())
    except (sqlite3.Error, UnicodeDecodeError, ValueError):
        return None


def test_bytes(master, rounds=60):
    """One byte after the other is changed; where verify is silent nothing that a query returns differs."""
    dice = random.Random(20261125)
    silent = 0
    before = dump(master / "plant.stillwarden")
    with tempfile.TemporaryDirectory() as folder:
        case = Case(master, folder)
        sound = case.path.read_bytes()
        for _ in range(rounds):
            data = bytearray(sound)
            at = dice.randrange(len(data))
            data[at] ^= 1 << dice.randrange(8)
            case.path.write_bytes(data)
            if case.verify("--trust", str(case.trust)):
                continue
            silent += 1
            if dump(case.path) != before:
                return f"byte {at} changed what a query returns, and nothing was found"
    return "" if silent < rounds else "no change was found at all"


count = 0


def report(name, failure):
    global count
    count += 1
    print(f"{'not ok' if failure else 'ok'} {count} /attack/{name}", flush=True)
    for line in failure.splitlines():
        print("# " + line)
    return not failure


def main():
    with tempfile.TemporaryDirectory() as top:
        master = pathlib.Path(top) / "master"
        master.mkdir()
        subprocess.run([MAKE, master], check=True, stdout=subprocess.DEVNULL)
        if "--table" in sys.argv:
            print("| " + " | ".join(TITLES) + " |\n" + "|---" * len(TITLES) + "|")
            for attack, tells in ATTACKS:
                print(run_attack(master, attack, tells), flush=True)
            return 0
        fine, table = True, read_table()
        for attack, tells in ATTACKS:
            row, page = run_attack(master, attack, tells), table.get(attack.__doc__, "no such row")
            fine &= report(attack.__name__[7:].replace("_", "-"), "" if row == page else f"found: {row}\npage:  {page}")
        fine &= report("single-bytes", test_bytes(master))
    print(f"1..{count}")
    return 0 if fine else 1


sys.exit(main())
