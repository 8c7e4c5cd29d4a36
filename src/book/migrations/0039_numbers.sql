-- The program numbers the rows that it adds. What was given out once is not given again, not even
-- when the row is taken back: so the next number of each table stands here, beside the revision,
-- which every transaction that changes something writes anyway. The program fills it.
ALTER TABLE revision ADD COLUMN numbers TEXT NOT NULL DEFAULT ''; -- "vessel=3 item=41": the number of the next row of each table; one that is not named has had none

PRAGMA user_version = 39;
