-- SPDX-License-Identifier: GPL-3.0-or-later
-- Site, people, liquids, lots, machines, settings.
-- Every table: happened_ms and recorded_ms are UTC milliseconds since 1970, offset_min the zone's
-- minutes east of UTC; journal_seq is the last journal row that speaks of the row. Numbers are
-- in SI as the column says (_m3, _mol_m3, _kg_m3, _si); beside an amount stands the text as typed.

CREATE TABLE site (
  id INTEGER PRIMARY KEY CHECK (id = 1),
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  name TEXT,
  uuid TEXT NOT NULL,
  zone TEXT,
  language TEXT,
  paper TEXT,
  demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  retention_years INTEGER NOT NULL
) STRICT;

CREATE TABLE person (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  name TEXT NOT NULL,
  initials TEXT,
  role TEXT NOT NULL CHECK (role IN ('technician', 'reviewer', 'administrator', 'auditor')),
  language TEXT,
  active INTEGER NOT NULL CHECK (active IN (0, 1)),
  second_reader INTEGER NOT NULL CHECK (second_reader IN (0, 1)),
  secret TEXT,
  UNIQUE (initials)
) STRICT;

CREATE TABLE solvent (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  name TEXT NOT NULL,
  family TEXT NOT NULL
    CHECK (family IN ('hydrocarbon', 'modified_alcohol', 'chlorinated', 'other')),
  density_kg_m3 REAL,
  sds_reference TEXT,
  UNIQUE (name)
) STRICT;

CREATE TABLE product (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  name TEXT NOT NULL,
  use TEXT NOT NULL CHECK (use IN ('neutraliser', 'caustic', 'titrant', 'strips', 'control')),
  kind TEXT NOT NULL CHECK (kind IN ('unknown', 'amine', 'epoxide', 'both')),
  strength_mol_m3 REAL,
  strength_u_mol_m3 REAL,
  density_kg_m3 REAL,
  limit_each_m3_m3 REAL,
  limit_total_m3_m3 REAL,
  no_limits_by TEXT,
  reaction_min REAL,
  sds_reference TEXT,
  UNIQUE (name)
) STRICT;

CREATE TABLE lot (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  product INTEGER NOT NULL REFERENCES product (id),
  code TEXT NOT NULL,
  received_ms INTEGER,
  opened_ms INTEGER,
  expires_ms INTEGER,
  quantity REAL,
  quantity_typed TEXT,
  used_up INTEGER NOT NULL CHECK (used_up IN (0, 1)),
  UNIQUE (product, code)
) STRICT;

CREATE TABLE machine (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  tag TEXT NOT NULL,
  name TEXT,
  area TEXT,
  solvent INTEGER REFERENCES solvent (id),
  neutraliser INTEGER REFERENCES product (id),
  service TEXT NOT NULL CHECK (service IN ('running', 'stopped', 'retired')),
  chamber_m3 REAL,
  dosing_place TEXT,
  circulation_min REAL,
  graduation_si REAL,
  graduation_typed TEXT,
  reserve_low REAL,
  reserve_high REAL,
  UNIQUE (tag)
) STRICT;

CREATE TABLE compartment (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  machine INTEGER NOT NULL REFERENCES machine (id),
  kind TEXT NOT NULL
    CHECK (kind IN ('wash_tank', 'chamber', 'still', 'condensate', 'separator', 'pipes',
      'other')),
  name TEXT,
  volume_si REAL,
  volume_typed TEXT,
  volume_u_m3 REAL
) STRICT;

CREATE TABLE sampling_point (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  machine INTEGER NOT NULL REFERENCES machine (id),
  rank INTEGER NOT NULL,
  name TEXT,
  directions TEXT,
  dose_basis INTEGER NOT NULL CHECK (dose_basis IN (0, 1))
) STRICT;

CREATE TABLE fill (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  machine INTEGER NOT NULL REFERENCES machine (id),
  solvent INTEGER REFERENCES solvent (id),
  ended_ms INTEGER
) STRICT;

CREATE TABLE setting (
  id INTEGER PRIMARY KEY,
  happened_ms INTEGER NOT NULL,
  recorded_ms INTEGER NOT NULL,
  offset_min INTEGER NOT NULL,
  late INTEGER NOT NULL CHECK (late IN (0, 1)),
  voided INTEGER NOT NULL CHECK (voided IN (0, 1)),
  journal_seq INTEGER NOT NULL REFERENCES journal (seq),
  name TEXT NOT NULL,
  value TEXT,
  UNIQUE (name)
) STRICT;

CREATE INDEX lot_by_expiry ON lot (expires_ms) WHERE used_up = 0 AND voided = 0;
CREATE INDEX compartment_by_machine ON compartment (machine);
CREATE INDEX sampling_point_by_machine ON sampling_point (machine, rank);
CREATE INDEX fill_by_machine ON fill (machine, id);
