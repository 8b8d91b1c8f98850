-- Where a crew stands on its way from one server to another. Only one that is here is
-- served: here, frozen (packed, to go), moved (another server has it), gone (and what
-- it had was deleted here), arriving (being unpacked), held (unpacked whole).
ALTER TABLE crew ADD COLUMN state TEXT NOT NULL DEFAULT 'here'
	CHECK (state IN ('here', 'frozen', 'moved', 'gone', 'arriving', 'held'));
ALTER TABLE crew ADD COLUMN moves INTEGER NOT NULL DEFAULT 0; -- how often it has moved, by what this server knows

-- The move that is under way, or the last one that led away from here.
CREATE TABLE move (
	crew    INTEGER PRIMARY KEY REFERENCES crew (key),
	number  INTEGER NOT NULL, -- the move makes crew.moves this
	seed    BLOB,             -- where it leads away from: of the key pair that hands the crew over
	public  BLOB NOT NULL,    -- of that key pair
	nonce   BLOB,             -- of the copy that it is, or that it was handed over to
	package BLOB              -- SHA-256 of the package
) STRICT;
