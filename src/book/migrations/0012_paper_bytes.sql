-- The bytes of papers, once however often the book and its journal tell of them: the journal
-- keeps a paper's digest, and what it names is never taken out. A paper that was put in before
-- has its bytes in its own row, as the journal's entries of that time know it.

CREATE TABLE paper_bytes (
	sha256 TEXT NOT NULL PRIMARY KEY CHECK (length(sha256) = 64), -- SHA-256 of the bytes in hexadecimal digits
	bytes BLOB NOT NULL -- a file, bit for bit; then its papers have none of their own
) STRICT;

CREATE TRIGGER paper_bytes_no_removal BEFORE DELETE ON paper_bytes
BEGIN
	SELECT RAISE(ABORT, 'the journal may give a paper back; its bytes stay');
END;

PRAGMA user_version = 12;
