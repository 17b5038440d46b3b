-- Entries may be of two more kinds, part and polarity, and a link may name what feeds it. The tables stay as they
-- are; the format counts up so that a reader that does not know these refuses the file. See docs/job-file.md.
SELECT 1;
