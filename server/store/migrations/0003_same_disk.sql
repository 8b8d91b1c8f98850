-- The highest n in a backup that lies on the disk of the database itself.
ALTER TABLE crew ADD COLUMN same_disk INTEGER NOT NULL DEFAULT 0;
