-- A book of version 1, as the program of that version wrote it (an invented scenario);
-- made by the sqlite3 shell's .dump, with the two numbers that a dump leaves out.
PRAGMA foreign_keys=OFF;
BEGIN TRANSACTION;
CREATE TABLE book (
	id INTEGER PRIMARY KEY CHECK (id = 1), -- always 1
	identity TEXT NOT NULL CHECK (length(identity) = 32), -- random hexadecimal digits; UIDs are drawn from it
	currency TEXT NOT NULL CHECK (length(currency) = 3) -- ISO 4217 code of every price
) STRICT;
INSERT INTO book VALUES(1,'0123456789abcdef0123456789abcdef','EUR');
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
INSERT INTO vessel VALUES(1,'Brass Lantern','Port Marrin',1120,1998,7,1,1101,331);
INSERT INTO vessel VALUES(2,'Grey Plover','Cape Lorne',0,0,0,0,1101,331);
CREATE TABLE vessel_period (
	vessel_id INTEGER NOT NULL REFERENCES vessel (id) ON DELETE CASCADE, -- whose
	from_day INTEGER NOT NULL, -- yyyymmdd of its first day; 0 since ever
	use TEXT CHECK (use IN ('private', 'commercial')), -- what she is used for
	area TEXT, -- where she sails, in a rule sheet's words; '' not known
	persons INTEGER CHECK (persons >= 0), -- people aboard; 0 not known
	PRIMARY KEY (vessel_id, from_day)
) STRICT;
INSERT INTO vessel_period VALUES(1,0,'private','coastal',6);
INSERT INTO vessel_period VALUES(1,20270601,'commercial',NULL,NULL);
INSERT INTO vessel_period VALUES(2,0,'commercial','',10);
CREATE TABLE vessel_winter (
	vessel_id INTEGER NOT NULL REFERENCES vessel (id) ON DELETE CASCADE, -- whose
	year INTEGER NOT NULL, -- the year the winter is named by
	first_day INTEGER NOT NULL, -- yyyymmdd of the lay-up day
	last_day INTEGER NOT NULL CHECK (last_day >= first_day), -- yyyymmdd of the fitting-out day
	PRIMARY KEY (vessel_id, year)
) STRICT;
INSERT INTO vessel_winter VALUES(1,2026,20261010,20270415);
CREATE TABLE vessel_sheet (
	vessel_id INTEGER NOT NULL REFERENCES vessel (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0
	sheet TEXT NOT NULL CHECK (sheet <> ''), -- the sheet's name
	PRIMARY KEY (vessel_id, position)
) STRICT;
INSERT INTO vessel_sheet VALUES(1,0,'practice');
INSERT INTO vessel_sheet VALUES(2,0,'practice');
CREATE TABLE station (
	id INTEGER PRIMARY KEY, -- the book's number for it
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- its name
	base TEXT NOT NULL DEFAULT '', -- the base it serves; '' every base
	turn_round_days INTEGER NOT NULL DEFAULT 14 CHECK (turn_round_days >= 0), -- open days from hand-in to collect
	trip_minor INTEGER NOT NULL DEFAULT 0 CHECK (trip_minor >= 0) -- what one trip costs; 0 not known
) STRICT;
INSERT INTO station VALUES(1,'Marrin Raft Loft','Port Marrin',35,4500);
INSERT INTO station VALUES(2,'Lorne Jackets','',10,0);
CREATE TABLE station_closure (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0
	first_day INTEGER NOT NULL, -- mmdd of the first closed day
	last_day INTEGER NOT NULL, -- mmdd of the last closed day; may be in the next year
	PRIMARY KEY (station_id, position)
) STRICT;
INSERT INTO station_closure VALUES(1,0,1220,131);
CREATE TABLE station_kind (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	position INTEGER NOT NULL, -- order in which they were named, from 0
	kind TEXT NOT NULL CHECK (kind <> ''), -- id in the kinds catalogue
	PRIMARY KEY (station_id, position)
) STRICT;
INSERT INTO station_kind VALUES(1,0,'liferaft-canister');
INSERT INTO station_kind VALUES(1,1,'liferaft-valise');
INSERT INTO station_kind VALUES(1,2,'raft-contents');
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
INSERT INTO item VALUES(1,'LR-1',1,'liferaft-canister',NULL,'aboard','','R4471','coach roof','under the "old" strap, 6 persons',1,90000,20210400,0,0,0,0,0,0,0,0,20210520,0,0,0,0,0);
INSERT INTO item VALUES(2,'HR-1',1,'hydrostatic-release',1,'aboard','','','','',1,-1,0,0,0,0,0,0,0,0,0,20250601,0,0,20270500,0,0);
INSERT INTO item VALUES(3,'LJ-1',1,'lifejacket-auto',NULL,'aboard','skipper''s own','J1','','',1,-1,20190000,0,0,0,0,0,0,0,0,0,0,0,0,0,0);
INSERT INTO item VALUES(4,'CY-1',1,'gas-cylinder',3,'aboard','','','','',1,-1,20190200,0,0,0,0,0,0,0,0,0,0,0,0,0,0);
INSERT INTO item VALUES(5,'FL-1',1,'flare-red-hand',NULL,'aboard','','','','',4,-1,0,0,0,0,0,0,0,0,0,0,0,0,20261200,0,0);
INSERT INTO item VALUES(6,'EP-1',2,'epirb',NULL,'aboard','','E77','','',1,-1,20180331,0,0,0,0,0,20180500,0,1,0,0,0,0,0,0);
INSERT INTO item VALUES(7,'FX-1',2,'extinguisher-powder',NULL,'aboard','','','','',1,-1,20200000,0,0,0,0,0,0,0,0,0,0,0,0,0,0);
INSERT INTO item VALUES(8,'LJ-2',2,'lifejacket-auto',NULL,'aboard','','J2','','',1,-1,20160700,0,0,0,0,0,0,0,0,0,0,0,0,0,0);
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
INSERT INTO record VALUES(1,1,'service',20240520,0,0,20270500,0,0,'Marrin Raft Loft','MR 118',61250);
INSERT INTO record VALUES(2,7,'inspect',20260300,0,0,0,0,0,'','',-1);
INSERT INTO record VALUES(3,3,'service',20251114,0,0,0,0,0,'Lorne Jackets','',2900);
INSERT INTO record VALUES(4,8,'service',20251114,0,0,0,0,0,'Lorne Jackets','',2900);
INSERT INTO record VALUES(5,6,'test',20260901,0,0,0,0,0,'','',-1);
INSERT INTO record VALUES(6,2,'renew',20250601,0,0,0,0,0,'','',-1);
CREATE TABLE event (
	id INTEGER PRIMARY KEY, -- order of entry
	item_id INTEGER NOT NULL REFERENCES item (id) ON DELETE CASCADE, -- to what
	kind TEXT NOT NULL CHECK (kind IN ('fired', 'inflated', 'activated', 'used')), -- what happened
	on_day INTEGER NOT NULL CHECK (on_day > 0), -- yyyymmdd, the day it happened
	UNIQUE (item_id, on_day, kind)
) STRICT;
INSERT INTO event VALUES(1,8,'inflated',20260809);
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
INSERT INTO extension VALUES(1,1,'service',20270820,'PA 9/27',0);
CREATE TABLE reminder (
	key TEXT NOT NULL PRIMARY KEY CHECK (key <> ''), -- what it is about
	uid TEXT NOT NULL UNIQUE CHECK (uid <> ''), -- its identity in calendars
	sequence INTEGER NOT NULL CHECK (sequence >= 0), -- how often it was visibly changed
	modified INTEGER NOT NULL, -- seconds since 1970, UTC, of the last visible change
	shape TEXT NOT NULL -- digest of what is visible; '' for one that no longer applies
) STRICT;
INSERT INTO reminder VALUES('hand-in|Brass Lantern|2026|Lorne Jackets|1','4639bb0a-4b26-82c8-951b-901ecf1ca5a8',0,1795564800,'c7ceb93bbe0055388ccb75733a8811ef');
INSERT INTO reminder VALUES('hand-in|Brass Lantern|2026|Marrin Raft Loft|1','0ad6ddb8-337f-8a0b-a3c6-4ec32253c7f8',0,1795564800,'5c7a7de893b396a77e813c9db5e4508d');
INSERT INTO reminder VALUES('now|EP-1|inspect','2f554bc6-9e17-8650-8ee8-23de1920867b',0,1795564800,'adf470a26c656066498802b1b306b0d1');
INSERT INTO reminder VALUES('now|EP-1|register','c1a7e3fd-d6c5-8db1-b8cd-6f0eca9acd76',0,1795564800,'07923f18545b8d87190bb9df5a1de4a6');
INSERT INTO reminder VALUES('now|EP-1|renew','d3d29ae4-7c2b-8b5f-ba1b-df5e81588c8f',0,1795564800,'73f9e65c4573562d34a4d5b54d184b12');
INSERT INTO reminder VALUES('now|FX-1|service','9ba65085-d286-8fd5-b94d-3e0314dff3d5',0,1795564800,'87bdf8fbf7e685bc5486913722ed5a27');
INSERT INTO reminder VALUES('now|FX-1|test','b5502b33-22fd-88df-99fa-a8cf60099a17',0,1795564800,'65ae032e3b96794595ff120109cb00a6');
INSERT INTO reminder VALUES('now|LJ-2|inspect','833362e1-f4f1-8379-8968-c8540a035ea1',0,1795564800,'493ffb98892d6851d78e84ac1bccdc41');
INSERT INTO reminder VALUES('now|LJ-2|renew','ce9f392a-4189-8f04-8129-6320f7a9a927',0,1795564800,'422a6c5203f4f9a5a3689fb54a4140d8');
INSERT INTO reminder VALUES('now|LJ-2|service','254797a1-73fe-8377-9540-c9a9340f097f',0,1795564800,'cc036332759aefb211bfa821ef313eab');
INSERT INTO reminder VALUES('collect|Brass Lantern|2026|Lorne Jackets|1','733782c7-2ed7-8248-9a47-fd8b4fa1658b',0,1795564800,'5d23c5f7c1831af037c48b33407b9e31');
INSERT INTO reminder VALUES('collect|Brass Lantern|2026|Marrin Raft Loft|1','84b1477a-f3fc-869a-aee0-52165aacf79f',0,1795564800,'f19c57281d9109956f7d6acd91f0ab09');
INSERT INTO reminder VALUES('buy|Brass Lantern|2026','1be09d11-bb56-83c0-9289-757cd722fb5d',0,1795564800,'356e6c1db92b3e97543a59b4b3eedaed');
INSERT INTO reminder VALUES('self|Brass Lantern|2026','64a5e708-43de-8e1c-b8bf-e29bf9a58028',0,1795564800,'be7fda6ad030c50b1230a1019d9e5794');
CREATE INDEX item_of_vessel ON item (vessel_id);
CREATE INDEX item_of_parent ON item (parent_id);
COMMIT;
PRAGMA application_id = 1650682740;
PRAGMA user_version = 1;
