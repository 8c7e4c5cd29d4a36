-- Where gear has been: every landing, return, move and withdrawal, in the order of entry.

ALTER TABLE item ADD COLUMN because TEXT NOT NULL DEFAULT ''
	CHECK (because IN ('', 'condemned', 'lost', 'used', 'expired', 'sold', 'given-back')); -- why it was withdrawn; '' when it was not, or not said
ALTER TABLE item ADD COLUMN stands_for TEXT NOT NULL DEFAULT ''; -- the tag of the own item in whose place it stands in; '' for none

CREATE TABLE movement (
	id INTEGER PRIMARY KEY, -- order of entry
	item_id INTEGER NOT NULL REFERENCES item (id) ON DELETE CASCADE, -- of what
	what TEXT NOT NULL
		CHECK (what IN ('landed', 'returned', 'moved', 'withdrawn', 'reserved', 'aboard', 'stood-in', 'renewed')), -- what happened
	on_day INTEGER NOT NULL CHECK (on_day > 0), -- yyyymmdd, the day it happened
	was TEXT NOT NULL
		CHECK (was IN ('aboard', 'reserve', 'landed', 'stand-in', 'withdrawn')), -- how it stood before
	vessel TEXT NOT NULL, -- whose it is after it
	was_vessel TEXT NOT NULL, -- whose it was before
	station TEXT NOT NULL, -- landed to, returned from; '' for none
	stands_for TEXT NOT NULL, -- stood in: the tag of the one in whose place; '' for none
	certificate TEXT NOT NULL, -- the paper that came with it, where no record has it; '' none
	serial TEXT NOT NULL, -- the serial number it had; '' not known
	because TEXT NOT NULL
		CHECK (because IN ('', 'condemned', 'lost', 'used', 'expired', 'sold', 'given-back')), -- withdrawn: why
	result TEXT NOT NULL
		CHECK (result IN ('', 'passed', 'passed-shorter', 'condemned', 'not-done')), -- back from a station: what it found; '' not said
	price_minor INTEGER NOT NULL CHECK (price_minor >= -1), -- what it cost beside any record; -1 not known
	note TEXT NOT NULL -- anything else
) STRICT;

CREATE INDEX movement_of_item ON movement (item_id);

PRAGMA user_version = 9;
