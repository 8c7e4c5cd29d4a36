-- What boats cost that are written at once. No value is changed.

-- As in 0037: SQLite builds a list of more than two values anew for each row that is checked by it. What is
-- yes, no or not known is checked as a range, and why a boat left is first held against what nearly all have.
PRAGMA writable_schema = ON;

UPDATE sqlite_schema SET sql = replace(replace(sql,
	' IN (-1, 0, 1)', ' BETWEEN -1 AND 1'),
	'(left_because IN (', '(left_because = '''' OR left_because IN (')
WHERE type = 'table' AND name IN ('vessel', 'vessel_period');

PRAGMA writable_schema = RESET;

PRAGMA user_version = 45;
