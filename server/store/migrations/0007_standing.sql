-- What is old and still counts for what a screen shows of today, for a phone that
-- joins: the arrivals whose kind stands (see calc/journal/standing.go). An event that
-- was erased stays in it, as a stub.
CREATE TABLE standing (
	crew INTEGER NOT NULL REFERENCES crew (key),
	rank INTEGER NOT NULL, -- 1 of things, 2 lasting, 3 of work
	n    INTEGER NOT NULL,
	PRIMARY KEY (crew, rank, n)
) STRICT, WITHOUT ROWID;

-- What was stored before. Bytes that went bad are passed over: the phone gets them by
-- their number.
INSERT INTO standing (crew, rank, n)
SELECT crew, rank, n FROM (
	SELECT crew, n, CASE
		WHEN kind IN ('rig.set', 'site.set', 'job.set', 'line.set', 'setting.set', 'same') THEN 1
		WHEN kind IN ('part.fitted', 'part.pulled', 'trap.drained', 'filter.changed', 'check.cleared', 'fault.seen',
			'fault.found', 'fault.mended', 'stock.moved', 'stock.counted', 'amend', 'void') THEN 2
		WHEN kind = 'check.answered' AND json_extract(text, '$.body.result') IN ('fail', 'change', 'not-done') THEN 2
		WHEN kind IN ('session.opened', 'session.closed') THEN 3
	END AS rank
	FROM (
		SELECT crew, n, text, json_extract(text, '$.kind') AS kind
		FROM (SELECT crew, n, CAST(raw AS TEXT) AS text FROM event) WHERE json_valid(text)
	)
) WHERE rank IS NOT NULL;
