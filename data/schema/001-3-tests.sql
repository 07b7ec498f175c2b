-- SPDX-License-Identifier: GPL-3.0-or-later
-- Samples, titrations, readings, doses, incidents, reviews, schedule decisions.

CREATE TABLE sample (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  code TEXT NOT NULL,
  machine INTEGER NOT NULL REFERENCES machine (id),
  point INTEGER REFERENCES sampling_point (id),
  plan INTEGER REFERENCES plan (id),
  fill INTEGER REFERENCES fill (id),
  drawn_by INTEGER REFERENCES person (id),
  purpose TEXT NOT NULL CHECK (purpose IN ('routine', 'retest', 'control', 'duplicate')),
  answers_dose INTEGER REFERENCES dose (id),
  running TEXT NOT NULL CHECK (running IN ('none', 'yes', 'no', 'unknown')),
  level_ok TEXT NOT NULL CHECK (level_ok IN ('none', 'yes', 'no', 'unknown')),
  added_since TEXT NOT NULL CHECK (added_since IN ('none', 'yes', 'no', 'unknown')),
  volume_si REAL,
  volume_typed TEXT,
  temperature_si REAL,
  temperature_typed TEXT,
  appearance TEXT,
  retained INTEGER NOT NULL CHECK (retained IN (0, 1)),
  remarks TEXT,
  UNIQUE (code)
) STRICT;

CREATE TABLE titration (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  sample INTEGER NOT NULL REFERENCES sample (id),
  method_version INTEGER NOT NULL REFERENCES method_version (id),
  calibration INTEGER REFERENCES calibration (id),
  analyst INTEGER REFERENCES person (id),
  second_reader INTEGER REFERENCES person (id),
  portion INTEGER NOT NULL,
  step TEXT NOT NULL
    CHECK (step IN ('draw', 'prepare', 'read', 'result', 'check', 'dose', 'added',
      'done', 'abandoned')),
  titrant_lot INTEGER REFERENCES lot (id),
  caustic_lot INTEGER REFERENCES lot (id),
  strip_lot INTEGER REFERENCES lot (id),
  lot_reason TEXT,
  portion_volume_si REAL,
  portion_volume_typed TEXT,
  portion_u_m3 REAL,
  step_m3 REAL,
  step_u_m3 REAL,
  step_freedom REAL,
  titrant_mol_m3 REAL,
  titrant_u_mol_m3 REAL,
  caustic_mol REAL,
  caustic_counts INTEGER NOT NULL CHECK (caustic_counts IN (0, 1)),
  blank REAL,
  maximum REAL,
  shake_started_ms INTEGER,
  pending_total REAL,
  outcome TEXT NOT NULL
    CHECK (outcome IN ('open', 'passed', 'acid_found', 'over_range', 'reserve_found',
      'no_reserve', 'reserve_over_range')),
  net_low REAL,
  net_high REAL,
  acid_at REAL,
  pass_at REAL,
  closed_ms INTEGER,
  signed_ms INTEGER,
  ended_ms INTEGER,
  end_reason TEXT,
  calc_version INTEGER NOT NULL,
  UNIQUE (sample, portion)
) STRICT;

CREATE TABLE reading (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  titration INTEGER NOT NULL REFERENCES titration (id),
  ordinal INTEGER NOT NULL,
  total REAL,
  colour_field INTEGER REFERENCES colour_field (id),
  meaning TEXT NOT NULL CHECK (meaning IN ('acid', 'between', 'neutral', 'alkaline')),
  struck INTEGER NOT NULL CHECK (struck IN (0, 1)),
  not_added INTEGER NOT NULL CHECK (not_added IN (0, 1)),
  struck_reason TEXT,
  reader INTEGER REFERENCES person (id),
  UNIQUE (titration, ordinal)
) STRICT;

CREATE TABLE dose (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  titration INTEGER NOT NULL REFERENCES titration (id),
  incident INTEGER REFERENCES incident (id),
  product INTEGER REFERENCES product (id),
  state TEXT NOT NULL CHECK (state IN ('open', 'added', 'not_added', 'not_known', 'lapsed')),
  system_m3 REAL,
  system_u_m3 REAL,
  product_mol_m3 REAL,
  product_u_mol_m3 REAL,
  strength_ratio REAL,
  per_step_m3 REAL,
  low_m3 REAL,
  high_m3 REAL,
  best_m3 REAL,
  best_u_m3 REAL,
  extra_steps REAL,
  extra_reason TEXT,
  computed_m3 REAL,
  measured_m3 REAL,
  graduation_m3 REAL,
  supplier_m3 REAL,
  supplier_governs INTEGER NOT NULL CHECK (supplier_governs IN (0, 1)),
  place TEXT,
  released_by INTEGER REFERENCES person (id),
  released_ms INTEGER,
  decided_ms INTEGER,
  lot INTEGER REFERENCES lot (id),
  added_si REAL,
  added_typed TEXT,
  added_ms INTEGER,
  added_by INTEGER REFERENCES person (id),
  retest_due_ms INTEGER,
  retest_sample INTEGER REFERENCES sample (id),
  calc_version INTEGER NOT NULL
) STRICT;

CREATE TABLE incident (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  machine INTEGER NOT NULL REFERENCES machine (id),
  opened_by_titration INTEGER REFERENCES titration (id),
  answered_by_titration INTEGER REFERENCES titration (id),
  state TEXT NOT NULL CHECK (state IN ('open', 'retest_passed', 'closed')),
  over_range INTEGER NOT NULL CHECK (over_range IN (0, 1)),
  cause TEXT,
  closed_by INTEGER REFERENCES person (id),
  closed_ms INTEGER
) STRICT;

CREATE TABLE review (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  subject_table TEXT NOT NULL,
  subject INTEGER NOT NULL,
  person INTEGER NOT NULL REFERENCES person (id),
  meaning TEXT NOT NULL CHECK (meaning IN ('performed', 'reviewed', 'released', 'closed')),
  subject_seq INTEGER REFERENCES journal (seq)
) STRICT;

CREATE TABLE decision (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  plan INTEGER NOT NULL REFERENCES plan (id),
  titration INTEGER REFERENCES titration (id),
  interval_days REAL,
  credit INTEGER NOT NULL,
  due_ms INTEGER,
  reason TEXT NOT NULL
    CHECK (reason IN ('start', 'longer', 'same', 'early', 'retest', 'halved', 'returned',
      'at_longest', 'at_shortest')),
  shortest_days REAL,
  longest_days REAL
) STRICT;

CREATE INDEX sample_by_machine ON sample (machine, happened_ms);
CREATE INDEX sample_by_fill ON sample (fill);
CREATE INDEX titration_open ON titration (id) WHERE step NOT IN ('done', 'abandoned');
CREATE INDEX dose_by_titration ON dose (titration);
CREATE INDEX dose_open ON dose (id) WHERE state = 'open';
CREATE INDEX dose_unanswered ON dose (id)
  WHERE state IN ('added', 'not_known') AND retest_sample IS NULL;
CREATE INDEX incident_by_machine ON incident (machine) WHERE state <> 'closed';
CREATE INDEX review_by_subject ON review (subject_table, subject);
CREATE INDEX decision_by_plan ON decision (plan, id);
