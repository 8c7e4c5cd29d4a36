-- What is packed in its bag, to be handed in.

CREATE TABLE packed (
	item_id INTEGER PRIMARY KEY REFERENCES item (id), -- of what
	on_day INTEGER NOT NULL CHECK (on_day > 0) -- yyyymmdd, the day it was ticked
) STRICT;

PRAGMA user_version = 31;
