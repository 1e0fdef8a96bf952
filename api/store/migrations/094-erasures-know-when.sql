-- When the row of an erased person was made: the same number in a copy of this database is the same person, in another's it is not.
ALTER TABLE erasures ADD COLUMN created_utc TEXT;
