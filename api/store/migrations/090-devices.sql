-- Devices that were paired over the network. The token itself is never stored.
CREATE TABLE devices (
  device_id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL,
  role TEXT NOT NULL CHECK (role IN ('coach', 'field', 'display', 'scientist')),
  token_sha256 BLOB NOT NULL UNIQUE,
  created_utc TEXT NOT NULL,
  last_used_utc TEXT,
  confirmed_until_utc TEXT,
  revoked_utc TEXT
) STRICT;

-- Who read, exported, changed or erased what. No names of athletes: a number that is never used again.
CREATE TABLE audit (
  audit_id INTEGER PRIMARY KEY AUTOINCREMENT,
  at_utc TEXT NOT NULL,
  device_id INTEGER REFERENCES devices (device_id),
  action TEXT NOT NULL,
  operation TEXT NOT NULL,
  athlete_id INTEGER
) STRICT;
CREATE INDEX audit_by_athlete ON audit (athlete_id);
