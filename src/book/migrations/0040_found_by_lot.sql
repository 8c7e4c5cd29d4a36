-- Whether pieces were split from a lot is looked up when a row of an item goes: undoing an import read all
-- items for each. No value is changed.
CREATE INDEX item_of_lot ON item (split_from) WHERE split_from IS NOT NULL;

PRAGMA user_version = 40;
