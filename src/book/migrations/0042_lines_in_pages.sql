-- The lines of an entry that changed many rows are kept in pages: a row for each cost more than the row of
-- gear it tells of. An entry of few rows has a row for each line as before, and so has every older one.
CREATE TABLE journal_page (
	number INTEGER NOT NULL REFERENCES journal (number), -- of which entry
	position INTEGER NOT NULL, -- from 0; the pages one behind the other are the entry's lines in order
	items TEXT NOT NULL, -- tags of the items that it tells of, but for which boat one is on: a list in JSON
	others TEXT NOT NULL, -- of every other line its about, name and field: a list of lists
	lines BLOB NOT NULL, -- 1, then of each line the values of journal_line from about on, with type and length; nothing: as before
	PRIMARY KEY (number, position)
) STRICT;

CREATE TRIGGER journal_page_at_the_end BEFORE INSERT ON journal_page
WHEN NEW.number <> (SELECT COALESCE(MAX(number), 0) FROM journal)
	OR NEW.position <> (SELECT COALESCE(MAX(position) + 1, 0) FROM journal_page WHERE number = NEW.number)
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to, at its end');
END;

CREATE TRIGGER journal_page_no_change BEFORE UPDATE ON journal_page
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to; no page of an entry can be changed');
END;

CREATE TRIGGER journal_page_no_removal BEFORE DELETE ON journal_page
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to; no page of an entry can be taken out');
END;

-- No question finds lines by these: what is asked of one piece reads all lines in any case, for it may
-- have had another tag or serial number.
DROP INDEX journal_line_of_name;
DROP INDEX journal_line_of_serial;

PRAGMA user_version = 42;
