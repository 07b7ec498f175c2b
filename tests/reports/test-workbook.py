#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The workbook read back with openpyxl: types, dates, formulas, panes, filters, hostile texts, bytes.

Doses are worked out here once more, from the design's formula and not from the program:
  dose = (net steps * v_d * b + A) * 1000 * V_m / (s * V_s), with b/s alone where only that is known.
"""
import datetime
import hashlib
import math
import os
import re
import subprocess
import tempfile
import zipfile

import openpyxl
from openpyxl.utils.escape import unescape

from book import AT, FOLDER, expect, expect_close, make, run, sheet_rows, test

SHEETS = ["Machines", "Tests", "Readings", "Doses", "Provenance"]
HOSTILE = ["=1+1", "+49 30", "-2", "@SUM(A1:A9)", "\tTab", "\rReturn", "\nLine", "=cmd|' /C calc'!A0",
           "_x0041_", "bell\x07", "<b>&amp;\"'", " leading and trailing ", "Ä 文 \U0001f9ea",
           "\u202eright to left", "0123", "1e5", "2026-05-04", "TRUE", "#REF!", "http://example.invalid/",
           "&L&\"x\"", "long " * 6000]
BOOK = make("book.xlsx", texts=HOSTILE)


def load(path=BOOK, **options):
    return openpyxl.load_workbook(path, **options)


@test
def sheets_in_order():
    expect(load().sheetnames, SHEETS)


@test
def frozen_filtered_and_set_up_for_paper():
    panes = {"Machines": "B2", "Tests": "B2", "Readings": "D2", "Doses": "B2"}
    for sheet in load():
        if sheet.title == "Provenance":
            continue
        last = openpyxl.utils.get_column_letter(sheet.max_column)
        expect(sheet.freeze_panes, panes[sheet.title])
        expect(sheet.auto_filter.ref, f"A1:{last}{sheet.max_row}")
        expect(sheet.print_title_rows, "$1:$1")
        expect(sheet.page_setup.orientation, "landscape")
        assert "Page &[Page] of &N" in sheet.oddFooter.right.text.replace("&P", "&[Page]")


@test
def dates_are_dates_in_the_readers_zone():
    # drawn at 2026-05-04 06:00:00.250 UTC; Berlin was two hours ahead
    row = next(row for row in sheet_rows(BOOK, "Tests") if row["Sample"] == "M-07-260504-1")
    assert isinstance(row["Drawn"], datetime.datetime)
    assert abs(row["Drawn"] - datetime.datetime(2026, 5, 4, 8, 0, 0, 250000)) < datetime.timedelta(milliseconds=2)


@test
def numbers_are_numbers_and_unknown_is_empty():
    rows = {row["Sample"]: row for row in sheet_rows(BOOK, "Doses")}
    expect(rows["extra"]["Titrant strength, mmol/mL"], None)
    expect_close(rows["itself"]["Drop volume, mL"], 0.031)
    assert isinstance(rows["itself"]["System volume, L"], (int, float))
    expect_close(rows["itself"]["System volume, L"], 420)
    machine = sheet_rows(BOOK, "Machines")[0]
    expect_close(machine["System volume, L"], 420)
    expect(machine["Voided"], False)


def worked_out(row):
    blank = row["Blank, steps"]
    steps = row["First pass, steps"] - (blank - 1 if blank > 0 else 0) + row["Extra neutraliser, steps"]
    drop, sample, system = row["Drop volume, mL"], row["Sample volume, mL"], row["System volume, L"]
    titrant, product = row["Titrant strength, mmol/mL"], row["Product strength, mmol/mL"]
    caustic = row["Caustic addition that counts, mmol"]
    if titrant is not None and product is not None:
        return (steps * drop * titrant + caustic) * 1000 * system / (product * sample)
    return steps * drop * row["Strength ratio"] * 1000 * system / sample


@test
def doses_agree_with_the_design():
    rows = [row for row in sheet_rows(BOOK, "Doses") if row["Dose, mL"] is not None]
    expect(len(rows), 7)
    for row in rows:
        expect_close(row["Dose, mL"], worked_out(row))
        marks = row["Marks of the jug, mL"]
        expect_close(row["Measured amount, mL"], math.ceil(row["Dose, mL"] / marks - 1e-9) * marks)


@test
def doses_are_formulas_over_their_row():
    sheet = load()["Doses"]
    titles = [cell.value for cell in sheet[1]]
    dose, measured = titles.index("Dose, mL") + 1, titles.index("Measured amount, mL") + 1
    n = 0
    for row in range(2, sheet.max_row + 1):
        for column in (dose, measured):
            text = sheet.cell(row, column).value
            if text is None:
                continue
            assert text.startswith("=")
            numbers = set(re.findall(r"\b[A-Z]{1,2}(\d+)\b", text))
            expect(numbers, {str(row)})
            n += 1
    expect(n, 14)


@test
def hostile_texts_are_read_back_as_text():
    sheet = load()["Tests"]
    titles = [cell.value for cell in sheet[1]]
    remarks = titles.index("Remarks") + 1
    found = {}
    for row in range(2, sheet.max_row + 1):
        cell = sheet.cell(row, remarks)
        if str(sheet.cell(row, 1).value).startswith("text-"):
            found[int(sheet.cell(row, 1).value[5:])] = cell
    expect(len(found), len(HOSTILE))
    for number, wanted in enumerate(HOSTILE):
        cell = found[number]
        assert cell.data_type in ("s", "inlineStr"), (wanted, cell.data_type)
        expect(unescape(cell.value), wanted)
        if wanted[0] in "=+-@\t\r\n":
            expect(cell.number_format, "@")


@test
def no_cell_outside_doses_is_a_formula():
    for sheet in load():
        for row in sheet.iter_rows():
            for cell in row:
                assert cell.data_type != "f" or sheet.title == "Doses", (sheet.title, cell.coordinate)


@test
def provenance_says_where_it_comes_from():
    rows = dict(row[:2] for row in load()["Provenance"].iter_rows(values_only=True))
    expect(rows["Exported at (UTC)"], "2026-05-04T06:00:00+00:00")
    expect(rows["Exported by"], "tester")
    expect(rows["Machine"], "all")
    expect(rows["Time zone of all other times"], "Europe/Berlin")
    expect(rows["Rows of sheet Doses"], 8)
    expect(rows["Rows of sheet Readings"], 1)
    for sheet in SHEETS[:-1]:
        expect(rows[f"Rows of sheet {sheet}"], load()[sheet].max_row - 1)


@test
def provenance_has_the_journals_last_hash():
    rows = dict(row[:2] for row in load()["Provenance"].iter_rows(values_only=True))
    entry = subprocess.run(["sqlite3", os.path.join(FOLDER, "plant.swlog"),
                            "select entry from journal order by seq desc limit 1"],
                           capture_output=True, check=True).stdout
    expect(rows["Last hash of the journal"], hashlib.sha256(entry).hexdigest())


@test
def provenance_has_the_last_checkpoint():
    rows = dict(row[:2] for row in load()["Provenance"].iter_rows(values_only=True))
    seq, head, key = subprocess.run(["sqlite3", "-separator", " ", os.path.join(FOLDER, "plant.swlog"),
                                     "select seq, head, key from checkpoint order by id desc limit 1"],
                                    capture_output=True, check=True, text=True).stdout.split()
    expect(rows["Last signed entry of the journal"], int(seq))
    expect(rows["Its hash"], head)
    expect(rows["Public key of the signature"], key)
    expect(rows["Signed at (UTC)"], "2026-05-04T06:00:00+00:00")


@test
def every_page_has_the_hash_in_small_type():
    rows = dict(row[:2] for row in load()["Provenance"].iter_rows(values_only=True))
    with zipfile.ZipFile(BOOK) as parts:
        for number in range(1, len(SHEETS) + 1):
            footer = re.search("<oddFooter>(.*?)</oddFooter>", parts.read(f"xl/worksheets/sheet{number}.xml").decode())
            # a digit right behind "&7" would make the type ten times as large
            assert f"&amp;L&amp;7 {rows['Last hash of the journal']}&amp;R" in footer.group(1), footer.group(1)


@test
def the_same_request_gives_the_same_bytes():
    again = make("again.xlsx")
    with open(BOOK, "rb") as one, open(again, "rb") as other:
        assert one.read() == other.read()
    later = make("later.xlsx", "--at", str(AT + 1000))
    with open(BOOK, "rb") as one, open(later, "rb") as other:
        assert one.read() != other.read()


@test
def another_language_changes_words_only():
    """The pseudo-locale has a translation of everything, and changes every word."""
    english, other = load(), load(make("other.xlsx", "--language", "xx"))
    expect(len(other.sheetnames), len(SHEETS))
    for sheet, translated in zip(english, other):
        assert translated.title != sheet.title, sheet.title
        for ours, theirs in zip(sheet.iter_rows(), translated.iter_rows()):
            for cell, found in zip(ours, theirs):
                if cell.row == 1 and cell.value is not None:
                    assert found.value != cell.value, f"{sheet.title}: {cell.value} is not translated"
                elif not isinstance(cell.value, str):
                    expect(found.value, cell.value)


@test
def a_comma_locale_changes_nothing():
    with tempfile.TemporaryDirectory() as locales:
        subprocess.run(["localedef", "-i", "de_DE", "-f", "UTF-8", f"{locales}/de_DE.UTF-8"], check=True)
        env = {"LOCPATH": locales, "LC_ALL": "de_DE.UTF-8"}
        comma = subprocess.run(["printf", "%.1f", "0"], env={**os.environ, **env}, capture_output=True, text=True)
        expect(comma.stdout, "0,0")  # else this test would prove nothing
        german = make("german.xlsx", env=env)
    with open(BOOK, "rb") as one, open(german, "rb") as other:
        assert one.read() == other.read()


@test
def no_half_written_file_stays():
    expect(sorted(name for name in os.listdir(FOLDER) if ".xlsx." in name), [])


run()
