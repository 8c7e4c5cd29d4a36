-- The days on which someone goes to a station with a vessel's gear: not the station's own.

ALTER TABLE vessel ADD COLUMN goes_weekdays INTEGER NOT NULL DEFAULT 0 CHECK (goes_weekdays BETWEEN 0 AND 127); -- Monday 1, Tuesday 2, Wednesday 4 and so on, added up; 0 any

-- Days on which nobody goes.
CREATE TABLE vessel_away (
	vessel_id INTEGER NOT NULL REFERENCES vessel (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0
	first_day INTEGER NOT NULL CHECK (first_day > 0), -- yyyymmdd of the first of them
	last_day INTEGER NOT NULL CHECK (last_day >= first_day), -- yyyymmdd of the last of them
	PRIMARY KEY (vessel_id, position)
) STRICT;

PRAGMA user_version = 22;
