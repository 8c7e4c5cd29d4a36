-- What a person put on the list to buy, beside what the rules ask for.
ALTER TABLE item ADD COLUMN to_buy TEXT NOT NULL DEFAULT ''; -- what of it, in their words; "" when it is not on the list

PRAGMA user_version = 36;
