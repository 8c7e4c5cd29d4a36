-- What was given out stands still: hand-ins on the day they were given out for, and every other
-- reminder on its own.

-- A hand-in that a file, a feed, a server or the shore papers gave out, or that a person put on a day.
CREATE TABLE hand_in (
	id INTEGER PRIMARY KEY, -- its number in this table
	of_base INTEGER NOT NULL CHECK (of_base IN (0, 1)), -- 1: a base's, whoever of its vessels has gear on it; 0: a vessel's
	owner TEXT NOT NULL CHECK (owner <> ''), -- name of the base or the vessel
	winter INTEGER NOT NULL, -- the year it starts in
	station TEXT NOT NULL, -- its name; '' for one that is still to be found
	number INTEGER NOT NULL CHECK (number >= 1), -- of those of this owner, winter and station; never given to another
	hand_in_day INTEGER NOT NULL, -- yyyymmdd, as given out last
	chosen INTEGER NOT NULL CHECK (chosen IN (0, 1)), -- 1: that day was a person's choice
	missed INTEGER NOT NULL CHECK (missed IN (0, 1)), -- 1: a day it was given out for has passed
	UNIQUE (of_base, owner, winter, station, number)
) STRICT;

-- The pieces on it when it was given out last.
CREATE TABLE hand_in_piece (
	hand_in_id INTEGER NOT NULL REFERENCES hand_in (id), -- which
	tag TEXT NOT NULL CHECK (tag <> ''), -- of the item
	PRIMARY KEY (hand_in_id, tag)
) STRICT;

ALTER TABLE reminder ADD COLUMN given_day INTEGER NOT NULL DEFAULT 0; -- yyyymmdd, the day it was given out for last; 0 not known
ALTER TABLE reminder ADD COLUMN aim_day INTEGER NOT NULL DEFAULT 0; -- yyyymmdd, the day it would be on by what it is about, then; 0 long past
ALTER TABLE reminder ADD COLUMN given_entry INTEGER NOT NULL DEFAULT 0; -- number of the last entry of the journal then
ALTER TABLE reminder ADD COLUMN given_summary TEXT NOT NULL DEFAULT ''; -- what it said then; '' not known
ALTER TABLE reminder ADD COLUMN given_description TEXT NOT NULL DEFAULT '';

PRAGMA user_version = 21;
