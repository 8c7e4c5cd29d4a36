-- Papers kept with the gear: photographs of labels, scanned certificates. The bytes stand last
-- in a row, so that listing papers never reads them.

CREATE TABLE paper (
	id INTEGER PRIMARY KEY, -- its number
	item_id INTEGER NOT NULL REFERENCES item (id) ON DELETE CASCADE, -- about what
	record_id INTEGER REFERENCES record (id) ON DELETE SET NULL, -- the record it belongs to; NULL: the item
	name TEXT NOT NULL CHECK (name <> ''), -- a plain file name
	media_type TEXT NOT NULL CHECK (media_type <> ''), -- what its content is: image/jpeg
	note TEXT NOT NULL, -- anything about it; '' none
	added_day INTEGER NOT NULL CHECK (added_day > 0), -- yyyymmdd, the day it was put here
	size INTEGER NOT NULL CHECK (size BETWEEN 1 AND 10485760), -- how many bytes; 10 MiB at most
	sha256 TEXT NOT NULL CHECK (length(sha256) = 64), -- SHA-256 of the bytes in hexadecimal digits
	bytes BLOB NOT NULL, -- the file, bit for bit
	UNIQUE (item_id, sha256)
) STRICT;

CREATE INDEX paper_of_record ON paper (record_id);

PRAGMA user_version = 4;
