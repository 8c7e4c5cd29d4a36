-- The dates as last reckoned, and by what: so that a newer program can say which of them it moves.

-- By what they were reckoned.
CREATE TABLE reckoning (
	id INTEGER PRIMARY KEY CHECK (id = 1), -- there is one
	figures TEXT NOT NULL, -- digest of the kinds and rule sheets
	meanings INTEGER NOT NULL, -- number of the meanings that the program reckoned by
	entry INTEGER NOT NULL -- number of the journal's last entry then; 0 none
) STRICT;

-- The vessels whose gear's dates are kept.
CREATE TABLE reckoned_vessel (
	vessel TEXT PRIMARY KEY, -- its name
	seen_day INTEGER NOT NULL -- yyyymmdd, the day for which they were reckoned
) STRICT;

-- A task of an item.
CREATE TABLE reckoned (
	vessel TEXT NOT NULL REFERENCES reckoned_vessel (vessel) ON DELETE CASCADE, -- whose gear
	tag TEXT NOT NULL CHECK (tag <> ''), -- of the item
	task TEXT NOT NULL, -- which
	due_day INTEGER NOT NULL, -- yyyymmdd; 0 not known or never
	good_day INTEGER NOT NULL, -- yyyymmdd, last day in date; 0 not known or never
	state TEXT NOT NULL, -- how it stood
	rule TEXT NOT NULL, -- id of the rule that bound; '' none
	sheet TEXT NOT NULL, -- the sheet of that rule; '' the item's own papers
	PRIMARY KEY (tag, task)
) STRICT;

CREATE INDEX reckoned_of_vessel ON reckoned (vessel);

PRAGMA user_version = 24;
