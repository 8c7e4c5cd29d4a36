-- Where the feeds were last served, so that the addresses shown are those that answer.

-- One row, or none before the first time.
CREATE TABLE serving (
	id INTEGER NOT NULL PRIMARY KEY CHECK (id = 1), -- always 1
	listen TEXT NOT NULL CHECK (listen <> ''), -- the address listened at
	host TEXT NOT NULL, -- the name by which others reach the machine; '' for that address
	port INTEGER NOT NULL CHECK (port BETWEEN 1 AND 65535) -- the port
) STRICT;

PRAGMA user_version = 16;
