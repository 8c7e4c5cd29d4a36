-- What a question about one boat asks of all others is looked up: who lies at her base, and which sheets
-- are followed at all. No value is changed.
CREATE INDEX vessel_of_base ON vessel (base);

CREATE INDEX vessel_period_of_base ON vessel_period (base);

CREATE INDEX vessel_sheet_of_name ON vessel_sheet (sheet);

CREATE INDEX vessel_period_sheet_of_name ON vessel_period_sheet (sheet);

PRAGMA user_version = 38;
