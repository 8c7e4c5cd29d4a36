-- A lot may be split: a piece of it gets a tag of its own.

ALTER TABLE item ADD COLUMN split_from INTEGER REFERENCES item (id); -- the lot it was a piece of; NULL for none

PRAGMA user_version = 20;
