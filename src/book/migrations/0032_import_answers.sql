-- What a person answered about a list that was imported, for the next one. Not journalled: taking
-- an import back leaves what was learned from it.
CREATE TABLE import_answer (
	about TEXT NOT NULL CHECK (about IN ('header', 'words')), -- a column's header, or words for a kind
	theirs TEXT NOT NULL CHECK (theirs <> ''), -- as the list has it
	ours TEXT NOT NULL CHECK (ours <> ''), -- our column, "notes" or "ignore"; a kind's id, or "no-gear"
	PRIMARY KEY (about, theirs)
) STRICT;

PRAGMA user_version = 32;
