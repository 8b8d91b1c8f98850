package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"time"

	"kerfside/server/store"
)

// erase runs "kerfside erase ID", with the server running or not.
func erase(args []string, out io.Writer) error {
	c := &crewCommand{out: out, now: time.Now().UnixMilli()}
	flags := flag.NewFlagSet("kerfside erase", flag.ContinueOnError)
	db := flags.String("db", "kerfside.db", "file of the database")
	flags.StringVar(&c.crew, "crew", "", "`id` or name of the crew, if there are several")
	why := flags.String("why", "", "a `note` for the list of erasures")
	dir := flags.String("backups", "", "`folder` of the backups, to say what they still hold (default: beside the database, DB.backups)")
	words, err := readFlags(flags, args, out)
	if err != nil {
		return err
	}
	id, err := oneWord(flags, words, "the id of one entry", "kerfside erase -db kerfside.db ID")
	if err != nil {
		return err
	}
	if c.access, err = store.OpenAccess(*db); err != nil {
		return err
	}
	defer c.access.Close()
	crew, err := c.which()
	if err != nil {
		return err
	}
	done, err := c.access.Erase(context.Background(), crew.ID, id, "", *why, c.now)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "Erased: the entry with what amended it, %d in all", done.Entries)
	if done.Picture != "" {
		fmt.Fprint(out, ", with its picture")
	}
	fmt.Fprintf(out, ".\nEach phone erases it at its next sync; what was exported from one is not reached.\nThe list of what was erased is %s.erased: keep it with the database.\n", *db)
	if *dir == "" {
		*dir = backupFolder(*db)
	}
	return tellBackups(out, *db, *dir, done.Picture)
}

// tellBackups says which backups still hold what was erased.
func tellBackups(out io.Writer, db, dir, picture string) error {
	files, err := store.CopyFiles(db, dir)
	if err != nil {
		return err
	}
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
