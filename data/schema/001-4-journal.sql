-- SPDX-License-Identifier: GPL-3.0-or-later
-- The journal, and the triggers that keep other tools from changing anything in silence.

CREATE TABLE journal (
  seq INTEGER PRIMARY KEY,
  act INTEGER NOT NULL,
  kind TEXT NOT NULL,
  utc_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  person INTEGER REFERENCES person (id),
  identified_by TEXT NOT NULL,
  workstation TEXT NOT NULL,
  version TEXT NOT NULL,
  reason TEXT,
  clock_back_ms INTEGER,
  action TEXT NOT NULL CHECK (action IN ('insert', 'update', 'void', 'migrate')),
  table_name TEXT NOT NULL,
  row_id INTEGER NOT NULL,
  prior_seq INTEGER REFERENCES journal (seq),
  entry TEXT NOT NULL,
  hash TEXT NOT NULL CHECK (length(hash) = 64)
) STRICT;

CREATE INDEX journal_by_row ON journal (table_name, row_id, seq);

CREATE TRIGGER journal_insert BEFORE INSERT ON journal
WHEN new.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM journal)
BEGIN SELECT raise(ABORT, 'the journal only grows at its end'); END;
CREATE TRIGGER journal_update BEFORE UPDATE ON journal
BEGIN SELECT raise(ABORT, 'the journal is never changed'); END;
CREATE TRIGGER journal_delete BEFORE DELETE ON journal
BEGIN SELECT raise(ABORT, 'the journal is never shortened'); END;

-- The same three for every table of records. (INSERT OR REPLACE fires no DELETE trigger in most
-- tools, so an insert over a row that is there is refused by itself.)

CREATE TRIGGER site_insert BEFORE INSERT ON site
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM site WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER site_update BEFORE UPDATE ON site
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER site_delete BEFORE DELETE ON site
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER person_insert BEFORE INSERT ON person
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM person WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER person_update BEFORE UPDATE ON person
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER person_delete BEFORE DELETE ON person
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER solvent_insert BEFORE INSERT ON solvent
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM solvent WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER solvent_update BEFORE UPDATE ON solvent
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER solvent_delete BEFORE DELETE ON solvent
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER product_insert BEFORE INSERT ON product
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM product WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER product_update BEFORE UPDATE ON product
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER product_delete BEFORE DELETE ON product
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER lot_insert BEFORE INSERT ON lot
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM lot WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER lot_update BEFORE UPDATE ON lot
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER lot_delete BEFORE DELETE ON lot
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER machine_insert BEFORE INSERT ON machine
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM machine WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER machine_update BEFORE UPDATE ON machine
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER machine_delete BEFORE DELETE ON machine
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER compartment_insert BEFORE INSERT ON compartment
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM compartment WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER compartment_update BEFORE UPDATE ON compartment
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER compartment_delete BEFORE DELETE ON compartment
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER sampling_point_insert BEFORE INSERT ON sampling_point
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM sampling_point WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER sampling_point_update BEFORE UPDATE ON sampling_point
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER sampling_point_delete BEFORE DELETE ON sampling_point
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER fill_insert BEFORE INSERT ON fill
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM fill WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER fill_update BEFORE UPDATE ON fill
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER fill_delete BEFORE DELETE ON fill
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER method_insert BEFORE INSERT ON method
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM method WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER method_update BEFORE UPDATE ON method
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER method_delete BEFORE DELETE ON method
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER method_version_insert BEFORE INSERT ON method_version
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM method_version WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER method_version_update BEFORE UPDATE ON method_version
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER method_version_delete BEFORE DELETE ON method_version
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER colour_field_insert BEFORE INSERT ON colour_field
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM colour_field WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER colour_field_update BEFORE UPDATE ON colour_field
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER colour_field_delete BEFORE DELETE ON colour_field
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER method_text_insert BEFORE INSERT ON method_text
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM method_text WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER method_text_update BEFORE UPDATE ON method_text
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER method_text_delete BEFORE DELETE ON method_text
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER calibration_insert BEFORE INSERT ON calibration
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM calibration WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER calibration_update BEFORE UPDATE ON calibration
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER calibration_delete BEFORE DELETE ON calibration
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER plan_insert BEFORE INSERT ON plan
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM plan WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER plan_update BEFORE UPDATE ON plan
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER plan_delete BEFORE DELETE ON plan
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER sample_insert BEFORE INSERT ON sample
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM sample WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER sample_update BEFORE UPDATE ON sample
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER sample_delete BEFORE DELETE ON sample
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER titration_insert BEFORE INSERT ON titration
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM titration WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER titration_update BEFORE UPDATE ON titration
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER titration_delete BEFORE DELETE ON titration
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER reading_insert BEFORE INSERT ON reading
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM reading WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER reading_update BEFORE UPDATE ON reading
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER reading_delete BEFORE DELETE ON reading
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER dose_insert BEFORE INSERT ON dose
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM dose WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER dose_update BEFORE UPDATE ON dose
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER dose_delete BEFORE DELETE ON dose
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER incident_insert BEFORE INSERT ON incident
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM incident WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER incident_update BEFORE UPDATE ON incident
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER incident_delete BEFORE DELETE ON incident
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER review_insert BEFORE INSERT ON review
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM review WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER review_update BEFORE UPDATE ON review
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER review_delete BEFORE DELETE ON review
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER decision_insert BEFORE INSERT ON decision
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM decision WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER decision_update BEFORE UPDATE ON decision
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER decision_delete BEFORE DELETE ON decision
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;

CREATE TRIGGER setting_insert BEFORE INSERT ON setting
WHEN new.journal_seq IS NOT (SELECT max(seq) FROM journal)
  OR EXISTS (SELECT 1 FROM setting WHERE id = new.id)
BEGIN SELECT raise(ABORT, 'a record comes with its journal row'); END;
CREATE TRIGGER setting_update BEFORE UPDATE ON setting
WHEN new.id IS NOT old.id OR new.journal_seq IS old.journal_seq
  OR new.journal_seq IS NOT (SELECT max(seq) FROM journal)
BEGIN SELECT raise(ABORT, 'a record changes with its journal row'); END;
CREATE TRIGGER setting_delete BEFORE DELETE ON setting
BEGIN SELECT raise(ABORT, 'records are voided, never deleted'); END;
