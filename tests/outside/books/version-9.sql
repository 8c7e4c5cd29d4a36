-- A book of version 9, as the program of that version wrote it (an invented scenario);
-- made by the sqlite3 shell's .dump, with the two numbers that a dump leaves out. Entry 11 of
-- its journal put a paper in, entry 12 another, which entry 13 took out.
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
, store INTEGER NOT NULL DEFAULT 0 CHECK (store IN (0, 1))) STRICT;
INSERT INTO vessel VALUES(1,'Brass Lantern','Port Marrin',1120,1998,7,1,1101,331,0);
CREATE TABLE vessel_period (
	vessel_id INTEGER NOT NULL REFERENCES vessel (id) ON DELETE CASCADE, -- whose
	from_day INTEGER NOT NULL, -- yyyymmdd of its first day; 0 since ever
	use TEXT CHECK (use IN ('private', 'commercial')), -- what she is used for
	area TEXT, -- where she sails, in a rule sheet's words; '' not known
	persons INTEGER CHECK (persons >= 0), season_months INTEGER CHECK (season_months BETWEEN 0 AND 12), above_freezing INTEGER CHECK (above_freezing IN (-1, 0, 1)), dry_storage INTEGER CHECK (dry_storage IN (-1, 0, 1)), -- people aboard; 0 not known
	PRIMARY KEY (vessel_id, from_day)
) STRICT;
INSERT INTO vessel_period VALUES(1,0,'private','coastal',6,NULL,NULL,NULL);
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
INSERT INTO vessel_sheet VALUES(1,0,'practice');
CREATE TABLE station (
	id INTEGER PRIMARY KEY, -- the book's number for it
	name TEXT NOT NULL UNIQUE CHECK (name <> ''), -- its name
	base TEXT NOT NULL DEFAULT '', -- the base it serves; '' every base
	turn_round_days INTEGER NOT NULL DEFAULT 14 CHECK (turn_round_days >= 0), -- open days from hand-in to collect
	trip_minor INTEGER NOT NULL DEFAULT 0 CHECK (trip_minor >= 0) -- what one trip costs; 0 not known
, carriage_minor INTEGER NOT NULL DEFAULT 0 CHECK (carriage_minor >= 0), weekly_pieces INTEGER NOT NULL DEFAULT 0 CHECK (weekly_pieces >= 0), weekdays INTEGER NOT NULL DEFAULT 127 CHECK (weekdays BETWEEN 1 AND 127)) STRICT;
INSERT INTO station VALUES(1,'Marrin Raft Loft','Port Marrin',21,4500,500,0,127);
INSERT INTO station VALUES(2,'Lorne Jackets','',10,0,0,0,127);
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
INSERT INTO station_kind VALUES(1,1,'raft-contents');
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
INSERT INTO item VALUES(1,'LR-1',1,'liferaft-canister',NULL,'aboard','','','','',1,150000,20160400,0,0,0,0,0,0,0,0,0,0,0,0,0,0,'Orrin',0,'','',0,0,'','');
INSERT INTO item VALUES(2,'LJ-1',1,'lifejacket-auto',NULL,'aboard','','','','',1,-1,20190000,0,0,0,0,0,0,0,0,0,0,0,0,0,0,'',0,'','',0,0,'','');
INSERT INTO item VALUES(3,'FL-1',1,'flare-red-hand',NULL,'aboard','','','','',4,1750,0,0,0,0,0,0,0,0,0,0,0,0,20261200,0,0,'',0,'','',0,0,'','');
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
INSERT INTO record VALUES(1,1,'service',20240520,0,0,0,0,0,'Marrin Raft Loft','MR 118',45000);
INSERT INTO record VALUES(2,2,'service',20251114,0,0,0,0,0,'Lorne Jackets','',-1);
CREATE TABLE event (
	id INTEGER PRIMARY KEY, -- order of entry
	item_id INTEGER NOT NULL REFERENCES item (id) ON DELETE CASCADE, -- to what
	kind TEXT NOT NULL CHECK (kind IN ('fired', 'inflated', 'activated', 'used')), -- what happened
	on_day INTEGER NOT NULL CHECK (on_day > 0), -- yyyymmdd, the day it happened
	UNIQUE (item_id, on_day, kind)
) STRICT;
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
INSERT INTO station_make VALUES(1,'liferaft-canister','Orrin');
CREATE TABLE station_price (
	station_id INTEGER NOT NULL REFERENCES station (id) ON DELETE CASCADE, -- whose
	kind TEXT NOT NULL CHECK (kind <> ''), -- id in the kinds catalogue
	task TEXT NOT NULL
		CHECK (task IN ('', 'service', 'inspect', 'weigh', 'test', 'renew', 'register')), -- for what; '' for all that has no price of its own
	price_minor INTEGER NOT NULL CHECK (price_minor >= 0), -- for one piece
	PRIMARY KEY (station_id, kind, task)
) STRICT;
INSERT INTO station_price VALUES(1,'liferaft-canister','',45000);
INSERT INTO station_price VALUES(1,'liferaft-canister','test',6000);
INSERT INTO station_price VALUES(2,'lifejacket-auto','service',3100);
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
INSERT INTO paper VALUES(1,1,1,'certificate.pdf','application/pdf','',20261125,265,'78b4129cb074a123b61d6e878b89121682f823faecc6b76efdd90761be0976a5',X'255044462d312e340a000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f202122232425262728292a2b2c2d2e2f303132333435363738393a3b3c3d3e3f404142434445464748494a4b4c4d4e4f505152535455565758595a5b5c5d5e5f606162636465666768696a6b6c6d6e6f707172737475767778797a7b7c7d7e7f808182838485868788898a8b8c8d8e8f909192939495969798999a9b9c9d9e9fa0a1a2a3a4a5a6a7a8a9aaabacadaeafb0b1b2b3b4b5b6b7b8b9babbbcbdbebfc0c1c2c3c4c5c6c7c8c9cacbcccdcecfd0d1d2d3d4d5d6d7d8d9dadbdcdddedfe0e1e2e3e4e5e6e7e8e9eaebecedeeeff0f1f2f3f4f5f6f7f8f9fafbfcfdfeff');
CREATE TABLE journal (
	number INTEGER PRIMARY KEY CHECK (number > 0), -- 1, 2, 3 and so on, without gaps
	at_seconds INTEGER NOT NULL, -- when: seconds since 1970, UTC
	told INTEGER NOT NULL CHECK (told IN (0, 1)), -- 1: the day was told, and its start is meant
	who TEXT NOT NULL, -- who signed; '' not known
	act TEXT NOT NULL, -- the command's words
	undoes INTEGER REFERENCES journal (number), -- the entry it takes back; NULL for none
	changes BLOB NOT NULL -- every row before and after, as a changeset of SQLite's session extension
) STRICT;
INSERT INTO journal VALUES(1,1795564800,1,'skipper','book new --currency EUR --identity 0123456789abcdef0123456789abcdef',NULL,X'5403010000626f6f6b0017000100000000000000010320613463646136663334366534393061636339336133616165353835383362353100000320303132333435363738396162636465663031323334353637383961626364656600');
INSERT INTO journal VALUES(2,1795564800,1,'skipper','vessel ''Brass Lantern'' --base ''Port Marrin'' --length 11.2 --built 1998 --margin 7 --use private --area coastal --persons 6 --lay-up 11-01..03-31',NULL,X'540a0100000000000000000076657373656c001200010000000000000001030d4272617373204c616e7465726e030b506f7274204d617272696e0100000000000004600100000000000007ce01000000000000000701000000000000000101000000000000044d01000000000000014b0100000000000000005408010200000000000076657373656c5f706572696f640012000100000000000000010100000000000000000307707269766174650307636f617374616c010000000000000006050505540301020076657373656c5f736865657400120001000000000000000101000000000000000003087072616374696365');
INSERT INTO journal VALUES(3,1795564800,1,'skipper','station ''Marrin Raft Loft'' --base ''Port Marrin'' --turn-round 21 --closed 12-20..01-31 --trip 45.00 --kinds liferaft-canister,raft-contents --price liferaft-canister=450.00 --price liferaft-canister:test=60.00 --makes liferaft-canister=Orrin --carriage 5.00',NULL,X'5408010000000000000073746174696f6e00120001000000000000000103104d617272696e2052616674204c6f6674030b506f7274204d617272696e0100000000000000150100000000000011940100000000000001f401000000000000000001000000000000007f54040102000073746174696f6e5f636c6f737572650012000100000000000000010100000000000000000100000000000004c4010000000000000083540301020073746174696f6e5f6b696e64001200010000000000000001010000000000000001030d726166742d636f6e74656e7473120001000000000000000101000000000000000003116c696665726166742d63616e6973746572540301020373746174696f6e5f6d616b6500120001000000000000000103116c696665726166742d63616e697374657203054f7272696e54040102030073746174696f6e5f707269636500120001000000000000000103116c696665726166742d63616e6973746572030474657374010000000000001770120001000000000000000103116c696665726166742d63616e6973746572030001000000000000afc8');
INSERT INTO journal VALUES(4,1795564800,1,'skipper','station ''Lorne Jackets'' --turn-round 10 --price lifejacket-auto:service=29.00',NULL,X'5408010000000000000073746174696f6e001200010000000000000002030d4c6f726e65204a61636b657473030001000000000000000a01000000000000000001000000000000000001000000000000000001000000000000007f54040102030073746174696f6e5f7072696365001200010000000000000002030f6c6966656a61636b65742d6175746f030773657276696365010000000000000b54');
INSERT INTO journal VALUES(5,1795564800,1,'skipper','enter liferaft-canister --vessel ''Brass Lantern'' --tag LR-1 --made 2016-04 --make Orrin --price 1500.00',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d00120001000000000000000103044c522d3101000000000000000103116c696665726166742d63616e697374657205030661626f61726403000300030003000100000000000000010100000000000249f0010000000001339f9001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000003054f7272696e0100000000000000000300030001000000000000000001000000000000000003000300');
INSERT INTO journal VALUES(6,1795564800,1,'skipper','record service LR-1 --on 2024-05-20 --by ''Marrin Raft Loft'' --price 450.00 --certificate ''MR 118''',NULL,X'540c0100000000000000000000007265636f726400120001000000000000000101000000000000000103077365727669636501000000000134d88801000000000000000001000000000000000001000000000000000001000000000000000001000000000000000003104d617272696e2052616674204c6f667403064d522031313801000000000000afc8');
INSERT INTO journal VALUES(7,1795564800,1,'skipper','enter lifejacket-auto --vessel ''Brass Lantern'' --tag LJ-1 --made 2019 --served 2025-11-14 --station ''Lorne Jackets''',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d00120001000000000000000203044c4a2d31010000000000000001030f6c6966656a61636b65742d6175746f05030661626f617264030003000300030001000000000000000101ffffffffffffffff01000000000134133001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000003000100000000000000000300030001000000000000000001000000000000000003000300540c0100000000000000000000007265636f72640012000100000000000000020100000000000000020307736572766963650100000000013501ea010000000000000000010000000000000000010000000000000000010000000000000000010000000000000000030d4c6f726e65204a61636b657473030001ffffffffffffffff');
INSERT INTO journal VALUES(8,1795564800,1,'skipper','enter flare-red-hand --vessel ''Brass Lantern'' --tag FL-1 --quantity 4 --expires 2026-12 --price 17.50',NULL,X'542301000000000000000000000000000000000000000000000000000000000000000000006974656d0012000100000000000000030304464c2d31010000000000000001030e666c6172652d7265642d68616e6405030661626f61726403000300030003000100000000000000040100000000000006d601000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000000000001000000000135295001000000000000000001000000000000000003000100000000000000000300030001000000000000000001000000000000000003000300');
INSERT INTO journal VALUES(9,1795564800,1,'skipper','station ''Lorne Jackets'' --price lifejacket-auto:service=31.00',NULL,X'54040102030073746174696f6e5f7072696365001700010000000000000002030f6c6966656a61636b65742d6175746f030773657276696365010000000000000b54000000010000000000000c1c');
INSERT INTO journal VALUES(10,1795564800,1,'skipper','book undo',9,X'54040102030073746174696f6e5f7072696365001700010000000000000002030f6c6966656a61636b65742d6175746f030773657276696365010000000000000c1c000000010000000000000b54');
INSERT INTO journal VALUES(11,1795564800,1,'skipper','attach LR-1 certificate.pdf --to-record ''MR 118''',NULL,X'540a010000000000000000007061706572001200010000000000000001010000000000000001010000000000000001030f63657274696669636174652e706466030f6170706c69636174696f6e2f7064660300010000000001352905010000000000000109034037386234313239636230373461313233623631643665383738623839313231363832663832336661656363366237366566646439303736316265303937366135048209255044462d312e340a000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f202122232425262728292a2b2c2d2e2f303132333435363738393a3b3c3d3e3f404142434445464748494a4b4c4d4e4f505152535455565758595a5b5c5d5e5f606162636465666768696a6b6c6d6e6f707172737475767778797a7b7c7d7e7f808182838485868788898a8b8c8d8e8f909192939495969798999a9b9c9d9e9fa0a1a2a3a4a5a6a7a8a9aaabacadaeafb0b1b2b3b4b5b6b7b8b9babbbcbdbebfc0c1c2c3c4c5c6c7c8c9cacbcccdcecfd0d1d2d3d4d5d6d7d8d9dadbdcdddedfe0e1e2e3e4e5e6e7e8e9eaebecedeeeff0f1f2f3f4f5f6f7f8f9fafbfcfdfeff');
INSERT INTO journal VALUES(12,1795564800,1,'skipper','attach LJ-1 label.txt',NULL,X'540a0100000000000000000070617065720012000100000000000000020100000000000000020503096c6162656c2e747874030a746578742f706c61696e030001000000000135290501000000000000001203403435633938346138653132636238626232666261326362356633386439323937313930623138346465323639666333626539363162373735653039313630393004124d61646520323031392c206e6f2e204a310a');
INSERT INTO journal VALUES(13,1795564800,1,'skipper','papers LJ-1 --remove 2',NULL,X'540a0100000000000000000070617065720009000100000000000000020100000000000000020503096c6162656c2e747874030a746578742f706c61696e030001000000000135290501000000000000001203403435633938346138653132636238626232666261326362356633386439323937313930623138346465323639666333626539363162373735653039313630393004124d61646520323031392c206e6f2e204a310a');
INSERT INTO journal VALUES(14,1795564800,1,'skipper','station ''Lorne Jackets'' --price lifejacket-auto:service=31.00',NULL,X'54040102030073746174696f6e5f7072696365001700010000000000000002030f6c6966656a61636b65742d6175746f030773657276696365010000000000000b54000000010000000000000c1c');
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
INSERT INTO journal_line VALUES(1,0,'book','','','','changed','identity','a4cda6f346e490acc93a3aae58583b51','0123456789abcdef0123456789abcdef');
INSERT INTO journal_line VALUES(2,0,'vessel','Brass Lantern','','','added','','','base Port Marrin, length cm 1120, built 1998, margin days 7');
INSERT INTO journal_line VALUES(2,1,'vessel','Brass Lantern','','','added','period','','use private, area coastal, persons 6');
INSERT INTO journal_line VALUES(2,2,'vessel','Brass Lantern','','','added','sheet','','sheet practice');
INSERT INTO journal_line VALUES(3,0,'station','Marrin Raft Loft','','','added','','','base Port Marrin, turn round days 21, trip (minor units) 4500, carriage (minor units) 500');
INSERT INTO journal_line VALUES(3,1,'station','Marrin Raft Loft','','','added','closure','','first 12-20, last 01-31');
INSERT INTO journal_line VALUES(3,2,'station','Marrin Raft Loft','','','added','kind','','kind raft-contents');
INSERT INTO journal_line VALUES(3,3,'station','Marrin Raft Loft','','','added','kind','','kind liferaft-canister');
INSERT INTO journal_line VALUES(3,4,'station','Marrin Raft Loft','','','added','make','','kind liferaft-canister, make Orrin');
INSERT INTO journal_line VALUES(3,5,'station','Marrin Raft Loft','','','added','price','','kind liferaft-canister, task test, price (minor units) 6000');
INSERT INTO journal_line VALUES(3,6,'station','Marrin Raft Loft','','','added','price','','kind liferaft-canister, price (minor units) 45000');
INSERT INTO journal_line VALUES(4,0,'station','Lorne Jackets','','','added','','','turn round days 10');
INSERT INTO journal_line VALUES(4,1,'station','Lorne Jackets','','','added','price','','kind lifejacket-auto, task service, price (minor units) 2900');
INSERT INTO journal_line VALUES(5,0,'item','LR-1','liferaft-canister','','added','','','vessel Brass Lantern, kind liferaft-canister, price (minor units) 150000, made 2016-04, make Orrin');
INSERT INTO journal_line VALUES(6,0,'item','LR-1','liferaft-canister','','added','record','','task service, on 2024-05-20, station Marrin Raft Loft, certificate MR 118, price (minor units) 45000');
INSERT INTO journal_line VALUES(7,0,'item','LJ-1','lifejacket-auto','','added','','','vessel Brass Lantern, kind lifejacket-auto, made 2019');
INSERT INTO journal_line VALUES(7,1,'item','LJ-1','lifejacket-auto','','added','record','','task service, on 2025-11-14, station Lorne Jackets');
INSERT INTO journal_line VALUES(8,0,'item','FL-1','flare-red-hand','','added','','','vessel Brass Lantern, kind flare-red-hand, quantity 4, price (minor units) 1750, expires 2026-12');
INSERT INTO journal_line VALUES(9,0,'station','Lorne Jackets','','','changed','price price (minor units)','2900','3100');
INSERT INTO journal_line VALUES(10,0,'station','Lorne Jackets','','','changed','price price (minor units)','3100','2900');
INSERT INTO journal_line VALUES(11,0,'item','LR-1','liferaft-canister','','added','paper','','record 1, name certificate.pdf, media type application/pdf, added 2026-11-25, size 265, bytes 265 bytes');
INSERT INTO journal_line VALUES(12,0,'item','LJ-1','lifejacket-auto','','added','paper','','name label.txt, media type text/plain, added 2026-11-25, size 18, bytes 18 bytes');
INSERT INTO journal_line VALUES(13,0,'item','LJ-1','lifejacket-auto','','removed','paper','name label.txt, media type text/plain, added 2026-11-25, size 18, bytes 18 bytes','');
INSERT INTO journal_line VALUES(14,0,'station','Lorne Jackets','','','changed','price price (minor units)','2900','3100');
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
) STRICT;
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
COMMIT;
PRAGMA application_id = 1650682740;
PRAGMA user_version = 9;
