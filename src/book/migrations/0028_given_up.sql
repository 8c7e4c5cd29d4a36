-- A hand-in that a person gave up for its winter.

ALTER TABLE reminder_planned ADD COLUMN given_up TEXT NOT NULL DEFAULT ''; -- why the hand-in was given up for its winter, on_day being the day it had; '' it was not

PRAGMA user_version = 28;
