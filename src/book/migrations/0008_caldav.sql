-- A calendar server, and what was pushed to it. No password is kept here.

CREATE TABLE caldav_account (
	id INTEGER NOT NULL PRIMARY KEY CHECK (id IN (1, 2)), -- 1: where events go, 2: where to-dos go
	url TEXT NOT NULL CHECK (url <> ''), -- as it was given
	login TEXT NOT NULL, -- the user; '' when none is asked for
	calendar TEXT NOT NULL CHECK (calendar <> ''), -- the calendar's own address
	name TEXT NOT NULL, -- the calendar's name
	ca_file TEXT NOT NULL, -- file of certificates to trust; '' for the system's
	scope TEXT NOT NULL CHECK (scope IN ('fleet', 'vessel', 'base', 'station')), -- whose reminders
	scope_name TEXT NOT NULL, -- of the vessel, base or station; '' for the fleet
	allow_plain INTEGER NOT NULL CHECK (allow_plain IN (0, 1)) -- 1: http without TLS
) STRICT;

CREATE TABLE caldav_resource (
	calendar TEXT NOT NULL CHECK (calendar <> ''), -- the calendar's own address
	uid TEXT NOT NULL CHECK (uid <> ''), -- of the reminder, as in its own table
	url TEXT NOT NULL, -- where it is; '' when it was removed there, and that was accepted
	etag TEXT NOT NULL, -- the version the server gave it; '' when it gave none
	summary TEXT NOT NULL, -- as pushed
	our_day INTEGER NOT NULL, -- yyyymmdd, as pushed; 0 for none
	our_rest TEXT NOT NULL, -- digest of the rest as pushed; '' when it no longer applied
	their_day INTEGER NOT NULL, -- yyyymmdd, as the server had it then; 0 for none
	their_rest TEXT NOT NULL, -- digest of the rest as the server had it
	kept INTEGER NOT NULL CHECK (kept IN (0, 1)), -- 1: a person's change, and accepted
	PRIMARY KEY (calendar, uid)
) STRICT;

PRAGMA user_version = 8;
