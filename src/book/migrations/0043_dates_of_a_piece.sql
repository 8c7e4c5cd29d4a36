-- The dates as last reckoned stand in one row a piece, found by its tag alone. No date is changed.
CREATE TABLE reckoned_piece (
	tag TEXT PRIMARY KEY CHECK (tag <> ''), -- of the item
	vessel TEXT NOT NULL, -- whose gear it was
	dates TEXT NOT NULL -- of each task: which, yyyymmdd due, yyyymmdd last day in date (0 not known or never), how it stood, id of the rule that bound ('' none), its sheet ('' the item's own papers); each ends in '/'
) STRICT, WITHOUT ROWID;

INSERT INTO reckoned_piece (tag, vessel, dates)
SELECT tag, MIN(vessel),
	group_concat(task || '/' || due_day || '/' || good_day || '/' || state || '/' || rule || '/' || sheet || '/', '')
FROM reckoned GROUP BY tag ORDER BY tag;

DROP TABLE reckoned;

ALTER TABLE reckoned_piece RENAME TO reckoned;

PRAGMA user_version = 43;
