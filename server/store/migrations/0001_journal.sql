-- One row for each crew. max, head and highest are what its newest arrival left
-- behind; they change in the transaction that stores arrivals.
CREATE TABLE crew (
	key       INTEGER PRIMARY KEY,
	id        TEXT NOT NULL UNIQUE,        -- 22 characters, as an event's id
	max       INTEGER NOT NULL DEFAULT 0,  -- number of the newest arrival
	head      BLOB NOT NULL DEFAULT (zeroblob(16)), -- chain at max
	highest   TEXT NOT NULL DEFAULT '0000000000000000', -- highest o stored
	backed_up INTEGER NOT NULL DEFAULT 0   -- highest n in a checked backup
) STRICT;

-- The journal. A row is never updated but for one whose raw no longer fits sum,
-- and never deleted.
CREATE TABLE event (
	crew  INTEGER NOT NULL REFERENCES crew (key),
	n     INTEGER NOT NULL, -- number of arrival, without gap from 1
	id    TEXT NOT NULL,
	o     TEXT NOT NULL,    -- confirmed stamp, 16 hex digits
	sum   BLOB NOT NULL,    -- SHA-256 of raw
	chain BLOB NOT NULL,    -- chain at n, 16 bytes
	relay TEXT NOT NULL,    -- device that brought it, '' before enrolment
	raw   BLOB NOT NULL,    -- the event as it was written
	PRIMARY KEY (crew, n),
	UNIQUE (crew, id)
) STRICT;
