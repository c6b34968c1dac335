CREATE TABLE job (
    number INTEGER PRIMARY KEY,
    id TEXT NOT NULL UNIQUE,
    kind TEXT NOT NULL,
    request TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('queued', 'running', 'done', 'failed', 'cancelled')),
    share REAL NOT NULL DEFAULT 0,
    result BLOB,
    problem TEXT,
    queued TEXT NOT NULL,
    ended TEXT
) STRICT;

CREATE INDEX job_state ON job (state);
