-- SPDX-License-Identifier: GPL-3.0-or-later
-- Who signed in, signed checkpoints of the journal, and restorations of a backup; how a signer was
-- identified; clocks that jumped ahead.

-- Who chose a person's secret, when it was somebody else: it is to be changed at the next sign-in.
ALTER TABLE person ADD COLUMN secret_given_by INTEGER REFERENCES person (id);

-- How the program knew the signer: 'selected', 'secret', 'demo', ...; NULL before version 2.
ALTER TABLE review ADD COLUMN identified_by TEXT;

-- How far the clock had jumped ahead since the session's act before; NULL = it had not.
ALTER TABLE journal ADD COLUMN clock_ahead_ms INTEGER;

CREATE TABLE sign_in (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  person INTEGER NOT NULL REFERENCES person (id),
  accepted INTEGER NOT NULL CHECK (accepted IN (0, 1))
) STRICT;

CREATE TABLE checkpoint (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  seq INTEGER NOT NULL,
  head TEXT NOT NULL,
  key TEXT NOT NULL,
  signature TEXT NOT NULL
) STRICT;

CREATE TABLE restoration (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  backup TEXT NOT NULL,
  kept_seq INTEGER NOT NULL,
  kept_head TEXT NOT NULL,
  lost_seq INTEGER,
  lost_head TEXT
) STRICT;

CREATE INDEX sign_in_by_person ON sign_in (person, id);

-- Corrections are few and journals are long: what was amended, and which signatures that took away.
CREATE INDEX journal_amended ON journal (table_name, row_id) WHERE kind IN ('amend', 'void');

CREATE TRIGGER sign_in_insert BEFORE INSERT ON sign_in
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM sign_in WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER sign_in_update BEFORE UPDATE ON sign_in
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER sign_in_delete BEFORE DELETE ON sign_in
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER checkpoint_insert BEFORE INSERT ON checkpoint
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM checkpoint WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER checkpoint_update BEFORE UPDATE ON checkpoint
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER checkpoint_delete BEFORE DELETE ON checkpoint
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER restoration_insert BEFORE INSERT ON restoration
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM restoration WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER restoration_update BEFORE UPDATE ON restoration
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER restoration_delete BEFORE DELETE ON restoration
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;
