-- What is said of trips and stations beside their usual days.

ALTER TABLE vessel ADD COLUMN most_trips INTEGER NOT NULL DEFAULT 0 CHECK (most_trips >= 0); -- to stations in one winter; 0 any number
ALTER TABLE station ADD COLUMN not_before_day INTEGER NOT NULL DEFAULT 0 CHECK (not_before_day >= 0); -- yyyymmdd; it takes nothing in before; 0 not said

PRAGMA user_version = 23;
