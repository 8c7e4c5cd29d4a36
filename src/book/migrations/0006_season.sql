-- What a rule may ask of a boat's season: how long it is, whether it knows frost, and how her
-- gear lies when it is over. As with the other columns of a period, NULL means as before; where
-- nothing was ever said, not known.

ALTER TABLE vessel_period ADD COLUMN season_months INTEGER CHECK (season_months BETWEEN 0 AND 12); -- months a year in use; 0 not known
ALTER TABLE vessel_period ADD COLUMN above_freezing INTEGER CHECK (above_freezing IN (-1, 0, 1)); -- all of them with a mean daily minimum above 0 C: 1 yes, -1 no, 0 not known
ALTER TABLE vessel_period ADD COLUMN dry_storage INTEGER CHECK (dry_storage IN (-1, 0, 1)); -- gear lies dry out of season: likewise

PRAGMA user_version = 6;
