-- SPDX-License-Identifier: GPL-3.0-or-later
-- The views of what version 2 added (without secrets, as the others).

DROP VIEW audit_person;
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
  second_reader,
  secret_given_by
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM person);

DROP VIEW audit_review;
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
  subject_seq,
  identified_by
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM review);

DROP VIEW audit_journal;
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
  clock_ahead_ms,
  action,
  table_name,
  row_id,
  prior_seq,
  entry,
  hash
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM journal);

CREATE VIEW audit_sign_in AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  person,
  accepted
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM sign_in);

CREATE VIEW audit_checkpoint AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  seq,
  head,
  key,
  signature
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM checkpoint);

CREATE VIEW audit_restoration AS
SELECT
  id,
  strftime('%Y-%m-%dT%H:%M:%f', happened_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS happened,
  strftime('%Y-%m-%dT%H:%M:%f', recorded_ms / 1000.0 + offset_min * 60, 'unixepoch')
    || zone_offset AS recorded,
  late,
  voided,
  journal_seq,
  backup,
  kept_seq,
  kept_head,
  lost_seq,
  lost_head
FROM (SELECT *, iif(offset_min < 0, '-', '+')
    || printf('%02d:%02d', abs(offset_min) / 60, abs(offset_min) % 60) AS zone_offset
  FROM restoration);
