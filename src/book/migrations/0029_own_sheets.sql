-- A person's own rule sheets, which stand beside the book and go with its copies.

CREATE TABLE own_sheet (
	name TEXT PRIMARY KEY, -- of the sheet; there are rows in a backup alone
	yaml BLOB NOT NULL -- its file, byte for byte
) STRICT;

PRAGMA user_version = 29;
