-- What was asked of a station when gear was landed there, so that its return can be held against
-- it.

ALTER TABLE movement ADD COLUMN asked TEXT NOT NULL DEFAULT ''; -- landed: tasks wanted of the station, with blanks between; '' not known

PRAGMA user_version = 13;
