-- What musters, stations and the life of an item need to know of gear, and vessels that are no
-- boats.

ALTER TABLE item ADD COLUMN make TEXT NOT NULL DEFAULT ''; -- who makes it, as its station's approval names them; '' not known
ALTER TABLE item ADD COLUMN capacity INTEGER NOT NULL DEFAULT 0 CHECK (capacity >= 0); -- persons it is for; 0 not known, or does not apply
ALTER TABLE item ADD COLUMN rating TEXT NOT NULL DEFAULT ''; -- as on its label: '5-B', '13A/113B'; '' not known
ALTER TABLE item ADD COLUMN landed_to TEXT NOT NULL DEFAULT ''; -- the station it is ashore at; '' when it is not ashore, or not known
ALTER TABLE item ADD COLUMN landed_on INTEGER NOT NULL DEFAULT 0; -- yyyymmdd, the day it went ashore; 0 when it is not, or not known
ALTER TABLE item ADD COLUMN hired_until INTEGER NOT NULL DEFAULT 0; -- yyyymmdd, a hired item's last day; 0 when it is not hired

ALTER TABLE vessel ADD COLUMN store INTEGER NOT NULL DEFAULT 0 CHECK (store IN (0, 1)); -- 1: spares at a base, no boat

PRAGMA user_version = 2;
