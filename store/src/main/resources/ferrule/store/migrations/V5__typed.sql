-- Readings may be corrected and withdrawn, and entries may be typed one at a time under a key. The tables stay as
-- they are; the format counts up so that a reader that does not know this refuses the file. See docs/job-file.md.
SELECT 1;
