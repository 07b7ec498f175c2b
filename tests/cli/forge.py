# SPDX-License-Identifier: GPL-3.0-or-later
"""What an attacker can write who has the sqlite3 library, the disk, and docs/file-format.md.

Written from that page alone; nothing of the program is used. Every function takes a connection that
open_free gives: triggers are out of the way, and put_guards_back makes them as they were.
"""
import hashlib
import sqlite3

HEADER = ["kind", "utc_ms", "offset_min", "person", "identified_by", "workstation", "version", "reason"]


def open_free(path):
    db = sqlite3.connect(path, isolation_level=None)
    db.row_factory = sqlite3.Row
    db.execute("PRAGMA foreign_keys = OFF")
    db.execute("PRAGMA synchronous = OFF")
    guards = db.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'").fetchall()
    for guard in guards:
        db.execute(f"DROP TRIGGER {guard['name']}")
    return db, guards


def put_guards_back(db, guards):
    for guard in guards:
        db.execute(guard["sql"])
    db.close()


# ---- the form of an entry ----


def to_text(value):
    if isinstance(value, float):
        return "%.17g" % value
    if isinstance(value, int):
        return str(value)
    out = []
    for byte in value.encode():
        if byte == 0x5C:
            out.append(b"\\\\")
        elif byte == 0x0A:
            out.append(b"\\n")
        elif byte < 0x20 or byte == 0x7F:
            out.append(b"\\x%02x" % byte)
        else:
            out.append(bytes([byte]))
    return b"".join(out).decode()


def line_text(column, value):
    if column == "secret":
        return "changed sha256:" + hashlib.sha256(value.encode()).hexdigest()
    return to_text(value)


def hash_of(entry):
    return hashlib.sha256(entry.encode() + b"\n").hexdigest()


def make_header(row, previous):
    lines = [previous, f"seq={row['seq']}", f"act={row['act']}"]
    lines += [f"{key}={to_text(row[key])}" for key in HEADER if row[key] is not None]
    if row["clock_back_ms"] is not None:
        lines.append(f"clock=back {row['clock_back_ms']}")
    if row["clock_ahead_ms"] is not None:
        lines.append(f"clock=ahead {row['clock_ahead_ms']}")
    lines += [f"action={row['action']}", f"table={row['table_name']}", f"row={row['row_id']}"]
    if row["prior_seq"] is not None:
        lines.append(f"prior_seq={row['prior_seq']}")
    return lines


def columns_of(db, table):
    return {row["name"]: row["type"] for row in db.execute(f"PRAGMA table_info({table})")}


def list_changes(old, new):
    lines = [f"new.{column}={line_text(column, value)}" for column, value in new.items() if value is not None]
    lines += [f"old.{column}={line_text(column, value)}" for column, value in old.items() if value is not None]
    return sorted(lines, key=str.encode)


# ---- forging ----


def last_row(db):
    return db.execute("SELECT * FROM journal ORDER BY seq DESC LIMIT 1").fetchone()


def write_row(db, row, entry):
    row = dict(row, entry=entry, hash=hash_of(entry))
    names = ", ".join(row)
    db.execute(f"INSERT INTO journal ({names}) VALUES ({', '.join('?' * len(row))})", list(row.values()))


def forge_act(db, person, kind, action, table, row_id, changes):
    """One record changed or inserted, with the journal row that the program would have written for it:
    as `person`, known by secret, a minute after the last act."""
    last = last_row(db)
    prior = db.execute("SELECT max(seq) FROM journal WHERE table_name = ? AND row_id = ?", (table, row_id)).fetchone()[0]
    seq = last["seq"] + 1
    row = dict(last, seq=seq, act=seq, kind=kind, utc_ms=last["utc_ms"] + 60000, person=person, identified_by="secret",
               reason=None, clock_back_ms=None, clock_ahead_ms=None, action=action, table_name=table, row_id=row_id,
               prior_seq=prior)
    old = {}
    if action == "update":
        record = db.execute(f"SELECT * FROM {table} WHERE id = ?", (row_id,)).fetchone()
        old = {column: record[column] for column in changes}
    entry = "\n".join(make_header(row, last["hash"]) + list_changes(old, changes))
    write_row(db, row, entry)
    if action == "update":
        sets = ", ".join(f"{column} = ?" for column in changes)
        db.execute(f"UPDATE {table} SET journal_seq = ?, {sets} WHERE id = ?", [seq, *changes.values(), row_id])
    else:
        names = ", ".join(["id", "journal_seq", *changes])
        marks = ", ".join("?" * (len(changes) + 2))
        db.execute(f"INSERT INTO {table} ({names}) VALUES ({marks})", [row_id, seq, *changes.values()])


def rewrite_journal(db, edit):
    """Every entry through `edit` (seq, lines) and every hash anew, from row 1 to the end."""
    previous = "0" * 64
    for row in db.execute("SELECT seq, entry FROM journal ORDER BY seq").fetchall():
        lines = edit(row["seq"], row["entry"].split("\n"))
        lines[0] = previous
        entry = "\n".join(lines)
        previous = hash_of(entry)
        db.execute("UPDATE journal SET entry = ?, hash = ? WHERE seq = ?", (entry, previous, row["seq"]))


def from_text(text, kind):
    if kind == "INTEGER":
        return int(text)
    if kind == "REAL":
        return float(text)
    return text.encode().decode("unicode_escape") if "\\" in text else text


def undo_row(db, row):
    """Takes back what one journal row, the last, did to its record; and the row."""
    table, kinds = row["table_name"], columns_of(db, row["table_name"])
    if row["action"] == "insert":
        db.execute(f"DELETE FROM {table} WHERE id = ?", (row["row_id"],))
    else:
        values = {line[4:].split("=", 1)[0]: None for line in row["entry"].split("\n") if line.startswith("new.")}
        for line in row["entry"].split("\n"):
            if line.startswith("old."):
                column, text = line[4:].split("=", 1)
                values[column] = from_text(text, kinds[column])
        values["journal_seq"] = row["prior_seq"]
        sets = ", ".join(f"{column} = ?" for column in values)
        db.execute(f"UPDATE {table} SET {sets} WHERE id = ?", [*values.values(), row["row_id"]])
    db.execute("DELETE FROM journal WHERE seq = ?", (row["seq"],))


def undo_last(db, count):
    for _ in range(count):
        undo_row(db, last_row(db))
