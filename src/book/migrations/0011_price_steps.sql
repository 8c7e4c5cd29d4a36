-- Prices of stations that change with the age of what is serviced.

-- What a station asks for one piece from an age on, in place of what station_price has for it.
CREATE TABLE station_price_step (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	kind TEXT NOT NULL CHECK (kind <> ''), -- id in the kinds catalogue
	task TEXT NOT NULL
		CHECK (task IN ('', 'service', 'inspect', 'weigh', 'test', 'renew', 'register')), -- for what; '' for all that has no price of its own
	from_years INTEGER NOT NULL CHECK (from_years BETWEEN 1 AND 100), -- the age in whole years from which it holds
	price_minor INTEGER NOT NULL CHECK (price_minor >= 0), -- for one piece
	PRIMARY KEY (station_id, kind, task, from_years)
) STRICT;

PRAGMA user_version = 11;
