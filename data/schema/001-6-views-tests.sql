-- SPDX-License-Identifier: GPL-3.0-or-later
-- The records as a person reads them: times as ISO 8601 text with the zone's offset.
-- Secrets are left out.

CREATE VIEW audit_sample AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  code,
  machine,
  point,
  plan,
  fill,
  drawn_by,
  purpose,
  answers_dose,
  running,
  level_ok,
  added_since,
  volume_si,
  volume_typed,
  temperature_si,
  temperature_typed,
  appearance,
  retained,
  remarks
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM sample);

CREATE VIEW audit_titration AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  sample,
  method_version,
  calibration,
  analyst,
  second_reader,
  portion,
  step,
  titrant_lot,
  caustic_lot,
  strip_lot,
  lot_reason,
  portion_volume_si,
  portion_volume_typed,
  portion_u_m3,
  step_m3,
  step_u_m3,
  step_freedom,
  titrant_mol_m3,
  titrant_u_mol_m3,
  caustic_mol,
  caustic_counts,
  blank,
  maximum,
  strftime('%Y-%m-%dT%H:%M:%f', shake_started_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS shake_started,
  pending_total,
  outcome,
  net_low,
  net_high,
  acid_at,
  pass_at,
  strftime('%Y-%m-%dT%H:%M:%f', closed_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS closed,
  strftime('%Y-%m-%dT%H:%M:%f', signed_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS signed,
  strftime('%Y-%m-%dT%H:%M:%f', ended_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS ended,
  end_reason,
  calc_version
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM titration);

CREATE VIEW audit_reading AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  titration,
  ordinal,
  total,
  colour_field,
  meaning,
  struck,
  not_added,
  struck_reason,
  reader
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM reading);

CREATE VIEW audit_dose AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  titration,
  incident,
  product,
  state,
  system_m3,
  system_u_m3,
  product_mol_m3,
  product_u_mol_m3,
  strength_ratio,
  per_step_m3,
  low_m3,
  high_m3,
  best_m3,
  best_u_m3,
  extra_steps,
  extra_reason,
  computed_m3,
  measured_m3,
  graduation_m3,
  supplier_m3,
  supplier_governs,
  place,
  released_by,
  strftime('%Y-%m-%dT%H:%M:%f', released_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS released,
  strftime('%Y-%m-%dT%H:%M:%f', decided_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS decided,
  lot,
  added_si,
  added_typed,
  strftime('%Y-%m-%dT%H:%M:%f', added_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS added,
  added_by,
  strftime('%Y-%m-%dT%H:%M:%f', retest_due_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS retest_due,
  retest_sample,
  calc_version
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM dose);

CREATE VIEW audit_incident AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  machine,
  opened_by_titration,
  answered_by_titration,
  state,
  over_range,
  cause,
  closed_by,
  strftime('%Y-%m-%dT%H:%M:%f', closed_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS closed
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM incident);

CREATE VIEW audit_review AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  subject_table,
  subject,
  person,
  meaning,
  subject_seq
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM review);

CREATE VIEW audit_decision AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  plan,
  titration,
  interval_days,
  credit,
  strftime('%Y-%m-%dT%H:%M:%f', due_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS due,
  reason,
  shortest_days,
  longest_days
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM decision);

CREATE VIEW audit_journal AS
SELECT
  seq,
  act,
  kind,
  strftime('%Y-%m-%dT%H:%M:%f', utc_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS time,
  person,
  identified_by,
  workstation,
  version,
  reason,
  clock_back_ms,
  action,
  table_name,
  row_id,
  prior_seq,
  entry,
  hash
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM journal);
