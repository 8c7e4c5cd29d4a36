-- The bytes of an entry that changed many rows are kept in pieces, so that they are never whole in memory
-- while they are written. An entry of few rows has them in its own row as before, and so has every older one.
CREATE TABLE journal_piece (
	number INTEGER NOT NULL REFERENCES journal (number), -- of which entry
	position INTEGER NOT NULL, -- from 0; the pieces one behind the other are the entry's bytes
	bytes BLOB NOT NULL,
	PRIMARY KEY (number, position)
) STRICT;

CREATE TRIGGER journal_piece_at_the_end BEFORE INSERT ON journal_piece
WHEN NEW.number <> (SELECT COALESCE(MAX(number), 0) FROM journal)
	OR NEW.position <> (SELECT COALESCE(MAX(position) + 1, 0) FROM journal_piece WHERE number = NEW.number)
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to, at its end');
END;

CREATE TRIGGER journal_piece_no_change BEFORE UPDATE ON journal_piece
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to; no piece of an entry can be changed');
END;

CREATE TRIGGER journal_piece_no_removal BEFORE DELETE ON journal_piece
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to; no piece of an entry can be taken out');
END;

PRAGMA user_version = 41;
