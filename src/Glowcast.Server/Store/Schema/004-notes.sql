CREATE TABLE note (
    id TEXT NOT NULL PRIMARY KEY,
    place TEXT NOT NULL,
    json TEXT NOT NULL,
    written TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX note_place ON note (place);
