-- SPDX-License-Identifier: GPL-3.0-or-later
-- Reading a file of version 1 without writing to it: what later versions added, empty, under the
-- same names. Views of the connection's own temporary schema, which goes before the file's. No part
-- of the file; kept up to date by whoever adds a version.

CREATE TEMP VIEW person AS SELECT *, NULL AS secret_given_by FROM main.person;
CREATE TEMP VIEW review AS SELECT *, NULL AS identified_by FROM main.review;
CREATE TEMP VIEW journal AS SELECT *, NULL AS clock_ahead_ms FROM main.journal;

CREATE TEMP VIEW sign_in AS
SELECT
  NULL AS id,
  NULL AS happened_ms,
  NULL AS recorded_ms,
  NULL AS offset_min,
  NULL AS late,
  NULL AS voided,
  NULL AS journal_seq,
  NULL AS person,
  NULL AS accepted
WHERE 0;

CREATE TEMP VIEW checkpoint AS
SELECT
  NULL AS id,
  NULL AS happened_ms,
  NULL AS recorded_ms,
  NULL AS offset_min,
  NULL AS late,
  NULL AS voided,
  NULL AS journal_seq,
  NULL AS seq,
  NULL AS head,
  NULL AS key,
  NULL AS signature
WHERE 0;

CREATE TEMP VIEW restoration AS
SELECT
  NULL AS id,
  NULL AS happened_ms,
  NULL AS recorded_ms,
  NULL AS offset_min,
  NULL AS late,
  NULL AS voided,
  NULL AS journal_seq,
  NULL AS backup,
  NULL AS kept_seq,
  NULL AS kept_head,
  NULL AS lost_seq,
  NULL AS lost_head
WHERE 0;
