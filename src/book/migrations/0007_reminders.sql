-- What a person chose about reminders, and the addresses at which calendar programs fetch them.

-- One row: choices that hold for all reminders.
CREATE TABLE reminder_choice (
	id INTEGER PRIMARY KEY CHECK (id = 1), -- always 1
	weekday INTEGER NOT NULL CHECK (weekday BETWEEN 0 AND 6), -- 0 Monday: the day for what is overdue and for what one does oneself
	routines INTEGER NOT NULL CHECK (routines IN (0, 1)), -- 1: the weekly and monthly looks, too
	singles INTEGER NOT NULL CHECK (singles IN (0, 1)) -- 1: one for each item and task besides the gathered ones
) STRICT;

INSERT INTO reminder_choice (id, weekday, routines, singles) VALUES (1, 5, 0, 0);

-- How long before its day a person is to be reminded of gear of a kind.
CREATE TABLE reminder_notice (
	kind TEXT NOT NULL PRIMARY KEY CHECK (kind <> ''), -- id in the kinds catalogue
	days INTEGER NOT NULL CHECK (days >= 0) -- so many days before
) STRICT;

-- Days that a person chose for single reminders.
CREATE TABLE reminder_planned (
	key TEXT NOT NULL PRIMARY KEY CHECK (key <> ''), -- the reminder's key
	on_day INTEGER NOT NULL CHECK (on_day > 0) -- yyyymmdd
) STRICT;

-- Addresses of feeds. One that was revoked stays, so that its number names no other.
CREATE TABLE feed (
	id INTEGER PRIMARY KEY, -- its number
	secret TEXT NOT NULL UNIQUE CHECK (length(secret) >= 32), -- the part of the address that can't be guessed
	scope TEXT NOT NULL CHECK (scope IN ('fleet', 'vessel', 'base', 'station')), -- whose reminders
	name TEXT NOT NULL, -- of the vessel, base or station; '' for the fleet
	todos INTEGER NOT NULL CHECK (todos IN (0, 1)), -- 1: to-dos; 0: events
	revoked INTEGER NOT NULL DEFAULT 0 CHECK (revoked IN (0, 1)) -- 1: no longer answered
) STRICT;

-- What each feed gave out last.
CREATE TABLE feed_given (
	feed_id INTEGER NOT NULL PRIMARY KEY REFERENCES feed (id) ON DELETE CASCADE, -- which
	etag TEXT NOT NULL, -- digest of it
	modified INTEGER NOT NULL -- seconds since 1970, UTC, of its last change, removals included
) STRICT;

PRAGMA user_version = 7;
