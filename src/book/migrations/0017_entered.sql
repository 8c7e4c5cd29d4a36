-- In what order things were entered, and the day an extension was given.

ALTER TABLE record ADD COLUMN entered INTEGER NOT NULL DEFAULT 0 CHECK (entered >= 0); -- the entry of the journal it was written in; 0 not known
ALTER TABLE event ADD COLUMN entered INTEGER NOT NULL DEFAULT 0 CHECK (entered >= 0); -- likewise
ALTER TABLE extension ADD COLUMN entered INTEGER NOT NULL DEFAULT 0 CHECK (entered >= 0); -- likewise
ALTER TABLE extension ADD COLUMN given_day INTEGER NOT NULL DEFAULT 0 CHECK (given_day >= 0); -- yyyymmdd, the day the authority gave it; 0 not known

-- It was never asked for: the day of its entry stands for it, where the journal has one.
UPDATE extension SET given_day = COALESCE((
	SELECT CAST(strftime('%Y%m%d', journal.at_seconds, 'unixepoch') AS INTEGER)
	FROM journal_line JOIN journal ON journal.number = journal_line.number
	WHERE journal_line.act = 'added' AND journal_line.field = 'extension'
		AND journal_line.became = 'task ' || extension.task || ', until '
			|| substr(extension.until_day, 1, 4) || '-' || substr(extension.until_day, 5, 2)
			|| '-' || substr(extension.until_day, 7, 2) || ', paper ' || extension.paper
		AND journal_line.name = (SELECT tag FROM item WHERE item.id = extension.item_id)
	ORDER BY journal_line.number DESC
	LIMIT 1), 0);

PRAGMA user_version = 17;
