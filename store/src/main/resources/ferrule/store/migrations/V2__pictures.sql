-- Pictures of end faces by the hash of their bytes. The grades in the log name them; the log's chain
-- of hashes covers the names and with them the bytes. See docs/job-file.md.
CREATE TABLE picture (
  sha256 TEXT PRIMARY KEY,                        -- of the bytes, 64 lower-case hexadecimal digits
  bytes  BLOB NOT NULL                            -- the file as it was handed in
) STRICT;

CREATE TRIGGER picture_is_never_edited BEFORE UPDATE ON picture
BEGIN
  SELECT RAISE(ABORT, 'pictures are never edited');
END;

CREATE TRIGGER picture_is_never_removed BEFORE DELETE ON picture
BEGIN
  SELECT RAISE(ABORT, 'pictures are never removed');
END;
