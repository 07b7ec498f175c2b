#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""LibreOffice works every formula out again: nothing may differ from what the program stored, and a
changed count must change the dose."""
import os
import subprocess

import openpyxl

from book import FOLDER, expect, expect_close, make, run, sheet_rows, test

PROFILE = os.path.join(FOLDER, "profile")
# 0 = recalculate always when a workbook is loaded
SETTINGS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse">
<value>0</value></prop></item></oor:items>
"""


def recalculate(path):
    os.makedirs(f"{PROFILE}/user", exist_ok=True)
    with open(f"{PROFILE}/user/registrymodifications.xcu", "w", encoding="utf-8") as out:
        out.write(SETTINGS)
    folder = os.path.join(FOLDER, "recalculated")
    subprocess.run(["soffice", f"-env:UserInstallation=file://{PROFILE}", "--headless", "--convert-to", "xlsx",
                    "--outdir", folder, path], check=True, capture_output=True, timeout=300)
    return os.path.join(folder, os.path.basename(path))


BOOK = make("book.xlsx")


@test
def every_formula_gives_its_cached_value():
    again = openpyxl.load_workbook(recalculate(BOOK), data_only=True)
    cached = openpyxl.load_workbook(BOOK, data_only=True)
    n = 0
    for sheet in openpyxl.load_workbook(BOOK):
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type == "f":
                    expect_close(again[sheet.title][cell.coordinate].value,
                                 cached[sheet.title][cell.coordinate].value, 1e-9)
                    n += 1
    expect(n, 23)  # 7 doses: steps, dose, measured amount; 2 ratios of known strengths


def change(title, factor, offset):
    """Changes one column of every dose, recalculates; returns rows before and after."""
    book = openpyxl.load_workbook(BOOK)
    sheet = book["Doses"]
    column = [cell.value for cell in sheet[1]].index(title) + 1
    for row in range(2, sheet.max_row + 1):
        cell = sheet.cell(row, column)
        if isinstance(cell.value, (int, float)):
            cell.value = cell.value * factor + offset
    path = os.path.join(FOLDER, f"changed-{len(TITLES)}.xlsx")
    TITLES.append(title)
    book.save(path)
    before, after = sheet_rows(BOOK, "Doses"), sheet_rows(recalculate(path), "Doses")
    return [(one, other) for one, other in zip(before, after) if one["Dose, mL"] is not None]


TITLES = []


@test
def one_more_drop_is_one_more_drops_worth():
    pairs = change("First pass, steps", 1, 1)
    expect(len(pairs), 7)
    for before, after in pairs:
        worth = (before["Drop volume, mL"] * before["Strength ratio"] * 1000
                 * before["System volume, L"] / before["Sample volume, mL"])
        expect_close(after["Dose, mL"] - before["Dose, mL"], worth, 1e-9)


@test
def twice_the_machine_is_twice_the_dose():
    for before, after in change("System volume, L", 2, 0):
        expect_close(after["Dose, mL"], 2 * before["Dose, mL"], 1e-9)
        assert after["Measured amount, mL"] >= after["Dose, mL"] - 1e-6
        assert after["Measured amount, mL"] < after["Dose, mL"] + before["Marks of the jug, mL"]


@test
def other_cells_are_what_they_were():
    for sheet in ("Machines", "Tests", "Readings"):
        expect(sheet_rows(os.path.join(FOLDER, "recalculated", "book.xlsx"), sheet), sheet_rows(BOOK, sheet))


run()
