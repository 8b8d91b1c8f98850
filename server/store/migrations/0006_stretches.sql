-- Ids are random: with each commit an index over all of them would be touched all
-- over, and a small push would cost the more the longer the journal is. So ids
-- stand in the index by stretches of arrivals: event.id holds the prefix of the
-- stretch and then the id. What was stored before has no prefix and is stretch 0.
CREATE TABLE stretch (
	crew   INTEGER NOT NULL REFERENCES crew (key),
	number INTEGER NOT NULL,
	prefix TEXT NOT NULL,
	filter BLOB,            -- tells which ids are not in it; NULL while it grows, and of stretch 0
	PRIMARY KEY (crew, number)
) STRICT;
INSERT INTO stretch (crew, number, prefix) SELECT key, 0, '' FROM crew WHERE max > 0;
