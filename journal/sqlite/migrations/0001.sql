-- Lines are kept byte for byte and never changed.
CREATE TABLE events (
    position INTEGER PRIMARY KEY,
    dev      TEXT    NOT NULL,
    seq      INTEGER NOT NULL,
    hash     BLOB    NOT NULL,
    raw      BLOB    NOT NULL,
    UNIQUE (dev, seq)
) STRICT;

CREATE TRIGGER events_stay BEFORE UPDATE ON events
BEGIN SELECT RAISE(ABORT, 'an event is never changed'); END;

CREATE TRIGGER events_are_kept BEFORE DELETE ON events
BEGIN SELECT RAISE(ABORT, 'an event is never deleted'); END;

-- Lines with the number of another: kept aside, never counted.
CREATE TABLE forks (
    dev  TEXT    NOT NULL,
    seq  INTEGER NOT NULL,
    hash BLOB    NOT NULL,
    raw  BLOB    NOT NULL,
    PRIMARY KEY (dev, hash)
) STRICT;

-- The keys of this device; the one with the highest number is in use.
CREATE TABLE device (
    number INTEGER PRIMARY KEY,
    seed   BLOB NOT NULL
) STRICT;

-- The latest hybrid clock reading given or followed.
CREATE TABLE clock (
    only INTEGER PRIMARY KEY CHECK (only = 1),
    hlc  INTEGER NOT NULL
) STRICT;

INSERT INTO clock (only, hlc) VALUES (1, 0);
