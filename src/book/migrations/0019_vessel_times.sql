-- Where a boat lies, when she is laid up and what sheets she follows hold from a day on, as her
-- use does; and she may leave. What held since ever stays in `vessel` and `vessel_sheet`; what
-- holds from a later day stands with the period of that day. NULL means as before.

ALTER TABLE vessel_period ADD COLUMN base TEXT; -- where she lies; '' not known
ALTER TABLE vessel_period ADD COLUMN laid_up INTEGER CHECK (laid_up IN (0, 1)); -- 0: in use all year round
ALTER TABLE vessel_period ADD COLUMN lay_up_first INTEGER; -- mmdd of the lay-up day, every year
ALTER TABLE vessel_period ADD COLUMN lay_up_last INTEGER; -- mmdd of the fitting-out day; may be in the next year

-- The rule sheets she follows from a day on; none for a day: as before.
CREATE TABLE vessel_period_sheet (
	vessel_id INTEGER NOT NULL REFERENCES vessel (id), -- whose
	from_day INTEGER NOT NULL CHECK (from_day > 0), -- yyyymmdd of the first day, that of a period of hers
	position INTEGER NOT NULL, -- order in which they were named, from 0
	sheet TEXT NOT NULL CHECK (sheet <> ''), -- the sheet's name
	PRIMARY KEY (vessel_id, from_day, position)
) STRICT;

ALTER TABLE vessel ADD COLUMN left_day INTEGER NOT NULL DEFAULT 0; -- yyyymmdd of the first day on which she is not in the fleet any more; 0 she is
ALTER TABLE vessel ADD COLUMN left_because TEXT NOT NULL DEFAULT ''
	CHECK (left_because IN ('', 'sold', 'lost', 'condemned', 'given-back')); -- why she left; '' not said

PRAGMA user_version = 19;
