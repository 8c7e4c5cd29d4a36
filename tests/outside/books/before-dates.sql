-- A book of version 12, as the program of that version wrote it (an invented scenario), before what
-- dates mean was corrected; made by the sqlite3 shell's .dump, with the two numbers that a dump
-- leaves out. before-dates-due.json is what that program said of it on 15 October 2026.
PRAGMA foreign_keys=OFF;
BEGIN TRANSACTION;
CREATE TABLE book (
	id INTEGER PRIMARY KEY CHECK (id = 1), -- always 1
	identity TEXT NOT NULL CHECK (length(identity) = 32), -- random hexadecimal digits; UIDs are drawn from it
	currency TEXT NOT NULL CHECK (length(currency) = 3) -- ISO 4217 code of every price
) STRICT;
INSERT INTO book VALUES(1,'6265666f72650000000000000000cafe','EUR');
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
, store INTEGER NOT NULL DEFAULT 0 CHECK (store IN (0, 1))) STRICT;
INSERT INTO vessel VALUES(1,'Brass Lantern','Port Marrin',1100,2012,0,1,1101,331,0);
INSERT INTO vessel VALUES(2,'Grey Plover','',900,2015,0,1,1101,331,0);
INSERT INTO vessel VALUES(3,'Sand Martin','',900,2015,0,1,1101,331,0);
INSERT INTO vessel VALUES(4,'Quay Wren','',800,2015,0,1,1101,331,0);
INSERT INTO vessel VALUES(5,'Cork Petrel','',900,2015,0,1,1101,331,0);
CREATE TABLE vessel_period (
	vessel_id INTEGER NOT NULL REFERENCES vessel (id) ON DELETE CASCADE, -- whose
	from_day INTEGER NOT NULL, -- yyyymmdd of its first day; 0 since ever
	use TEXT CHECK (use IN ('private', 'commercial')), -- what she is used for
	area TEXT, -- where she sails, in a rule sheet's words; '' not known
	persons INTEGER CHECK (persons >= 0), season_months INTEGER CHECK (season_months BETWEEN 0 AND 12), above_freezing INTEGER CHECK (above_freezing IN (-1, 0, 1)), dry_storage INTEGER CHECK (dry_storage IN (-1, 0, 1)), -- people aboard; 0 not known
	PRIMARY KEY (vessel_id, from_day)
) STRICT;
INSERT INTO vessel_period VALUES(1,0,'commercial','category-2',6,NULL,NULL,NULL);
INSERT INTO vessel_period VALUES(2,0,'private','',4,NULL,NULL,NULL);
INSERT INTO vessel_period VALUES(3,0,'commercial','',4,NULL,NULL,NULL);
INSERT INTO vessel_period VALUES(3,20271001,'private',NULL,NULL,NULL,NULL,NULL);
INSERT INTO vessel_period VALUES(4,0,'private','',4,NULL,NULL,NULL);
INSERT INTO vessel_period VALUES(5,0,'private','zone-2',4,NULL,NULL,NULL);
CREATE TABLE vessel_winter (
	vessel_id INTEGER NOT NULL REFERENCES vessel (id) ON DELETE CASCADE, -- whose
	year INTEGER NOT NULL, -- the year the winter is named by
	first_day INTEGER NOT NULL, -- yyyymmdd of the lay-up day
	last_day INTEGER NOT NULL CHECK (last_day >= first_day), -- yyyymmdd of the fitting-out day
	PRIMARY KEY (vessel_id, year)
) STRICT;
CREATE TABLE vessel_sheet (
	vessel_id INTEGER NOT NULL REFERENCES vessel (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0
	sheet TEXT NOT NULL CHECK (sheet <> ''), -- the sheet's name
	PRIMARY KEY (vessel_id, position)
) STRICT;
INSERT INTO vessel_sheet VALUES(1,0,'uk-small-commercial');
INSERT INTO vessel_sheet VALUES(2,0,'practice');
INSERT INTO vessel_sheet VALUES(3,0,'us-uninspected-passenger');
INSERT INTO vessel_sheet VALUES(3,1,'us-recreational');
INSERT INTO vessel_sheet VALUES(4,0,'us-recreational');
INSERT INTO vessel_sheet VALUES(5,0,'spain-recreational');
CREATE TABLE station (
	id INTEGER PRIMARY KEY, -- the book's number for it
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- its name
	base TEXT NOT NULL DEFAULT '', -- the base it serves; '' every base
	turn_round_days INTEGER NOT NULL DEFAULT 14 CHECK (turn_round_days >= 0), -- open days from hand-in to collect
	trip_minor INTEGER NOT NULL DEFAULT 0 CHECK (trip_minor >= 0) -- what one trip costs; 0 not known
, carriage_minor INTEGER NOT NULL DEFAULT 0 CHECK (carriage_minor >= 0), weekly_pieces INTEGER NOT NULL DEFAULT 0 CHECK (weekly_pieces >= 0), weekdays INTEGER NOT NULL DEFAULT 127 CHECK (weekdays BETWEEN 1 AND 127)) STRICT;
CREATE TABLE station_closure (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0
	first_day INTEGER NOT NULL, -- mmdd of the first closed day
	last_day INTEGER NOT NULL, -- mmdd of the last closed day; may be in the next year
	PRIMARY KEY (station_id, position)
) STRICT;
CREATE TABLE station_kind (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0
	kind TEXT NOT NULL CHECK (kind <> ''), -- id in the kinds catalogue
	PRIMARY KEY (station_id, position)
) STRICT;
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
, make TEXT NOT NULL DEFAULT '', capacity INTEGER NOT NULL DEFAULT 0 CHECK (capacity >= 0), rating TEXT NOT NULL DEFAULT '', landed_to TEXT NOT NULL DEFAULT '', landed_on INTEGER NOT NULL DEFAULT 0, hired_until INTEGER NOT NULL DEFAULT 0, because TEXT NOT NULL DEFAULT ''
	CHECK (because IN ('', 'condemned', 'lost', 'used', 'expired', 'sold', 'given-back')), stands_for TEXT NOT NULL DEFAULT '') STRICT;
INSERT INTO item VALUES(1,'LJ-1',1,'lifejacket-auto',NULL,'aboard','','','','',1,-1,20180615,0,0,0,0,0,0,0,0,0,0,0,0,0,0,'',0,'','',0,0,'','');
INSERT INTO item VALUES(2,'LJ-2',1,'lifejacket-auto',NULL,'aboard','','','','',1,-1,20180615,0,0,0,0,0,20250615,0,0,0,0,0,0,0,0,'',0,'','',0,0,'','');
INSERT INTO item VALUES(3,'LR-1',1,'liferaft-canister',NULL,'aboard','','','','',1,-1,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0,'',0,'SOLAS','',0,0,'','');
INSERT INTO item VALUES(4,'FL-1',1,'flare-red-hand',3,'aboard','','','','',1,-1,0,0,0,0,0,0,0,0,0,0,0,0,20290300,0,0,'',0,'','',0,0,'','');
INSERT INTO item VALUES(5,'LR-2',2,'liferaft-valise',NULL,'aboard','','','','',1,-1,20200110,0,0,0,0,0,0,0,0,0,0,0,0,0,0,'',0,'','',0,0,'','');
INSERT INTO item VALUES(6,'FE-1',2,'extinguisher-powder',NULL,'aboard','','','','',1,-1,20220301,0,0,0,0,0,0,0,0,0,0,0,0,0,0,'',0,'','',0,0,'','');
INSERT INTO item VALUES(7,'FL-2',3,'flare-red-hand',NULL,'aboard','','','','',1,-1,0,0,0,0,0,0,0,0,0,0,0,0,20250600,0,0,'',0,'','',0,0,'','');
INSERT INTO item VALUES(8,'FE-2',3,'extinguisher-disposable',NULL,'aboard','','','','',1,-1,20130000,0,0,0,0,0,0,0,0,0,0,0,0,0,0,'',0,'','',0,0,'','');
INSERT INTO item VALUES(9,'FE-3',4,'extinguisher-disposable',NULL,'aboard','','','','',1,-1,20130000,0,0,0,0,0,0,0,0,0,0,0,0,0,0,'',0,'','',0,0,'','');
INSERT INTO item VALUES(10,'LR-3',5,'liferaft-valise',NULL,'aboard','','','','',1,-1,20220110,0,0,0,0,0,0,0,0,0,0,0,0,0,0,'',0,'','',0,0,'','');
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
INSERT INTO record VALUES(1,1,'service',20260529,0,0,0,0,0,'','',-1);
INSERT INTO record VALUES(2,2,'service',20260529,0,0,0,0,0,'','',-1);
INSERT INTO record VALUES(3,5,'service',20260210,0,0,0,0,0,'','',-1);
INSERT INTO record VALUES(4,6,'service',20251001,0,0,20261001,0,0,'','',-1);
INSERT INTO record VALUES(5,6,'test',20260801,0,0,0,0,0,'','',-1);
INSERT INTO record VALUES(6,10,'service',20260301,0,0,0,0,0,'','',-1);
CREATE TABLE event (
	id INTEGER PRIMARY KEY, -- order of entry
	item_id INTEGER NOT NULL REFERENCES item (id) ON DELETE CASCADE, -- to what
	kind TEXT NOT NULL CHECK (kind IN ('fired', 'inflated', 'activated', 'used')), -- what happened
	on_day INTEGER NOT NULL CHECK (on_day > 0), -- yyyymmdd, the day it happened
	UNIQUE (item_id, on_day, kind)
) STRICT;
INSERT INTO event VALUES(1,5,'fired',20260301);
INSERT INTO event VALUES(2,5,'fired',20260801);
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
CREATE TABLE reminder (
	key TEXT NOT NULL PRIMARY KEY CHECK (key <> ''), -- what it is about
	uid TEXT NOT NULL UNIQUE CHECK (uid <> ''), -- its identity in calendars
	sequence INTEGER NOT NULL CHECK (sequence >= 0), -- how often it was visibly changed
	modified INTEGER NOT NULL, -- seconds since 1970, UTC, of the last visible change
	shape TEXT NOT NULL -- digest of what is visible; '' for one that no longer applies
) STRICT;
CREATE TABLE station_shut (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0
	first_day INTEGER NOT NULL CHECK (first_day > 0), -- yyyymmdd of the first closed day
	last_day INTEGER NOT NULL CHECK (last_day >= first_day), -- yyyymmdd of the last closed day
	PRIMARY KEY (station_id, position)
) STRICT;
CREATE TABLE station_pace (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0; the first that fits counts
	first_month INTEGER NOT NULL CHECK (first_month BETWEEN 1 AND 12), -- the first such month
	last_month INTEGER NOT NULL CHECK (last_month BETWEEN 1 AND 12), -- the last; may be in the next year
	turn_round_days INTEGER NOT NULL CHECK (turn_round_days >= 0), -- open days from hand-in to collect
	PRIMARY KEY (station_id, position)
) STRICT;
CREATE TABLE station_make (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	kind TEXT NOT NULL CHECK (kind <> ''), -- id in the kinds catalogue
	make TEXT NOT NULL CHECK (make <> ''), -- as on the label
	PRIMARY KEY (station_id, kind, make)
) STRICT;
CREATE TABLE station_price (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	kind TEXT NOT NULL CHECK (kind <> ''), -- id in the kinds catalogue
	task TEXT NOT NULL
		CHECK (task IN ('', 'service', 'inspect', 'weigh', 'test', 'renew', 'register')), -- for what; '' for all that has no price of its own
	price_minor INTEGER NOT NULL CHECK (price_minor >= 0), -- for one piece
	PRIMARY KEY (station_id, kind, task)
) STRICT;
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
CREATE TABLE journal (
	number INTEGER PRIMARY KEY CHECK (number > 0), -- 1, 2, 3 and so on, without gaps
	at_seconds INTEGER NOT NULL, -- when: seconds since 1970, UTC
	told INTEGER NOT NULL CHECK (told IN (0, 1)), -- 1: the day was told, and its start is meant
	who TEXT NOT NULL, -- who signed; '' not known
	act TEXT NOT NULL, -- the command's words
	undoes INTEGER REFERENCES journal (number), -- the entry it takes back; NULL for none
	changes BLOB NOT NULL -- every row before and after, as a changeset of SQLite's session extension
) STRICT;
INSERT INTO journal VALUES(1,1792022400,1,'mara','book new --identity 6265666f72650000000000000000cafe',NULL,X'5403010000626f6f6b0017000100000000000000010320383265313730613336366564393761646563303137613634323533646166623100000320363236353636366637323635303030303030303030303030303030306361666500');
INSERT INTO journal VALUES(2,1792022400,1,'mara','vessel ''Brass Lantern'' --use commercial --sheet uk-small-commercial --area category-2 --length 11 --persons 6 --built 2012 --base ''Port Marrin''',NULL,X'540a0100000000000000000076657373656c001200010000000000000001030d4272617373204c616e7465726e030b506f7274204d617272696e01000000000000044c0100000000000007dc01000000000000000001000000000000000101000000000000044d01000000000000014b0100000000000000005408010200000000000076657373656c5f706572696f64001200010000000000000001010000000000000000030a636f6d6d65726369616c030a63617465676f72792d32010000000000000006050505540301020076657373656c5f73686565740012000100000000000000010100000000000000000313756b2d736d616c6c2d636f6d6d65726369616c');
INSERT INTO journal VALUES(3,1792022400,1,'mara','enter lifejacket-auto --vessel ''Brass Lantern'' --tag LJ-1 --made 2018-06-15',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d00120001000000000000000103044c4a2d31010000000000000001030f6c6966656a61636b65742d6175746f05030661626f617264030003000300030001000000000000000101ffffffffffffffff01000000000133ee8701000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000003000100000000000000000300030001000000000000000001000000000000000003000300');
INSERT INTO journal VALUES(4,1792022400,1,'mara','record service LJ-1 --on 2026-05-29',NULL,X'540c0100000000000000000000007265636f72640012000100000000000000010100000000000000010307736572766963650100000000013526b10100000000000000000100000000000000000100000000000000000100000000000000000100000000000000000300030001ffffffffffffffff');
INSERT INTO journal VALUES(5,1792022400,1,'mara','enter lifejacket-auto --vessel ''Brass Lantern'' --tag LJ-2 --made 2018-06-15 --bought 2025-06-15',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d00120001000000000000000203044c4a2d32010000000000000001030f6c6966656a61636b65742d6175746f05030661626f617264030003000300030001000000000000000101ffffffffffffffff01000000000133ee8701000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000134fff701000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000003000100000000000000000300030001000000000000000001000000000000000003000300');
INSERT INTO journal VALUES(6,1792022400,1,'mara','record service LJ-2 --on 2026-05-29',NULL,X'540c0100000000000000000000007265636f72640012000100000000000000020100000000000000020307736572766963650100000000013526b10100000000000000000100000000000000000100000000000000000100000000000000000100000000000000000300030001ffffffffffffffff');
INSERT INTO journal VALUES(7,1792022400,1,'mara','enter liferaft-canister --vessel ''Brass Lantern'' --tag LR-1 --rating SOLAS',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d00120001000000000000000303044c522d3101000000000000000103116c696665726166742d63616e697374657205030661626f617264030003000300030001000000000000000101ffffffffffffffff01000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000003000100000000000000000305534f4c4153030001000000000000000001000000000000000003000300');
INSERT INTO journal VALUES(8,1792022400,1,'mara','enter flare-red-hand --vessel ''Brass Lantern'' --tag FL-1 --part-of LR-1 --expires 2029-03',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d0012000100000000000000040304464c2d31010000000000000001030e666c6172652d7265642d68616e64010000000000000003030661626f617264030003000300030001000000000000000101ffffffffffffffff010000000000000000010000000000000000010000000000000000010000000000000000010000000000000000010000000000000000010000000000000000010000000000000000010000000000000000010000000000000000010000000000000000010000000000000000010000000001359afc01000000000000000001000000000000000003000100000000000000000300030001000000000000000001000000000000000003000300');
INSERT INTO journal VALUES(9,1792022400,1,'mara','vessel ''Grey Plover'' --use private --sheet practice --length 9 --persons 4 --built 2015',NULL,X'540a0100000000000000000076657373656c001200010000000000000002030b4772657920506c6f76657203000100000000000003840100000000000007df01000000000000000001000000000000000101000000000000044d01000000000000014b0100000000000000005408010200000000000076657373656c5f706572696f640012000100000000000000020100000000000000000307707269766174650300010000000000000004050505540301020076657373656c5f736865657400120001000000000000000201000000000000000003087072616374696365');
INSERT INTO journal VALUES(10,1792022400,1,'mara','enter liferaft-valise --vessel ''Grey Plover'' --tag LR-2 --made 2020-01-10',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d00120001000000000000000503044c522d32010000000000000002030f6c696665726166742d76616c69736505030661626f617264030003000300030001000000000000000101ffffffffffffffff010000000001343aae01000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000003000100000000000000000300030001000000000000000001000000000000000003000300');
INSERT INTO journal VALUES(11,1792022400,1,'mara','record service LR-2 --on 2026-02-10',NULL,X'540c0100000000000000000000007265636f72640012000100000000000000030100000000000000050307736572766963650100000000013525720100000000000000000100000000000000000100000000000000000100000000000000000100000000000000000300030001ffffffffffffffff');
INSERT INTO journal VALUES(12,1792022400,1,'mara','record fired LR-2 --on 2026-03-01',NULL,X'5404010000006576656e74001200010000000000000001010000000000000005030566697265640100000000013525cd');
INSERT INTO journal VALUES(13,1792022400,1,'mara','record fired LR-2 --on 2026-08-01',NULL,X'5404010000006576656e74001200010000000000000002010000000000000005030566697265640100000000013527c1');
INSERT INTO journal VALUES(14,1792022400,1,'mara','enter extinguisher-powder --vessel ''Grey Plover'' --tag FE-1 --made 2022-03-01',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d001200010000000000000006030446452d310100000000000000020313657874696e677569736865722d706f7764657205030661626f617264030003000300030001000000000000000101ffffffffffffffff01000000000134898d01000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000003000100000000000000000300030001000000000000000001000000000000000003000300');
INSERT INTO journal VALUES(15,1792022400,1,'mara','record service FE-1 --on 2025-10-01 --next 2026-10-01',NULL,X'540c0100000000000000000000007265636f72640012000100000000000000040100000000000000060307736572766963650100000000013501790100000000000000000100000000000000000100000000013528890100000000000000000100000000000000000300030001ffffffffffffffff');
INSERT INTO journal VALUES(16,1792022400,1,'mara','record test FE-1 --on 2026-08-01',NULL,X'540c0100000000000000000000007265636f72640012000100000000000000050100000000000000060304746573740100000000013527c10100000000000000000100000000000000000100000000000000000100000000000000000100000000000000000300030001ffffffffffffffff');
INSERT INTO journal VALUES(17,1792022400,1,'mara','vessel ''Sand Martin'' --use commercial --sheet us-uninspected-passenger --sheet us-recreational --length 9 --persons 4 --built 2015',NULL,X'540a0100000000000000000076657373656c001200010000000000000003030b53616e64204d617274696e03000100000000000003840100000000000007df01000000000000000001000000000000000101000000000000044d01000000000000014b0100000000000000005408010200000000000076657373656c5f706572696f64001200010000000000000003010000000000000000030a636f6d6d65726369616c0300010000000000000004050505540301020076657373656c5f7368656574001200010000000000000003010000000000000001030f75732d72656372656174696f6e616c1200010000000000000003010000000000000000031875732d756e696e737065637465642d70617373656e676572');
INSERT INTO journal VALUES(18,1792022400,1,'mara','vessel ''Sand Martin'' --use private --from 2027-10-01',NULL,X'5408010200000000000076657373656c5f706572696f64001200010000000000000003010000000001354f990307707269766174650505050505');
INSERT INTO journal VALUES(19,1792022400,1,'mara','enter flare-red-hand --vessel ''Sand Martin'' --tag FL-2 --expires 2025-06',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d0012000100000000000000070304464c2d32010000000000000003030e666c6172652d7265642d68616e6405030661626f617264030003000300030001000000000000000101ffffffffffffffff01000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000134ffe801000000000000000001000000000000000003000100000000000000000300030001000000000000000001000000000000000003000300');
INSERT INTO journal VALUES(20,1792022400,1,'mara','enter extinguisher-disposable --vessel ''Sand Martin'' --tag FE-2 --made 2013',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d001200010000000000000008030446452d320100000000000000030317657874696e677569736865722d646973706f7361626c6505030661626f617264030003000300030001000000000000000101ffffffffffffffff0100000000013328d001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000003000100000000000000000300030001000000000000000001000000000000000003000300');
INSERT INTO journal VALUES(21,1792022400,1,'mara','vessel ''Quay Wren'' --use private --sheet us-recreational --length 8 --persons 4 --built 2015',NULL,X'540a0100000000000000000076657373656c001200010000000000000004030951756179205772656e03000100000000000003200100000000000007df01000000000000000001000000000000000101000000000000044d01000000000000014b0100000000000000005408010200000000000076657373656c5f706572696f640012000100000000000000040100000000000000000307707269766174650300010000000000000004050505540301020076657373656c5f7368656574001200010000000000000004010000000000000000030f75732d72656372656174696f6e616c');
INSERT INTO journal VALUES(22,1792022400,1,'mara','enter extinguisher-disposable --vessel ''Quay Wren'' --tag FE-3 --made 2013',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d001200010000000000000009030446452d330100000000000000040317657874696e677569736865722d646973706f7361626c6505030661626f617264030003000300030001000000000000000101ffffffffffffffff0100000000013328d001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000003000100000000000000000300030001000000000000000001000000000000000003000300');
INSERT INTO journal VALUES(23,1792022400,1,'mara','vessel ''Cork Petrel'' --use private --sheet spain-recreational --length 9 --persons 4 --built 2015 --area zone-2',NULL,X'540a0100000000000000000076657373656c001200010000000000000005030b436f726b2050657472656c03000100000000000003840100000000000007df01000000000000000001000000000000000101000000000000044d01000000000000014b0100000000000000005408010200000000000076657373656c5f706572696f6400120001000000000000000501000000000000000003077072697661746503067a6f6e652d32010000000000000004050505540301020076657373656c5f73686565740012000100000000000000050100000000000000000312737061696e2d72656372656174696f6e616c');
INSERT INTO journal VALUES(24,1792022400,1,'mara','enter liferaft-valise --vessel ''Cork Petrel'' --tag LR-3 --made 2022-01-10',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d00120001000000000000000a03044c522d33010000000000000005030f6c696665726166742d76616c69736505030661626f617264030003000300030001000000000000000101ffffffffffffffff0100000000013488ce01000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000003000100000000000000000300030001000000000000000001000000000000000003000300');
INSERT INTO journal VALUES(25,1792022400,1,'mara','record service LR-3 --on 2026-03-01',NULL,X'540c0100000000000000000000007265636f726400120001000000000000000601000000000000000a0307736572766963650100000000013525cd0100000000000000000100000000000000000100000000000000000100000000000000000100000000000000000300030001ffffffffffffffff');
CREATE TABLE journal_line (
	number INTEGER NOT NULL REFERENCES journal (number), -- its entry
	position INTEGER NOT NULL, -- order within the entry, from 0
	about TEXT NOT NULL, -- what it is about: 'item', 'vessel', 'station', 'book'
	name TEXT NOT NULL, -- its tag or name at that time
	kind TEXT NOT NULL, -- an item's kind; '' for others
	serial TEXT NOT NULL, -- an item's serial number; '' for others
	act TEXT NOT NULL CHECK (act IN ('added', 'changed', 'removed')), -- what was done
	field TEXT NOT NULL, -- what of it: 'place', 'record certificate'; '' the thing itself
	was TEXT NOT NULL, -- what stood there before; '' nothing
	became TEXT NOT NULL, -- what stands there since; '' nothing
	PRIMARY KEY (number, position)
) STRICT;
INSERT INTO journal_line VALUES(1,0,'book','','','','changed','identity','82e170a366ed97adec017a64253dafb1','6265666f72650000000000000000cafe');
INSERT INTO journal_line VALUES(2,0,'vessel','Brass Lantern','','','added','','','base Port Marrin, length cm 1100, built 2012');
INSERT INTO journal_line VALUES(2,1,'vessel','Brass Lantern','','','added','period','','use commercial, area category-2, persons 6');
INSERT INTO journal_line VALUES(2,2,'vessel','Brass Lantern','','','added','sheet','','sheet uk-small-commercial');
INSERT INTO journal_line VALUES(3,0,'item','LJ-1','lifejacket-auto','','added','','','vessel Brass Lantern, kind lifejacket-auto, made 2018-06-15');
INSERT INTO journal_line VALUES(4,0,'item','LJ-1','lifejacket-auto','','added','record','','task service, on 2026-05-29');
INSERT INTO journal_line VALUES(5,0,'item','LJ-2','lifejacket-auto','','added','','','vessel Brass Lantern, kind lifejacket-auto, made 2018-06-15, bought 2025-06-15');
INSERT INTO journal_line VALUES(6,0,'item','LJ-2','lifejacket-auto','','added','record','','task service, on 2026-05-29');
INSERT INTO journal_line VALUES(7,0,'item','LR-1','liferaft-canister','','added','','','vessel Brass Lantern, kind liferaft-canister, rating SOLAS');
INSERT INTO journal_line VALUES(8,0,'item','FL-1','flare-red-hand','','added','','','vessel Brass Lantern, kind flare-red-hand, parent LR-1, expires 2029-03');
INSERT INTO journal_line VALUES(9,0,'vessel','Grey Plover','','','added','','','length cm 900, built 2015');
INSERT INTO journal_line VALUES(9,1,'vessel','Grey Plover','','','added','period','','use private, persons 4');
INSERT INTO journal_line VALUES(9,2,'vessel','Grey Plover','','','added','sheet','','sheet practice');
INSERT INTO journal_line VALUES(10,0,'item','LR-2','liferaft-valise','','added','','','vessel Grey Plover, kind liferaft-valise, made 2020-01-10');
INSERT INTO journal_line VALUES(11,0,'item','LR-2','liferaft-valise','','added','record','','task service, on 2026-02-10');
INSERT INTO journal_line VALUES(12,0,'item','LR-2','liferaft-valise','','added','event','','kind fired, on 2026-03-01');
INSERT INTO journal_line VALUES(13,0,'item','LR-2','liferaft-valise','','added','event','','kind fired, on 2026-08-01');
INSERT INTO journal_line VALUES(14,0,'item','FE-1','extinguisher-powder','','added','','','vessel Grey Plover, kind extinguisher-powder, made 2022-03-01');
INSERT INTO journal_line VALUES(15,0,'item','FE-1','extinguisher-powder','','added','record','','task service, on 2025-10-01, next 2026-10-01');
INSERT INTO journal_line VALUES(16,0,'item','FE-1','extinguisher-powder','','added','record','','task test, on 2026-08-01');
INSERT INTO journal_line VALUES(17,0,'vessel','Sand Martin','','','added','','','length cm 900, built 2015');
INSERT INTO journal_line VALUES(17,1,'vessel','Sand Martin','','','added','period','','use commercial, persons 4');
INSERT INTO journal_line VALUES(17,2,'vessel','Sand Martin','','','added','sheet','','sheet us-recreational');
INSERT INTO journal_line VALUES(17,3,'vessel','Sand Martin','','','added','sheet','','sheet us-uninspected-passenger');
INSERT INTO journal_line VALUES(18,0,'vessel','Sand Martin','','','added','period','','from 2027-10-01, use private');
INSERT INTO journal_line VALUES(19,0,'item','FL-2','flare-red-hand','','added','','','vessel Sand Martin, kind flare-red-hand, expires 2025-06');
INSERT INTO journal_line VALUES(20,0,'item','FE-2','extinguisher-disposable','','added','','','vessel Sand Martin, kind extinguisher-disposable, made 2013');
INSERT INTO journal_line VALUES(21,0,'vessel','Quay Wren','','','added','','','length cm 800, built 2015');
INSERT INTO journal_line VALUES(21,1,'vessel','Quay Wren','','','added','period','','use private, persons 4');
INSERT INTO journal_line VALUES(21,2,'vessel','Quay Wren','','','added','sheet','','sheet us-recreational');
INSERT INTO journal_line VALUES(22,0,'item','FE-3','extinguisher-disposable','','added','','','vessel Quay Wren, kind extinguisher-disposable, made 2013');
INSERT INTO journal_line VALUES(23,0,'vessel','Cork Petrel','','','added','','','length cm 900, built 2015');
INSERT INTO journal_line VALUES(23,1,'vessel','Cork Petrel','','','added','period','','use private, area zone-2, persons 4');
INSERT INTO journal_line VALUES(23,2,'vessel','Cork Petrel','','','added','sheet','','sheet spain-recreational');
INSERT INTO journal_line VALUES(24,0,'item','LR-3','liferaft-valise','','added','','','vessel Cork Petrel, kind liferaft-valise, made 2022-01-10');
INSERT INTO journal_line VALUES(25,0,'item','LR-3','liferaft-valise','','added','record','','task service, on 2026-03-01');
CREATE TABLE reminder_choice (
	id INTEGER PRIMARY KEY CHECK (id = 1), -- always 1
	weekday INTEGER NOT NULL CHECK (weekday BETWEEN 0 AND 6), -- 0 Monday: the day for what is overdue and for what one does oneself
	routines INTEGER NOT NULL CHECK (routines IN (0, 1)), -- 1: the weekly and monthly looks, too
	singles INTEGER NOT NULL CHECK (singles IN (0, 1)) -- 1: one for each item and task besides the gathered ones
) STRICT;
INSERT INTO reminder_choice VALUES(1,5,0,0);
CREATE TABLE reminder_notice (
	kind TEXT NOT NULL PRIMARY KEY CHECK (kind <> ''), -- id in the kinds catalogue
	days INTEGER NOT NULL CHECK (days >= 0) -- so many days before
) STRICT;
CREATE TABLE reminder_planned (
	key TEXT NOT NULL PRIMARY KEY CHECK (key <> ''), -- the reminder's key
	on_day INTEGER NOT NULL CHECK (on_day > 0) -- yyyymmdd
, summary TEXT NOT NULL DEFAULT '') STRICT;
CREATE TABLE feed (
	id INTEGER PRIMARY KEY, -- its number
	secret TEXT NOT NULL UNIQUE CHECK (length(secret) >= 32), -- the part of the address that can't be guessed
	scope TEXT NOT NULL CHECK (scope IN ('fleet', 'vessel', 'base', 'station')), -- whose reminders
	name TEXT NOT NULL, -- of the vessel, base or station; '' for the fleet
	todos INTEGER NOT NULL CHECK (todos IN (0, 1)), -- 1: to-dos; 0: events
	revoked INTEGER NOT NULL DEFAULT 0 CHECK (revoked IN (0, 1)) -- 1: no longer answered
) STRICT;
CREATE TABLE feed_given (
	feed_id INTEGER NOT NULL PRIMARY KEY REFERENCES feed (id) ON DELETE CASCADE, -- which
	etag TEXT NOT NULL, -- digest of it
	modified INTEGER NOT NULL -- seconds since 1970, UTC, of its last change, removals included
) STRICT;
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
CREATE TABLE movement (
	id INTEGER PRIMARY KEY, -- order of entry
	item_id INTEGER NOT NULL REFERENCES item (id) ON DELETE CASCADE, -- of what
	what TEXT NOT NULL
		CHECK (what IN ('landed', 'returned', 'moved', 'withdrawn', 'reserved', 'aboard', 'stood-in', 'renewed')), -- what happened
	on_day INTEGER NOT NULL CHECK (on_day > 0), -- yyyymmdd, the day it happened
	was TEXT NOT NULL
		CHECK (was IN ('aboard', 'reserve', 'landed', 'stand-in', 'withdrawn')), -- how it stood before
	vessel TEXT NOT NULL, -- whose it is after it
	was_vessel TEXT NOT NULL, -- whose it was before
	station TEXT NOT NULL, -- landed to, returned from; '' for none
	stands_for TEXT NOT NULL, -- stood in: the tag of the one in whose place; '' for none
	certificate TEXT NOT NULL, -- the paper that came with it, where no record has it; '' none
	serial TEXT NOT NULL, -- the serial number it had; '' not known
	because TEXT NOT NULL
		CHECK (because IN ('', 'condemned', 'lost', 'used', 'expired', 'sold', 'given-back')), -- withdrawn: why
	result TEXT NOT NULL
		CHECK (result IN ('', 'passed', 'passed-shorter', 'condemned', 'not-done')), -- back from a station: what it found; '' not said
	price_minor INTEGER NOT NULL CHECK (price_minor >= -1), -- what it cost beside any record; -1 not known
	note TEXT NOT NULL -- anything else
) STRICT;
CREATE TABLE station_price_step (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	kind TEXT NOT NULL CHECK (kind <> ''), -- id in the kinds catalogue
	task TEXT NOT NULL
		CHECK (task IN ('', 'service', 'inspect', 'weigh', 'test', 'renew', 'register')), -- for what; '' for all that has no price of its own
	from_years INTEGER NOT NULL CHECK (from_years BETWEEN 1 AND 100), -- the age in whole years from which it holds
	price_minor INTEGER NOT NULL CHECK (price_minor >= 0), -- for one piece
	PRIMARY KEY (station_id, kind, task, from_years)
) STRICT;
CREATE TABLE paper_bytes (
	sha256 TEXT NOT NULL PRIMARY KEY CHECK (length(sha256) = 64), -- SHA-256 of the bytes in hexadecimal digits
	bytes BLOB NOT NULL -- a file, bit for bit; then its papers have none of their own
) STRICT;
CREATE INDEX item_of_vessel ON item (vessel_id);
CREATE INDEX item_of_parent ON item (parent_id);
CREATE INDEX paper_of_record ON paper (record_id);
CREATE INDEX journal_of_undoes ON journal (undoes);
CREATE INDEX journal_line_of_name ON journal_line (name);
CREATE INDEX journal_line_of_serial ON journal_line (serial) WHERE serial <> '';
CREATE TRIGGER journal_at_the_end BEFORE INSERT ON journal
WHEN NEW.number <> (SELECT COALESCE(MAX(number), 0) + 1 FROM journal)
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to, at its end');
END;
CREATE TRIGGER journal_no_change BEFORE UPDATE ON journal
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to; no entry can be changed');
END;
CREATE TRIGGER journal_no_removal BEFORE DELETE ON journal
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to; no entry can be taken out');
END;
CREATE TRIGGER journal_line_at_the_end BEFORE INSERT ON journal_line
WHEN NEW.number <> (SELECT COALESCE(MAX(number), 0) FROM journal)
	OR NEW.position <> (SELECT COALESCE(MAX(position) + 1, 0) FROM journal_line WHERE number = NEW.number)
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to, at its end');
END;
CREATE TRIGGER journal_line_no_change BEFORE UPDATE ON journal_line
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to; no line can be changed');
END;
CREATE TRIGGER journal_line_no_removal BEFORE DELETE ON journal_line
BEGIN
	SELECT RAISE(ABORT, 'the journal is only ever added to; no line can be taken out');
END;
CREATE INDEX movement_of_item ON movement (item_id);
CREATE TRIGGER paper_bytes_no_removal BEFORE DELETE ON paper_bytes
BEGIN
	SELECT RAISE(ABORT, 'the journal may give a paper back; its bytes stay');
END;
COMMIT;
PRAGMA application_id = 1650682740;
PRAGMA user_version = 12;
