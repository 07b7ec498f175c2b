-- SPDX-License-Identifier: GPL-3.0-or-later
-- Methods, calibrations, plans.

CREATE TABLE method (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  name TEXT NOT NULL,
  origin TEXT,
  active INTEGER NOT NULL CHECK (active IN (0, 1)),
  UNIQUE (name)
) STRICT;

CREATE TABLE method_version (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  method INTEGER NOT NULL REFERENCES method (id),
  version INTEGER NOT NULL,
  direction TEXT NOT NULL CHECK (direction IN ('base', 'acid')),
  burette INTEGER NOT NULL CHECK (burette IN (0, 1)),
  for_hydrocarbon INTEGER NOT NULL CHECK (for_hydrocarbon IN (0, 1)),
  for_modified_alcohol INTEGER NOT NULL CHECK (for_modified_alcohol IN (0, 1)),
  for_chlorinated INTEGER NOT NULL CHECK (for_chlorinated IN (0, 1)),
  for_other INTEGER NOT NULL CHECK (for_other IN (0, 1)),
  sample_si REAL,
  sample_typed TEXT,
  sample_u_m3 REAL,
  titrant INTEGER REFERENCES product (id),
  caustic INTEGER REFERENCES product (id),
  caustic_volume_si REAL,
  caustic_volume_typed TEXT,
  caustic_mol REAL,
  caustic_u_mol REAL,
  caustic_counts INTEGER NOT NULL CHECK (caustic_counts IN (0, 1)),
  water_si REAL,
  water_typed TEXT,
  water_kind TEXT,
  blank REAL,
  maximum REAL,
  shake_s REAL,
  strip_wait_s REAL,
  supplier_factor_m3_m3 REAL,
  supplier_governs INTEGER NOT NULL CHECK (supplier_governs IN (0, 1)),
  -- caustic with some chlorinated solvents is dangerous: no method may ask for both
  CHECK (caustic IS NULL OR for_chlorinated = 0),
  UNIQUE (method, version)
) STRICT;

CREATE TABLE colour_field (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  method_version INTEGER NOT NULL REFERENCES method_version (id),
  rank INTEGER NOT NULL,
  label TEXT,
  meaning TEXT NOT NULL CHECK (meaning IN ('acid', 'between', 'neutral', 'alkaline')),
  swatch TEXT
) STRICT;

CREATE TABLE method_text (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  method_version INTEGER NOT NULL REFERENCES method_version (id),
  step TEXT NOT NULL,
  language TEXT NOT NULL,
  text TEXT,
  UNIQUE (method_version, step, language)
) STRICT;

CREATE TABLE calibration (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  product INTEGER NOT NULL REFERENCES product (id),
  dropper TEXT,
  drop_si REAL,
  drop_typed TEXT,
  drop_u_m3 REAL,
  freedom REAL,
  weighings INTEGER NOT NULL,
  due_ms INTEGER
) STRICT;

CREATE TABLE plan (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  machine INTEGER NOT NULL REFERENCES machine (id),
  method INTEGER NOT NULL REFERENCES method (id),
  shortest_days REAL,
  longest_days REAL,
  alpha REAL,
  back_to_start_at REAL,
  active INTEGER NOT NULL CHECK (active IN (0, 1))
) STRICT;

CREATE INDEX colour_field_by_version ON colour_field (method_version, rank);
CREATE INDEX calibration_by_product ON calibration (product, happened_ms);
CREATE INDEX plan_by_machine ON plan (machine);
