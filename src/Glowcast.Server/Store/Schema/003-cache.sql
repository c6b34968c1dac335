CREATE TABLE cached (
    key TEXT NOT NULL PRIMARY KEY,
    content BLOB NOT NULL,
    used INTEGER NOT NULL
) STRICT;

CREATE INDEX cached_used ON cached (used);
