-- Who may read and write a crew's journal.
ALTER TABLE crew ADD COLUMN name TEXT NOT NULL DEFAULT ''; -- as people call it

-- A phone that has joined. A row is never deleted.
CREATE TABLE device (
	crew    INTEGER NOT NULL REFERENCES crew (key),
	id      TEXT NOT NULL,          -- as its events name it
	name    TEXT NOT NULL,          -- as people call it
	role    TEXT NOT NULL CHECK (role IN ('owner', 'member')),
	token   BLOB NOT NULL UNIQUE,   -- SHA-256 of the token in its cookie
	since   INTEGER NOT NULL,       -- ms since 1970 UTC, as all times here
	seen    INTEGER NOT NULL,
	revoked INTEGER NOT NULL DEFAULT 0, -- when, or 0
	PRIMARY KEY (crew, id)
) STRICT;

-- An invitation that nobody has taken yet. Taking it deletes the row, so that a
-- used one cannot be told from one that never was.
CREATE TABLE invite (
	crew    INTEGER NOT NULL REFERENCES crew (key),
	id      TEXT NOT NULL,
	role    TEXT NOT NULL CHECK (role IN ('owner', 'member')),
	secret  BLOB NOT NULL UNIQUE, -- SHA-256 of the secret in its link
	handle  TEXT NOT NULL UNIQUE, -- first characters of its code, to find it by
	salt    BLOB NOT NULL,
	code    BLOB NOT NULL,        -- PBKDF2 of its code with salt
	expires INTEGER NOT NULL,
	tries   INTEGER NOT NULL DEFAULT 0, -- of a code that begins with handle
	PRIMARY KEY (crew, id)
) STRICT;

-- What was done about access and about the data as a whole. Never changed.
CREATE TABLE audit (
	key   INTEGER PRIMARY KEY,
	crew  INTEGER NOT NULL REFERENCES crew (key),
	at    INTEGER NOT NULL,
	what  TEXT NOT NULL, -- a word of the list in audit.go
	who   TEXT NOT NULL, -- device, or '' for the command line
	about TEXT NOT NULL, -- id of a device or an invitation
	more  TEXT NOT NULL  -- a role, a count; never a token, a code or an entry
) STRICT;
CREATE INDEX audit_crew ON audit (crew, key);

-- Where the server was last to be found, for links that the command line prints.
CREATE TABLE served (
	one    INTEGER PRIMARY KEY CHECK (one = 1),
	origin TEXT NOT NULL
) STRICT;
