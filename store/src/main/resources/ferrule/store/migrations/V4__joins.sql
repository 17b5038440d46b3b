-- What a joined file held before: every entry of every file that went into it can be told again, and with it the
-- head that was noted then. The log's entry of kind join names the heads, so the log's chain of hashes covers these
-- tables. See docs/job-file.md.
CREATE TABLE joined (
  number  INTEGER PRIMARY KEY,                    -- 1, 2, 3 without a gap, by rising head
  head    TEXT NOT NULL UNIQUE,                   -- hash of the last entry, 64 lower-case hexadecimal digits
  entries INTEGER NOT NULL                        -- how many there were
) STRICT;

CREATE TABLE origin (
  joined     INTEGER NOT NULL REFERENCES joined (number),
  place      INTEGER NOT NULL,                    -- seq of the entry in that file
  entry      INTEGER NOT NULL REFERENCES entry (seq), -- which holds the same kind, name and content here
  supersedes INTEGER NOT NULL,                    -- in that file; 0 if none
  id         TEXT,                                -- from here: NULL where as in the entry here
  intake     TEXT,
  file       TEXT,
  row        INTEGER,
  entered_at TEXT,
  why        TEXT,
  PRIMARY KEY (joined, place)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER joined_is_never_edited BEFORE UPDATE ON joined
BEGIN
  SELECT RAISE(ABORT, 'entries are never edited');
END;

CREATE TRIGGER joined_is_never_removed BEFORE DELETE ON joined
BEGIN
  SELECT RAISE(ABORT, 'entries are never removed');
END;

CREATE TRIGGER origin_is_never_edited BEFORE UPDATE ON origin
BEGIN
  SELECT RAISE(ABORT, 'entries are never edited');
END;

CREATE TRIGGER origin_is_never_removed BEFORE DELETE ON origin
BEGIN
  SELECT RAISE(ABORT, 'entries are never removed');
END;
