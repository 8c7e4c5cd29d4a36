-- What stands in for a piece is found by it, however big the book is.
CREATE INDEX item_standing_in ON item (stands_for) WHERE stands_for <> '';

PRAGMA user_version = 33;
