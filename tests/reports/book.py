# SPDX-License-Identifier: GPL-3.0-or-later
"""Shared by the workbook tests: TAP, a temporary folder, the maker of workbooks, sheets as rows."""
import atexit
import os
import shutil
import subprocess
import sys
import tempfile
import traceback

import openpyxl

MAKER = sys.argv[1]
FOLDER = tempfile.mkdtemp(prefix="stillwarden-")
atexit.register(shutil.rmtree, FOLDER)
AT = 1777874400250  # 2026-05-04 06:00:00.250 UTC, as the fixture's clock
TESTS = []


def test(function):
    TESTS.append(function)
    return function


def run():
    print(f"1..{len(TESTS)}")
    failed = 0
    for number, function in enumerate(TESTS, 1):
        name = function.__name__.replace("_", "-")
        try:
            function()
            print(f"ok {number} {name}")
        except Exception:
            failed += 1
            for line in traceback.format_exc().splitlines():
                print("#", line)
            print(f"not ok {number} {name}")
    sys.exit(1 if failed else 0)


def make(name, *options, folder=FOLDER, env=None, texts=None, check=True):
    """Writes FOLDER/name and returns its path."""
    path = os.path.join(folder, name)
    command = [MAKER, folder, path, *options]
    if texts is not None:
        file = os.path.join(folder, "texts")
        with open(file, "wb") as out:
            out.write(b"".join(text.encode() + b"\0" for text in texts))
        command += ["--texts", file]
    done = subprocess.run(command, env={**os.environ, **(env or {})}, capture_output=True, text=True)
    if check and done.returncode != 0:
        raise AssertionError(done.stderr)
    return path


def sheet_rows(path, sheet, values=True):
    """The rows of a sheet as dictionaries by column title; @values: cached results, else formulas."""
    book = openpyxl.load_workbook(path, data_only=values)
    rows = list(book[sheet].iter_rows(values_only=True))
    titles = [title if rows[0].count(title) == 1 else f"{title} {i}" for i, title in enumerate(rows[0])]
    return [dict(zip(titles, row)) for row in rows[1:]]


def expect(value, wanted):
    assert value == wanted, f"{value!r} is not {wanted!r}"


def expect_close(value, wanted, relative=1e-12):
    assert abs(value - wanted) <= relative * abs(wanted), f"{value!r} is not {wanted!r}"
