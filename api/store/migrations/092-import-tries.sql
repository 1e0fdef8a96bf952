-- How often the work on an import was begun without coming to an end: what ends the program is not begun for ever.
ALTER TABLE imports ADD COLUMN tries INTEGER NOT NULL DEFAULT 0;
