-- The days on which boats are let.

CREATE TABLE booking (
	id INTEGER PRIMARY KEY, -- its number in this table
	vessel_id INTEGER NOT NULL REFERENCES vessel (id) ON DELETE CASCADE, -- whose
	first_day INTEGER NOT NULL CHECK (first_day > 0), -- yyyymmdd of the day on which the party comes aboard
	last_day INTEGER NOT NULL CHECK (last_day >= first_day), -- yyyymmdd of the day on which it leaves
	persons INTEGER NOT NULL CHECK (persons >= 0), -- everyone aboard; 0 as many as she is entered for
	children INTEGER NOT NULL CHECK (children >= 0), -- of the persons
	note TEXT NOT NULL, -- whose it is, or what else was said; '' nothing
	UNIQUE (vessel_id, first_day)
) STRICT;

PRAGMA user_version = 26;
