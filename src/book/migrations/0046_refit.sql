-- A renewal may be of what is in a thing alone: with a new battery a beacon is the same one still.
ALTER TABLE record ADD COLUMN
	refit INTEGER NOT NULL DEFAULT 0 CHECK (refit = 0 OR (refit = 1 AND task = 'renew')); -- 1 a renewal of what is in it: the thing and its other records stay; 0 of the whole, or no renewal

PRAGMA user_version = 46;
