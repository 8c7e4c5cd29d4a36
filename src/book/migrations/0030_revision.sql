-- How often the book has been written to, bookkeeping included: what was read from a revision
-- is as it was read for as long as the number is the same.
CREATE TABLE revision (
	id INTEGER PRIMARY KEY CHECK (id = 1), -- the one row
	number INTEGER NOT NULL -- raised by each transaction that changed a row
) STRICT;
INSERT INTO revision (id, number) VALUES (1, 0);

PRAGMA user_version = 30;
