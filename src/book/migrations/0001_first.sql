-- The whole schema of a first book. Every migration is one file, run once, in the order of
-- its number, in one transaction that also sets user_version.
--
-- Days are integers yyyymmdd, so that they can be read in any SQLite browser and sort by
-- themselves; 0 is no day. Stamps are days whose unknown parts are 00: 20210000 is the year
-- 2021, 20210400 its April. Days of the year are mmdd. Nothing is ever computed from dates in
-- SQL. Money is in minor units of the book's currency. Words that come from a fixed list are
-- stored as words, so that a reordered list in the program changes no book.

PRAGMA application_id = 1650682740; -- "bckt"

-- One row: what is true of the book as a whole.
CREATE TABLE book (
	id INTEGER PRIMARY KEY CHECK (id = 1), -- always 1
	identity TEXT NOT NULL CHECK (length(identity) = 32), -- random hexadecimal digits; UIDs are drawn from it
	currency TEXT NOT NULL CHECK (length(currency) = 3) -- ISO 4217 code of every price
) STRICT;

-- Boats.
CREATE TABLE vessel (
	id INTEGER PRIMARY KEY, -- the book's number for her
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- her name
	base TEXT NOT NULL DEFAULT '', -- where she lies; '' not known
	length_cm INTEGER NOT NULL DEFAULT 0 CHECK (length_cm >= 0), -- length over all in centimetres; 0 not known
	built INTEGER NOT NULL DEFAULT 0 CHECK (built >= 0), -- year she was built; 0 not known
	margin_days INTEGER NOT NULL DEFAULT 0 CHECK (margin_days >= 0), -- gear is back this long before fitting-out
	laid_up INTEGER NOT NULL DEFAULT 1 CHECK (laid_up IN (0, 1)), -- 0: in use all year round
	lay_up_first INTEGER NOT NULL DEFAULT 1101, -- mmdd of the lay-up day, every year
	lay_up_last INTEGER NOT NULL DEFAULT 331 -- mmdd of the fitting-out day; may be in the next year
) STRICT;

-- What holds for a vessel from a day on. Every vessel has one from day 0 with all three known;
-- in a later one, NULL means as before.
CREATE TABLE vessel_period (
	vessel_id INTEGER NOT NULL REFERENCES vessel (id) ON DELETE CASCADE, -- whose
	from_day INTEGER NOT NULL, -- yyyymmdd of its first day; 0 since ever
	use TEXT CHECK (use IN ('private', 'commercial')), -- what she is used for
	area TEXT, -- where she sails, in a rule sheet's words; '' not known
	persons INTEGER CHECK (persons >= 0), -- people aboard; 0 not known
	PRIMARY KEY (vessel_id, from_day)
) STRICT;

-- Single winters whose days differ from the yearly ones.
CREATE TABLE vessel_winter (
	vessel_id INTEGER NOT NULL REFERENCES vessel (id) ON DELETE CASCADE, -- whose
	year INTEGER NOT NULL, -- the year the winter is named by
	first_day INTEGER NOT NULL, -- yyyymmdd of the lay-up day
	last_day INTEGER NOT NULL CHECK (last_day >= first_day), -- yyyymmdd of the fitting-out day
	PRIMARY KEY (vessel_id, year)
) STRICT;

-- The rule sheets a vessel follows.
CREATE TABLE vessel_sheet (
	vessel_id INTEGER NOT NULL REFERENCES vessel (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0
	sheet TEXT NOT NULL CHECK (sheet <> ''), -- the sheet's name
	PRIMARY KEY (vessel_id, position)
) STRICT;

-- Where gear is handed in.
CREATE TABLE station (
	id INTEGER PRIMARY KEY, -- the book's number for it
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- its name
	base TEXT NOT NULL DEFAULT '', -- the base it serves; '' every base
	turn_round_days INTEGER NOT NULL DEFAULT 14 CHECK (turn_round_days >= 0), -- open days from hand-in to collect
	trip_minor INTEGER NOT NULL DEFAULT 0 CHECK (trip_minor >= 0) -- what one trip costs; 0 not known
) STRICT;

-- Weeks in which a station is shut, every year.
CREATE TABLE station_closure (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0
	first_day INTEGER NOT NULL, -- mmdd of the first closed day
	last_day INTEGER NOT NULL, -- mmdd of the last closed day; may be in the next year
	PRIMARY KEY (station_id, position)
) STRICT;

-- The kinds a station may service; none listed: every kind.
CREATE TABLE station_kind (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0
	kind TEXT NOT NULL CHECK (kind <> ''), -- id in the kinds catalogue
	PRIMARY KEY (station_id, position)
) STRICT;

-- Gear. Each stamp has three columns: the day, how the label words it (0 plain, 1 "before",
-- 2 "use by"), and whether it is an estimate.
CREATE TABLE item (
	id INTEGER PRIMARY KEY, -- the book's number for it
	tag TEXT NOT NULL UNIQUE CHECK (tag <> ''), -- its short mark: LR-1
	vessel_id INTEGER NOT NULL REFERENCES vessel (id), -- the boat it belongs to
	kind TEXT NOT NULL CHECK (kind <> ''), -- id in the kinds catalogue
	parent_id INTEGER REFERENCES item (id), -- the item it is inside or fixed to; NULL for none
	state TEXT NOT NULL DEFAULT 'aboard'
		CHECK (state IN ('aboard', 'reserve', 'landed', 'stand-in', 'withdrawn')), -- where it stands
	description TEXT NOT NULL DEFAULT '', -- what the owner calls it
	serial TEXT NOT NULL DEFAULT '', -- the maker's number
	place TEXT NOT NULL DEFAULT '', -- where aboard
	notes TEXT NOT NULL DEFAULT '', -- anything else
	quantity INTEGER NOT NULL DEFAULT 1 CHECK (quantity >= 1), -- how many identical ones
	price_minor INTEGER NOT NULL DEFAULT -1 CHECK (price_minor >= -1), -- what a new one costs; -1 not known
	made INTEGER NOT NULL DEFAULT 0, -- day of manufacture
	made_wording INTEGER NOT NULL DEFAULT 0 CHECK (made_wording IN (0, 1, 2)), -- how it is worded
	made_estimated INTEGER NOT NULL DEFAULT 0 CHECK (made_estimated IN (0, 1)), -- 1: an estimate
	packed INTEGER NOT NULL DEFAULT 0, -- day it was packed
	packed_wording INTEGER NOT NULL DEFAULT 0 CHECK (packed_wording IN (0, 1, 2)), -- how it is worded
	packed_estimated INTEGER NOT NULL DEFAULT 0 CHECK (packed_estimated IN (0, 1)), -- 1: an estimate
	bought INTEGER NOT NULL DEFAULT 0, -- day it was bought
	bought_wording INTEGER NOT NULL DEFAULT 0 CHECK (bought_wording IN (0, 1, 2)), -- how it is worded
	bought_estimated INTEGER NOT NULL DEFAULT 0 CHECK (bought_estimated IN (0, 1)), -- 1: an estimate
	fitted INTEGER NOT NULL DEFAULT 0, -- day it entered service
	fitted_wording INTEGER NOT NULL DEFAULT 0 CHECK (fitted_wording IN (0, 1, 2)), -- how it is worded
	fitted_estimated INTEGER NOT NULL DEFAULT 0 CHECK (fitted_estimated IN (0, 1)), -- 1: an estimate
	expires INTEGER NOT NULL DEFAULT 0, -- day of expiry as marked
	expires_wording INTEGER NOT NULL DEFAULT 0 CHECK (expires_wording IN (0, 1, 2)), -- how it is worded
	expires_estimated INTEGER NOT NULL DEFAULT 0 CHECK (expires_estimated IN (0, 1)) -- 1: an estimate
) STRICT;

CREATE INDEX item_of_vessel ON item (vessel_id);
CREATE INDEX item_of_parent ON item (parent_id);

-- Tasks done. Those before an item's last renewal are kept, but no longer count.
CREATE TABLE record (
	id INTEGER PRIMARY KEY, -- order of entry
	item_id INTEGER NOT NULL REFERENCES item (id) ON DELETE CASCADE, -- to what
	task TEXT NOT NULL
		CHECK (task IN ('service', 'inspect', 'weigh', 'test', 'renew', 'register')), -- what was done
	on_day INTEGER NOT NULL CHECK (on_day > 0), -- stamp of the day it was done
	on_wording INTEGER NOT NULL CHECK (on_wording IN (0, 1, 2)), -- how it is worded
	on_estimated INTEGER NOT NULL CHECK (on_estimated IN (0, 1)), -- 1: an estimate
	next_day INTEGER NOT NULL, -- stamp of the next date its paper states; 0 none
	next_wording INTEGER NOT NULL CHECK (next_wording IN (0, 1, 2)), -- how it is worded
	next_estimated INTEGER NOT NULL CHECK (next_estimated IN (0, 1)), -- 1: an estimate
	station TEXT NOT NULL, -- who did it; '' not known
	certificate TEXT NOT NULL, -- the paper's number; '' none
	price_minor INTEGER NOT NULL CHECK (price_minor >= -1), -- what it cost; -1 not known
	UNIQUE (item_id, on_day, task, certificate, next_day, next_wording)
) STRICT;

-- What happened to an item and put it out.
CREATE TABLE event (
	id INTEGER PRIMARY KEY, -- order of entry
	item_id INTEGER NOT NULL REFERENCES item (id) ON DELETE CASCADE, -- to what
	kind TEXT NOT NULL CHECK (kind IN ('fired', 'inflated', 'activated', 'used')), -- what happened
	on_day INTEGER NOT NULL CHECK (on_day > 0), -- yyyymmdd, the day it happened
	UNIQUE (item_id, on_day, kind)
) STRICT;

-- More time, given by an authority.
CREATE TABLE extension (
	id INTEGER PRIMARY KEY, -- order of entry
	item_id INTEGER NOT NULL REFERENCES item (id) ON DELETE CASCADE, -- for what
	task TEXT NOT NULL
		CHECK (task IN ('service', 'inspect', 'weigh', 'test', 'renew', 'register')), -- for which task
	until_day INTEGER NOT NULL CHECK (until_day > 0), -- yyyymmdd, its last day
	paper TEXT NOT NULL, -- the paper's number
	ended INTEGER NOT NULL DEFAULT 0 CHECK (ended IN (0, 1)), -- 1: the thing it was given for has been renewed
	UNIQUE (item_id, until_day, task, paper)
) STRICT;

-- Reminders that were given out, so that each keeps its identity. None is ever deleted.
CREATE TABLE reminder (
	key TEXT NOT NULL PRIMARY KEY CHECK (key <> ''), -- what it is about
	uid TEXT NOT NULL UNIQUE CHECK (uid <> ''), -- its identity in calendars
	sequence INTEGER NOT NULL CHECK (sequence >= 0), -- how often it was visibly changed
	modified INTEGER NOT NULL, -- seconds since 1970, UTC, of the last visible change
	shape TEXT NOT NULL -- digest of what is visible; '' for one that no longer applies
) STRICT;

PRAGMA user_version = 1;
