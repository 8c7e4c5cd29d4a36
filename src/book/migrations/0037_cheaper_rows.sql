-- What many rows cost that are written at once. No value is changed.

-- A list of values is built anew by SQLite for each row that is checked by it: so days' wordings are
-- checked as a range, and the word that nearly every row has is asked before the list of all. Only
-- the words of the schema change, as SQLite's documentation has it for what no stored row can tell
-- (https://www.sqlite.org/lang_altertable.html, "Making Other Kinds Of Table Schema Changes").
PRAGMA writable_schema = ON;

UPDATE sqlite_schema SET sql = replace(replace(replace(replace(replace(sql,
	'_wording IN (0, 1, 2))', '_wording BETWEEN 0 AND 2)'),
	'(state IN (', '(state = ''aboard'' OR state IN ('),
	'(because IN (', '(because = '''' OR because IN ('),
	'(task IN (''service'',', '(task = ''service'' OR task IN (''service'','),
	'(act IN (', '(act = ''added'' OR act = ''changed'' OR act IN (')
WHERE type = 'table';

PRAGMA writable_schema = RESET;

-- Rows that are found by their key alone need no number beside it.
CREATE TABLE reckoned_by_task (
	vessel TEXT NOT NULL REFERENCES reckoned_vessel (vessel) ON DELETE CASCADE, -- whose gear
	tag TEXT NOT NULL CHECK (tag <> ''), -- of the item
	task TEXT NOT NULL, -- which
	due_day INTEGER NOT NULL, -- yyyymmdd; 0 not known or never
	good_day INTEGER NOT NULL, -- yyyymmdd, last day in date; 0 not known or never
	state TEXT NOT NULL, -- how it stood
	rule TEXT NOT NULL, -- id of the rule that bound; '' none
	sheet TEXT NOT NULL, -- the sheet of that rule; '' the item's own papers
	PRIMARY KEY (tag, task)
) STRICT, WITHOUT ROWID;

INSERT INTO reckoned_by_task (vessel, tag, task, due_day, good_day, state, rule, sheet)
SELECT vessel, tag, task, due_day, good_day, state, rule, sheet FROM reckoned;

DROP TABLE reckoned;

ALTER TABLE reckoned_by_task RENAME TO reckoned;

CREATE INDEX reckoned_of_vessel ON reckoned (vessel);

PRAGMA user_version = 37;
