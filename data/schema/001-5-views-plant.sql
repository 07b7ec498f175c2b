-- SPDX-License-Identifier: GPL-3.0-or-later
-- The records as a person reads them: times as ISO 8601 text with the zone's offset.
-- Secrets are left out.

CREATE VIEW audit_site AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  name,
  uuid,
  zone,
  language,
  paper,
  demo,
  retention_years
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM site);

CREATE VIEW audit_person AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  name,
  initials,
  role,
  language,
  active,
  second_reader
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM person);

CREATE VIEW audit_solvent AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  name,
  family,
  density_kg_m3,
  sds_reference
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM solvent);

CREATE VIEW audit_product AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  name,
  use,
  kind,
  strength_mol_m3,
  strength_u_mol_m3,
  density_kg_m3,
  limit_each_m3_m3,
  limit_total_m3_m3,
  no_limits_by,
  reaction_min,
  sds_reference
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM product);

CREATE VIEW audit_lot AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  product,
  code,
  strftime('%Y-%m-%dT%H:%M:%f', received_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS received,
  strftime('%Y-%m-%dT%H:%M:%f', opened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS opened,
  strftime('%Y-%m-%dT%H:%M:%f', expires_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS expires,
  quantity,
  quantity_typed,
  used_up
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM lot);

CREATE VIEW audit_machine AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  tag,
  name,
  area,
  solvent,
  neutraliser,
  service,
  chamber_m3,
  dosing_place,
  circulation_min,
  graduation_si,
  graduation_typed,
  reserve_low,
  reserve_high
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM machine);

CREATE VIEW audit_compartment AS
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
  kind,
  name,
  volume_si,
  volume_typed,
  volume_u_m3
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM compartment);

CREATE VIEW audit_sampling_point AS
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
  rank,
  name,
  directions,
  dose_basis
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM sampling_point);

CREATE VIEW audit_fill AS
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
  solvent,
  strftime('%Y-%m-%dT%H:%M:%f', ended_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS ended
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM fill);

CREATE VIEW audit_method AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  name,
  origin,
  active
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM method);

CREATE VIEW audit_method_version AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  method,
  version,
  direction,
  burette,
  for_hydrocarbon,
  for_modified_alcohol,
  for_chlorinated,
  for_other,
  sample_si,
  sample_typed,
  sample_u_m3,
  titrant,
  caustic,
  caustic_volume_si,
  caustic_volume_typed,
  caustic_mol,
  caustic_u_mol,
  caustic_counts,
  water_si,
  water_typed,
  water_kind,
  blank,
  maximum,
  shake_s,
  strip_wait_s,
  supplier_factor_m3_m3,
  supplier_governs
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM method_version);

CREATE VIEW audit_colour_field AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  method_version,
  rank,
  label,
  meaning,
  swatch
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM colour_field);

CREATE VIEW audit_method_text AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  method_version,
  step,
  language,
  text
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM method_text);

CREATE VIEW audit_calibration AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  product,
  dropper,
  drop_si,
  drop_typed,
  drop_u_m3,
  freedom,
  weighings,
  strftime('%Y-%m-%dT%H:%M:%f', due_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS due
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM calibration);

CREATE VIEW audit_plan AS
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
  method,
  shortest_days,
  longest_days,
  alpha,
  back_to_start_at,
  active
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM plan);

CREATE VIEW audit_setting AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  name,
  value
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM setting);

