-- Norms that the programme published: a document, signed, and the key that checks it. Never people, and no cell under ten.
CREATE TABLE archive.norms (
  norms_id       uuid PRIMARY KEY,
  published_utc  timestamptz NOT NULL DEFAULT clock_timestamp(),
  document       text NOT NULL,
  signature      bytea NOT NULL,
  public_key     text NOT NULL
);
GRANT SELECT ON archive.norms TO cinderlane_club, cinderlane_scientist;
GRANT SELECT, INSERT, DELETE ON archive.norms TO cinderlane_keeper;
