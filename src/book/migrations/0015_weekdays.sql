-- On which days of the week a station takes gear in is often not known: Monday to Friday is supposed
-- then, and said. Until now every day was written down for those, too, so that all seven of an older
-- book count as not known.

ALTER TABLE station ADD COLUMN weekdays_known INTEGER NOT NULL DEFAULT 0 CHECK (weekdays_known IN (0, 1)); -- 1: a person said so; 0: weekdays means nothing

UPDATE station SET weekdays_known = 1 WHERE weekdays <> 127;

PRAGMA user_version = 15;
