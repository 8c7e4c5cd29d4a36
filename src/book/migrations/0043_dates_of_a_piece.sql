-- The dates as last reckoned stand in one row a piece, found by its tag alone. No date is changed.
CREATE TEMP TABLE dates_kept AS SELECT tag, MIN(vessel) AS vessel,
	group_concat(task || '/' || due_day || '/' || good_day || '/' || state || '/' || rule || '/' || sheet || '/', '') AS dates
FROM reckoned GROUP BY tag;

DROP TABLE reckoned;

CREATE TABLE reckoned (
	tag TEXT PRIMARY KEY CHECK (tag <> ''), -- of the item
	vessel TEXT NOT NULL, -- whose gear it was
	dates TEXT NOT NULL -- of each task: which, yyyymmdd due, yyyymmdd last day in date (0 not known or never), how it stood, id of the rule that bound ('' none), its sheet ('' the item's own papers); each ends in '/'
) STRICT, WITHOUT ROWID;

INSERT INTO reckoned (tag, vessel, dates)
SELECT tag, vessel, dates FROM dates_kept ORDER BY tag;

DROP TABLE dates_kept;

PRAGMA user_version = 43;
