-- Whether the token of a phone has been used: then its answer has arrived, and
-- what it asked to join with opens nothing more.
ALTER TABLE device ADD COLUMN used INTEGER NOT NULL DEFAULT 0;
