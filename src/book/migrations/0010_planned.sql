-- What a reminder said when its day was chosen: the journal tells of it by these words.

ALTER TABLE reminder_planned ADD COLUMN summary TEXT NOT NULL DEFAULT ''; -- its one line

UPDATE reminder_planned SET summary = replace(key, '|', ' ');

PRAGMA user_version = 10;
