package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"path/filepath"

	"kerfside/cmd/internal/command"
	"kerfside/server/store"
)

var eraseCommand = command.Command{
	Name: "erase", About: "take an entry, or a picture with its entry, out for good",
	More:  "The server may be running. An export of the journal shows the id of each entry.",
	Words: []command.Word{{Name: "ID", What: "the id of one entry"}},
	Declare: func(flags *flag.FlagSet) command.Action {
		e := &eraseRun{}
		dbFlag(flags, &e.db, "")
		ofCrew(&e.crewRun, flags)
		flags.StringVar(&e.why, "why", "", "a `note` for the list of erasures")
		flags.StringVar(&e.dir, "backups", "", "`folder` of the backups, to say what they still hold (default: beside the database, DB.backups)")
		return e.open(e.erase)
	},
	Examples: []command.Example{{Line: "kerfside erase -db kerfside.db -why privacy 0199f3c0b4000001aaaaaa", Does: "erase that entry"}},
}

// eraseRun is one run of "kerfside erase".
type eraseRun struct {
	crewRun
	why, dir string
}

// erase runs "kerfside erase ID", with the server running or not.
func (c *eraseRun) erase(words []string) error {
	crew, err := c.which()
	if err != nil {
		return err
	}
	done, err := c.access.Erase(context.Background(), crew.ID, words[0], "", c.why, c.now)
	if err != nil {
		return err
	}
	fmt.Fprintf(c.out, "Erased: the entry with what amended it, %d in all", done.Entries)
	if done.Picture != "" {
		fmt.Fprint(c.out, ", with its picture")
	}
	fmt.Fprintf(c.out, ".\nEach phone erases it at its next sync; what was exported from one is not reached.\nThe list of what was erased is %s.erased: keep it with the database.\n", c.db)
	if c.dir == "" {
		c.dir = backupFolder(c.db)
	}
	return tellBackups(c.out, c.db, c.dir, done.Picture)
}

// tellBackups says which backups still hold what was erased.
func tellBackups(out io.Writer, db, dir, picture string) error {
	files, err := store.CopyFiles(db, dir)
	if err != nil {
		return err
	}
	files = append(files, store.Former(db)...)
	if len(files) == 0 {
		fmt.Fprintf(out, "There is no backup in %s. Any that lies elsewhere still holds it.\n", dir)
		return nil
	}
	fmt.Fprintln(out, "Backups made before still hold it. A restore does not bring it back, but the files have it until you delete them. Run kerfside backup, then delete:")
	for _, file := range files {
		fmt.Fprintln(out, " ", file)
	}
	if picture != "" {
		fmt.Fprintln(out, " ", filepath.Join(dir, "photos", picture))
	}
	fmt.Fprintf(out, "A database that a restore put aside (%s.before-…) holds it too.\n", db)
	return nil
}
