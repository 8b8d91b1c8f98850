-- What a phone that joined may ask with once more while it has had no answer:
-- SHA-256 of a secret that it made itself.
ALTER TABLE device ADD COLUMN retry BLOB;
CREATE UNIQUE INDEX device_retry ON device (retry) WHERE retry IS NOT NULL;
