-- The job file: one append-only table. See docs/job-file.md.
CREATE TABLE entry (
  seq        INTEGER PRIMARY KEY,                 -- 1, 2, 3 without a gap
  id         TEXT NOT NULL UNIQUE,                -- time-ordered UUID (version 7)
  kind       TEXT NOT NULL,                       -- job, link, instrument, cord, reference, reading, face, intake
  name       TEXT NOT NULL,                       -- what may stand once in its kind; empty if many may
  content    TEXT NOT NULL,                       -- JSON
  digest     BLOB NOT NULL,                       -- SHA-256 of kind, line feed, content
  intake     TEXT NOT NULL,                       -- id of the intake that brought it; its own id for an intake
  file       TEXT NOT NULL,                       -- file it came from
  row        INTEGER NOT NULL,                    -- row in that file; 0 if none
  entered_at TEXT NOT NULL,                       -- UTC, ISO 8601
  supersedes INTEGER REFERENCES entry (seq),      -- the entry it corrects
  why        TEXT NOT NULL,                       -- why it corrects it; empty if it does not
  prev       BLOB NOT NULL,                       -- hash of the entry before; 32 zero bytes for the first
  hash       BLOB NOT NULL                        -- SHA-256 over all of the above but digest
) STRICT;

CREATE UNIQUE INDEX entry_supersedes ON entry (supersedes) WHERE supersedes IS NOT NULL;

CREATE TRIGGER entry_is_never_edited BEFORE UPDATE ON entry
BEGIN
  SELECT RAISE(ABORT, 'entries are never edited');
END;

CREATE TRIGGER entry_is_never_removed BEFORE DELETE ON entry
BEGIN
  SELECT RAISE(ABORT, 'entries are never removed');
END;
