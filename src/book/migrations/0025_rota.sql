-- Hand-ins of boats in use all year, as a rota gave them out.

ALTER TABLE hand_in_piece ADD COLUMN due_day INTEGER NOT NULL DEFAULT 0 CHECK (due_day >= 0); -- yyyymmdd, the day its work was due when it was given out, of a boat in use all year; 0 of others, or not known

PRAGMA user_version = 25;
