-- A day that a station confirmed for a hand-in.

ALTER TABLE reminder_planned ADD COLUMN confirmed INTEGER NOT NULL DEFAULT 0 CHECK (confirmed IN (0, 1)); -- 1: the station said that day

PRAGMA user_version = 27;
