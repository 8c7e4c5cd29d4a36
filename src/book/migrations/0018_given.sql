-- What was given out of each reminder, so that what is read back is held against that and not
-- against a plan made since.

CREATE TABLE reminder_given (
	uid TEXT NOT NULL, -- of the reminder, as in its own table
	sequence INTEGER NOT NULL CHECK (sequence >= 0), -- under this SEQUENCE
	on_day INTEGER NOT NULL, -- yyyymmdd, the day it had
	PRIMARY KEY (uid, sequence)
) STRICT;

PRAGMA user_version = 18;
