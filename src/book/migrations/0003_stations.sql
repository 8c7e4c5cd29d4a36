-- What a station may do, what it asks for it, and how its pace changes over the year.

ALTER TABLE station ADD COLUMN carriage_minor INTEGER NOT NULL DEFAULT 0 CHECK (carriage_minor >= 0); -- what carrying or sending one piece costs beside the trip, both ways
ALTER TABLE station ADD COLUMN weekly_pieces INTEGER NOT NULL DEFAULT 0 CHECK (weekly_pieces >= 0); -- most pieces it takes in from Monday to Sunday; 0 no limit
ALTER TABLE station ADD COLUMN weekdays INTEGER NOT NULL DEFAULT 127 CHECK (weekdays BETWEEN 1 AND 127); -- days of the week it is open: Monday 1, Tuesday 2, Wednesday 4 and so on, added up

-- Days of one year alone on which a station is shut.
CREATE TABLE station_shut (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0
	first_day INTEGER NOT NULL CHECK (first_day > 0), -- yyyymmdd of the first closed day
	last_day INTEGER NOT NULL CHECK (last_day >= first_day), -- yyyymmdd of the last closed day
	PRIMARY KEY (station_id, position)
) STRICT;

-- Months in which gear that is handed in takes a station longer, or less long, than otherwise.
CREATE TABLE station_pace (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0; the first that fits counts
	first_month INTEGER NOT NULL CHECK (first_month BETWEEN 1 AND 12), -- the first such month
	last_month INTEGER NOT NULL CHECK (last_month BETWEEN 1 AND 12), -- the last; may be in the next year
	turn_round_days INTEGER NOT NULL CHECK (turn_round_days >= 0), -- open days from hand-in to collect
	PRIMARY KEY (station_id, position)
) STRICT;

-- The makes of a kind that a station is approved for; a kind with none here: every make.
CREATE TABLE station_make (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	kind TEXT NOT NULL CHECK (kind <> ''), -- id in the kinds catalogue
	make TEXT NOT NULL CHECK (make <> ''), -- as on the label
	PRIMARY KEY (station_id, kind, make)
) STRICT;

-- What a station asks for one piece.
CREATE TABLE station_price (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	kind TEXT NOT NULL CHECK (kind <> ''), -- id in the kinds catalogue
	task TEXT NOT NULL
		CHECK (task IN ('', 'service', 'inspect', 'weigh', 'test', 'renew', 'register')), -- for what; '' for all that has no price of its own
	price_minor INTEGER NOT NULL CHECK (price_minor >= 0), -- for one piece
	PRIMARY KEY (station_id, kind, task)
) STRICT;

PRAGMA user_version = 3;
