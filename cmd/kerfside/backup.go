package main

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"io"
	"time"

	"kerfside/calc/unit"
	"kerfside/cmd/internal/command"
	"kerfside/server/backup"
	"kerfside/server/store"
)

var backupCommand = command.Command{
	Name: "backup", About: "copy the database and its pictures, and check the copy",
	More: "The server may be running. The newest backups of 7 days, 5 weeks and 12 months are kept.",
	Declare: func(flags *flag.FlagSet) command.Action {
		var db, dir string
		var inJSON bool
		dbFlag(flags, &db, "")
		jsonFlag(flags, &inJSON)
		flags.StringVar(&dir, "dir", "", "`folder` for the backups, best on another disk (default: beside the database, DB.backups)")
		return func(_ []string, out io.Writer) error { return makeBackup(db, dir, inJSON, out) }
	},
	Examples: []command.Example{{Line: "kerfside backup -db kerfside.db -dir /mnt/backup/kerfside", Does: "make one on another disk"}},
}

// makeBackup runs "kerfside backup", with the server running or not.
func makeBackup(db, dir string, inJSON bool, out io.Writer) error {
	if dir == "" {
		dir = backupFolder(db)
	}
	b, err := backup.Make(context.Background(), db, dir, time.Now())
	if err != nil {
		return err
	}
	var notAll error
	if len(b.Damaged) > 0 || b.Spoilt > 0 {
		notAll = command.ErrNotAll
	}
	if inJSON {
		return cmp.Or(printJSON(out, backedUpOf(b)), notAll)
	}
	fmt.Fprintf(out, "%s in %s, checked; %s; %s removed.\n", unit.Count(b.Events, "entry", "entries"), b.File, unit.Count(b.Pictures, "new picture", "new pictures"), unit.Count(b.Removed, "old backup", "old backups"))
	tellDamage(out, b.Damaged)
	if b.Spoilt > 0 {
		fmt.Fprintf(out, "Left out as damaged on the disk: %s.\n", unit.Count(b.Spoilt, "picture", "pictures"))
	}
	if b.SameDisk {
		fmt.Fprintln(out, "The folder is on the disk of the database, so phones do not call their entries backed up. Name a folder on another disk with -dir.")
	}
	return notAll
}

var restoreCommand = command.Command{
	Name: "restore", About: "put a backup in the place of the database",
	More:  "Stop the server first. The former database is kept beside the new one.",
	Words: []command.Word{{Name: "FILE", What: "the file of one backup"}},
	Declare: func(flags *flag.FlagSet) command.Action {
		var db string
		var inJSON bool
		dbFlag(flags, &db, " that the backup takes the place of")
		jsonFlag(flags, &inJSON)
		return func(words []string, out io.Writer) error { return restore(db, words[0], inJSON, out) }
	},
	Examples: []command.Example{{Line: "kerfside restore -db kerfside.db /mnt/backup/kerfside/kerfside-2026-11-30.db", Does: "bring that one back"}},
}

// restore runs "kerfside restore FILE".
func restore(db, file string, inJSON bool, out io.Writer) error {
	now := time.Now()
	r, err := backup.Restore(context.Background(), db, file, now)
	if err != nil {
		return err
	}
	if err := noteRestore(db, now); err != nil {
		return err
	}
	if inJSON {
		err = printJSON(out, restoredOf(db, r))
	} else {
		tellRestored(out, db, r)
	}
	if err == nil && len(r.Damaged) > 0 {
		return command.ErrNotAll
	}
	return err
}

func tellRestored(out io.Writer, db string, r backup.Restoration) {
	fmt.Fprintf(out, "Back in %s: %s and %s.\n", db, unit.Count(r.Events, "entry", "entries"), unit.Count(r.Pictures, "picture", "pictures"))
	tellDamage(out, r.Damaged)
	if r.Aside != "" {
		fmt.Fprintf(out, "The former database is kept as %s.\n", r.Aside)
	}
	if !r.Access {
		fmt.Fprintln(out, "Who may use the crews is as the backup has it: a phone that was taken off since then has its access again, see kerfside crew.")
	}
	fmt.Fprintln(out, "Start the server: phones bring back what they hold since that backup.")
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
