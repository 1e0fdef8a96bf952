-- Norms of a programme stand beside an athlete's own normal only where the coach wants them to.
ALTER TABLE archive_norms ADD COLUMN shown INTEGER NOT NULL DEFAULT 0 CHECK (shown IN (0, 1));
