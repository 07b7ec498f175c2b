#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The commands of docs/auditor.md, run as they stand there, with none of our programs within reach.

On a sound file every `sh check` block prints nothing and every `sh answer` block something. On each
altered copy of it at least the check that is named here prints a finding. Usage:
auditor.py SOURCE_FOLDER MAKE_AUDITED; speaks TAP.
"""
import os
import pathlib
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile

SOURCE, MAKE = pathlib.Path(sys.argv[1]), sys.argv[2]
TOOLS = ["bash", "sqlite3", "sha256sum", "openssl", "basenc", "grep", "sed", "tr", "cat", "diff", "mkdir", "rm"]
BLOCK = re.compile(r"^```sh ?(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
SECTION = re.compile(r"^## (\d+)\.", re.MULTILINE)
MARK = "@@@@ block "


def read_blocks():
    """(kind, section or '', text) of every block of the page, in order."""
    page = (SOURCE / "docs" / "auditor.md").read_text()
    blocks = []
    for found in BLOCK.finditer(page):
        sections = [number for number in SECTION.findall(page[: found.start()])]
        beyond = "## What a finding means" in page[: found.start()]
        blocks.append((found.group(1), "" if beyond or not sections else sections[-1], found.group(2)))
    return blocks


BLOCKS = read_blocks()


def make_tools(folder):
    """A folder with the tools that the page names, and nothing else."""
    folder.mkdir()
    for tool in TOOLS:
        (folder / tool).symlink_to(shutil.which(tool, path="/usr/bin:/bin"))
    return folder


def run_page(folder, tools, answers=True):
    """What each block printed: standard output and error together; answers are left out on request."""
    script = "".join(f"echo '{MARK}{i}'\n{text if answers or kind != 'answer' else ''}"
                     for i, (kind, _, text) in enumerate(BLOCKS))
    done = subprocess.run([tools / "bash", "-c", script], cwd=folder, env={"PATH": str(tools), "LC_ALL": "C.UTF-8"},
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, check=False)
    parts = re.split(rf"^{MARK}\d+\n", done.stdout, flags=re.MULTILINE)[1:]
    assert len(parts) == len(BLOCKS), done.stdout
    return parts


def write_heads(folder):
    """The heads of two exports, one early and the last, and the PC's checkpoints, as check 8 says."""
    with sqlite3.connect(f"file:{folder}/plant.stillwarden?mode=ro", uri=True) as db:
        heads = [row[0] for row in db.execute("SELECT hash FROM journal WHERE seq = 60 OR seq ="
                                              " (SELECT max(seq) FROM journal)")]
    for name in (folder / "trust").glob("*.checkpoints"):
        heads += [line.split(" ")[1] for line in name.read_text().splitlines()]
    (folder / "heads").write_text("".join(head + "\n" for head in heads))
    return len(heads)


def alter(path, script):
    """Another tool's hands on the file, triggers of no account; they come back after."""
    db = sqlite3.connect(path, isolation_level=None)
    db.execute("PRAGMA synchronous = OFF")
    triggers = db.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
    for name, _ in triggers:
        db.execute(f"DROP TRIGGER {name}")
    db.executescript(script)
    for _, sql in triggers:
        db.execute(sql)
    db.close()


# What is done to a copy, and the check that must find it.
ALTERED = [
    ("a number of a reading", "UPDATE reading SET total = 2 WHERE id = 3", "5"),
    ("a text of a sample", "UPDATE sample SET remarks = 'clear' WHERE id = 2", "5"),
    ("an open end", "UPDATE titration SET net_low = -5 WHERE id = 1", "5"),
    ("a value emptied", "UPDATE sample SET appearance = NULL WHERE id = 1", "5"),
    ("a review deleted", "DELETE FROM review WHERE meaning = 'reviewed'", "5"),
    ("a review inserted", "INSERT INTO review SELECT 99, happened_ms, recorded_ms, offset_min, 0, 0, journal_seq,"
     " 'titration', 2, 3, 'reviewed', subject_seq, 'secret' FROM review LIMIT 1", "5"),
    ("a secret", "UPDATE person SET secret = '$argon2id$v=19$m=65536,t=2,p=1$x$y' WHERE id = 4", "5"),
    ("a voided test brought back", "UPDATE titration SET voided = 0 WHERE voided = 1", "5"),
    ("a reason in the journal", "UPDATE journal SET reason = 'asked to' WHERE kind = 'amend'", "4"),
    ("a person in the journal", "UPDATE journal SET person = 1 WHERE kind = 'amend'", "4"),
    ("an entry", "UPDATE journal SET entry = replace(entry, 'old.remarks', 'old.other') WHERE kind = 'amend';"
     " UPDATE journal SET entry = entry || char(10) || 'new.x=1' WHERE seq = 40", "2"),
    ("a journal row deleted", "DELETE FROM journal WHERE kind = 'amend'", "3"),
    ("the last journal rows deleted", "PRAGMA foreign_keys = OFF; DELETE FROM journal WHERE seq >"
     " (SELECT max(seq) - 3 FROM journal)", "7"),
    ("a checkpoint's head", "UPDATE checkpoint SET head = replace(head, '0', '1') WHERE id = 1", "8"),
    ("a checkpoint's signature", "UPDATE checkpoint SET signature = 'ab' || substr(signature, 3) WHERE id = 1", "8"),
]
GUARDS = [
    ("a trigger dropped", "DROP TRIGGER sample_update", "6"),
    ("a trigger made toothless", "DROP TRIGGER sample_delete; CREATE TRIGGER sample_delete BEFORE DELETE ON sample"
     " BEGIN SELECT 1; END", "6"),
    ("an index dropped", "DROP INDEX plan_by_machine", "6"),
]

# What an answer must say about the plant of make-audited: (a word of its block, a pattern of a line).
ANSWERS = [
    ("drawn_by", r"M-07-261125-1 .*beside the condenser.*2026-11-25T06:13.*T. Invented +150 mL"),
    ("titrant_lot", r"M-07-261124-1 .*50 mL +Drop test +1 +N-1 +S-1 +dropper A"),
    ("struck_reason", r"M-07-261125-1 +4 +3.0 +Green +neutral"),
    ("low_again", r"0.42 +5.0e-05 +5.0e-08 +0.00084 +0.00126 +0.00084 +0.00126"),
    ("corrected_since", r"reviewed +\w+ +titration +1 +0 *$"),
    ("corrected_since", r"performed +\w+ +titration +3 +1 *$"),
    ("measured_m3", r"added +0.00126 +0.00126 +0.00126 .*T. Invented +N-1"),
    ("closed_by", r"M-07-261125-2 +passed .*closed +an invented cause +R. Invented"),
    ("because", r"R. Invented, amend of sample 3, because: read the label again"),
    ("because", r"R. Invented, void of titration 4, because: begun on the wrong machine"),
    ("shortest_days", r"M-07 .*1.0 +1.0 +7.0 +same"),
    ("AS late\n", r"M-07 +2026-11-24T06:00:00.000.01:00 +2026-11-24T06:05:00.000.01:00 +late"),
    ("900000", r"^sample +5 +2026-11-26T07:33:00.000.01:00 +2026-11-26T08:28"),
    ("clock_ahead_ms,", r" 7140000 "),
    ("clock_ahead_ms,", r" 10800000 "),
    ("sign_in", r"R. Invented +0"),
    (".dump", r"^CREATE TABLE restoration"),
]

count = 0


def report(name, failure):
    global count
    count += 1
    print(f"{'not ok' if failure else 'ok'} {count} /auditor/{name}")
    for line in (failure or "").splitlines():
        print("# " + line)
    return not failure


def find_findings(parts):
    """By section, what its check blocks printed."""
    findings = {}
    for (kind, section, _), printed in zip(BLOCKS, parts):
        if kind == "check" and printed:
            findings[section] = findings.get(section, "") + printed
    return findings


def test_sound(folder, tools):
    fine = True
    parts = run_page(folder, tools)
    for (kind, section, text), printed in zip(BLOCKS, parts):
        title = re.sub(r"\W+", "-", text[:60]).strip("-")
        if kind == "check":
            fine &= report(f"sound/check-{section}-{title}", printed)
        elif kind == "answer":
            bad = "Error" in printed or len(printed.splitlines()) < 1
            fine &= report(f"sound/answer-{title}", f"printed: {printed[:500]}" if bad else "")
        else:
            fine &= report(f"sound/step-{title}", printed if "rror" in printed else "")
    for word, pattern in ANSWERS:
        given = [out for (kind, _, text), out in zip(BLOCKS, parts) if kind == "answer" and word in text]
        bad = not any(re.search(pattern, out, re.MULTILINE) for out in given)
        fine &= report(f"answers/{re.sub(r'[^a-z0-9]+', '-', pattern.lower()).strip('-')}", "\n".join(given)[:900] if bad else "")
    return fine


def test_altered(folder, tools, name, section, change):
    with tempfile.TemporaryDirectory() as other:
        copy = pathlib.Path(other) / "case"
        shutil.copytree(folder, copy, ignore=shutil.ignore_patterns("work"))
        change(copy / "plant.stillwarden")
        findings = find_findings(run_page(copy, tools, answers=False))
    found = findings.get(section, "")
    wrong = "" if found and "rror" not in found else f"check {section} was silent; found: {findings}"
    return report(f"altered/{name.replace(' ', '-')}", wrong)


def put_back(path):
    shutil.copyfile(path.parent / "yesterday.stillwarden", path)


def main():
    fine = True
    with tempfile.TemporaryDirectory() as top:
        folder = pathlib.Path(top) / "auditor"
        folder.mkdir()
        tools = make_tools(pathlib.Path(top) / "tools")
        subprocess.run([MAKE, folder], check=True, stdout=subprocess.DEVNULL)
        shutil.copytree(SOURCE / "data" / "schema", folder / "schema")
        fine &= report("heads", "" if write_heads(folder) == 4 else "not the heads that were meant")
        fine &= report("page-has-checks", "" if sum(kind == "check" for kind, _, _ in BLOCKS) >= 9 else "too few")
        before = (folder / "plant.stillwarden").read_bytes()
        fine &= test_sound(folder, tools)
        same = (folder / "plant.stillwarden").read_bytes() == before
        fine &= report("sound/the-file-is-untouched", "" if same else "it was written to")
        for name, script, section in ALTERED:
            fine &= test_altered(folder, tools, name, section, lambda path, s=script: alter(path, s))
        for name, script, section in GUARDS:
            fine &= test_altered(folder, tools, name, section,
                                 lambda path, s=script: sqlite3.connect(path).executescript(s).close())
        fine &= test_altered(folder, tools, "yesterday's copy put back", "7", put_back)
    print(f"1..{count}")
    return 0 if fine else 1


sys.exit(main())
