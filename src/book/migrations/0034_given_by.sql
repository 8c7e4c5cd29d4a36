-- When and by what a hand-in was first given out for the day it has.

ALTER TABLE hand_in ADD COLUMN given_on_day INTEGER NOT NULL DEFAULT 0 CHECK (given_on_day >= 0); -- yyyymmdd; 0 not known
ALTER TABLE hand_in ADD COLUMN given_by TEXT NOT NULL DEFAULT '' CHECK (given_by IN ('', 'file', 'feed', 'push', 'papers', 'rota', 'person')); -- a calendar file, a feed, a push, shore papers, a rota, or a person who chose the day; '' not known

PRAGMA user_version = 34;
