-- The server of an archive's pages pairs devices of keepers. SQLite changes a CHECK by making the table anew; the audit's references to
-- it are looked at when all is done.
PRAGMA defer_foreign_keys = ON;
CREATE TABLE devices_kept AS SELECT * FROM devices;
DROP TABLE devices;
CREATE TABLE devices (
  device_id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL,
  role TEXT NOT NULL CHECK (role IN ('coach', 'field', 'display', 'scientist', 'keeper')),
  token_sha256 BLOB NOT NULL UNIQUE,
  created_utc TEXT NOT NULL,
  last_used_utc TEXT,
  confirmed_until_utc TEXT,
  revoked_utc TEXT
) STRICT;
INSERT INTO devices SELECT device_id, name, role, token_sha256, created_utc, last_used_utc, confirmed_until_utc, revoked_utc FROM devices_kept;
DROP TABLE devices_kept;
