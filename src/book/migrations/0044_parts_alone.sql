-- Most gear is no part of anything: it is not in the index by which parts are found. No value is changed.
DROP INDEX item_of_parent;

CREATE INDEX item_of_parent ON item (parent_id) WHERE parent_id IS NOT NULL;

PRAGMA user_version = 44;
