-- The maker's interval of a task for one piece, as its paper states it. It is of the thing that
-- was in place on its day: a renewal dated later ends it.

CREATE TABLE maker_interval (
	id INTEGER PRIMARY KEY, -- order of entry
	item_id INTEGER NOT NULL REFERENCES item (id) ON DELETE CASCADE, -- of what
	task TEXT NOT NULL
		CHECK (task IN ('service', 'inspect', 'weigh', 'test', 'renew', 'register')), -- of which task
	on_day INTEGER NOT NULL CHECK (on_day > 0), -- yyyymmdd, the day it was known of the thing in place
	months INTEGER NOT NULL CHECK (months BETWEEN 1 AND 600), -- from the last time it was done
	first_months INTEGER NOT NULL CHECK (first_months BETWEEN 0 AND 600), -- until it was first done; 0 the same
	counts_from TEXT NOT NULL
		CHECK (counts_from IN ('', 'made', 'packed', 'bought', 'fitted', 'last')), -- until then; '' not said
	paper TEXT NOT NULL CHECK (paper <> ''), -- the paper it stands in
	UNIQUE (item_id, task, on_day)
) STRICT;

PRAGMA user_version = 14;
