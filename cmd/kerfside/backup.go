package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"time"

	"kerfside/calc/unit"
	"kerfside/server/backup"
	"kerfside/server/store"
)

// makeBackup runs "kerfside backup", with the server running or not.
func makeBackup(args []string, out io.Writer) error {
	flags := flag.NewFlagSet("kerfside backup", flag.ContinueOnError)
	path := flags.String("db", "kerfside.db", "file of the database")
	dir := flags.String("dir", "", "`folder` for the backups, best on another disk (default: beside the database, DB.backups)")
	if err := readOnlyFlags(flags, args, out); err != nil {
		return err
	}
	if *dir == "" {
		*dir = backupFolder(*path)
	}
	b, err := backup.Make(context.Background(), *path, *dir, time.Now())
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%s in %s, checked; %s; %s removed.\n", unit.Count(b.Events, "entry", "entries"), b.File, unit.Count(b.Pictures, "new picture", "new pictures"), unit.Count(b.Removed, "old backup", "old backups"))
	tellDamage(out, b.Damaged)
	if b.Spoilt > 0 {
		fmt.Fprintf(out, "Left out as damaged on the disk: %s.\n", unit.Count(b.Spoilt, "picture", "pictures"))
	}
	if b.SameDisk {
		fmt.Fprintln(out, "The folder is on the disk of the database, so phones do not call their entries backed up. Name a folder on another disk with -dir.")
	}
	return nil
}

// restore runs "kerfside restore FILE".
func restore(args []string, out io.Writer) error {
	flags := flag.NewFlagSet("kerfside restore", flag.ContinueOnError)
	path := flags.String("db", "kerfside.db", "file of the database that the backup takes the place of")
	words, err := readFlags(flags, args, out)
	if err != nil {
		return err
	}
	file, err := oneWord(flags, words, "the file of one backup", "kerfside restore -db kerfside.db FILE")
	if err != nil {
		return err
	}
	now := time.Now()
	r, err := backup.Restore(context.Background(), *path, file, now)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "Back in %s: %s and %s.\n", *path, unit.Count(r.Events, "entry", "entries"), unit.Count(r.Pictures, "picture", "pictures"))
	tellDamage(out, r.Damaged)
	if r.Aside != "" {
		fmt.Fprintf(out, "The former database is kept as %s.\n", r.Aside)
	}
	if !r.Access {
		fmt.Fprintln(out, "Who may use the crews is as the backup has it: a phone that was taken off since then has its access again, see kerfside crew.")
	}
	fmt.Fprintln(out, "Start the server: phones bring back what they hold since that backup.")
	return noteRestore(*path, now)
}

// noteRestore adds a line to each crew's audit.
func noteRestore(path string, now time.Time) error {
	access, err := store.OpenAccess(path)
	if err != nil {
		return err
	}
	defer access.Close()
	crews, err := access.Crews(context.Background())
	if err != nil {
		return err
	}
	for _, c := range crews {
		if err := access.Audit(c.ID, store.AuditLine{At: now.UnixMilli(), What: store.Restored}); err != nil {
			return err
		}
	}
	return nil
}

// backupFolder is where the backups of a database lie if nobody says otherwise.
func backupFolder(db string) string { return db + ".backups" }

func tellDamage(out io.Writer, ids []string) {
	if len(ids) > 0 {
		fmt.Fprintf(out, "Damaged in it: %s. The server asks phones for them.\n", unit.Count(len(ids), "entry", "entries"))
	}
}
