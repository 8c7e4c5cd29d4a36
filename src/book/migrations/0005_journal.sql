-- The journal: what was changed, from what to what, by whom and when. It is only ever added to.

-- One row a transaction that changed something.
CREATE TABLE journal (
	number INTEGER PRIMARY KEY CHECK (number > 0), -- 1, 2, 3 and so on, without gaps
	at_seconds INTEGER NOT NULL, -- when: seconds since 1970, UTC
	told INTEGER NOT NULL CHECK (told IN (0, 1)), -- 1: the day was told, and its start is meant
	who TEXT NOT NULL, -- who signed; '' not known
	act TEXT NOT NULL, -- the command's words
	undoes INTEGER REFERENCES journal (number), -- the entry it takes back; NULL for none
	changes BLOB NOT NULL -- every row before and after, as a changeset of SQLite's session extension
) STRICT;

CREATE INDEX journal_of_undoes ON journal (undoes);

-- What changed, in words.
CREATE TABLE journal_line (
	number INTEGER NOT NULL REFERENCES journal (number), -- its entry
	position INTEGER NOT NULL, -- order within the entry, from 0
	about TEXT NOT NULL, -- what it is about: 'item', 'vessel', 'station', 'book'
	name TEXT NOT NULL, -- its tag or name at that time
	kind TEXT NOT NULL, -- an item's kind; '' for others
	serial TEXT NOT NULL, -- an item's serial number; '' for others
	act TEXT NOT NULL CHECK (act IN ('added', 'changed', 'removed')), -- what was done
	field TEXT NOT NULL, -- what of it: 'place', 'record certificate'; '' the thing itself
	was TEXT NOT NULL, -- what stood there before; '' nothing
	became TEXT NOT NULL, -- what stands there since; '' nothing
	PRIMARY KEY (number, position)
) STRICT;

CREATE INDEX journal_line_of_name ON journal_line (name);
CREATE INDEX journal_line_of_serial ON journal_line (serial) WHERE serial <> '';

-- No entry is ever changed or taken out, or put in anywhere but at the end. (Another database
-- than SQLite spells triggers otherwise.)
CREATE TRIGGER journal_at_the_end BEFORE INSERT ON journal
WHEN NEW.number <> (SELECT COALESCE(MAX(number), 0) + 1 FROM journal)
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to, at its end');
END;

CREATE TRIGGER journal_no_change BEFORE UPDATE ON journal
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to; no entry can be changed');
END;

CREATE TRIGGER journal_no_removal BEFORE DELETE ON journal
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to; no entry can be taken out');
END;

CREATE TRIGGER journal_line_at_the_end BEFORE INSERT ON journal_line
WHEN NEW.number <> (SELECT COALESCE(MAX(number), 0) FROM journal)
	OR NEW.position <> (SELECT COALESCE(MAX(position) + 1, 0) FROM journal_line WHERE number = NEW.number)
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to, at its end');
END;

CREATE TRIGGER journal_line_no_change BEFORE UPDATE ON journal_line
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to; no line can be changed');
END;

CREATE TRIGGER journal_line_no_removal BEFORE DELETE ON journal_line
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to; no line can be taken out');
END;

PRAGMA user_version = 5;
