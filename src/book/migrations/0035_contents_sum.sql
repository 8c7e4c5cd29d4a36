-- A sum over all values of the book, which each writing transaction carries on: what was changed
-- by a fault of the disk, or by another program, does not agree with it.
ALTER TABLE revision ADD COLUMN
	contents_sum INTEGER NOT NULL DEFAULT 0; -- modulo 2^62; over all values that a person or the journal may rely on

PRAGMA user_version = 35;
