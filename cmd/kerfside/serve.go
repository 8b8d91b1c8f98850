package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// serveGC is how much garbage may grow beside what is in use, in percent, before
// it is collected. Half of Go's default keeps a busy server of a million entries
// within 64 MB, for a few hundredths of its speed; GOGC overrides it.
const serveGC = 50

// mostMB is more room than any disk has, in MB, and still counts in bytes.
const mostMB = 1_000_000_000

// serve runs "kerfside serve" until it is told to stop.
func serve(args []string, out io.Writer) error {
	a := App{}
	flags := flag.NewFlagSet("kerfside serve", flag.ContinueOnError)
	flags.StringVar(&a.Addr, "addr", "", "`address` to listen on (default localhost:8480; with -lan :8443, with -cert and -acme :443)")
	flags.StringVar(&a.DB, "db", "kerfside.db", "file of the database")
	flags.BoolVar(&a.Dev, "dev", false, "read pwa/ and guides/ from the working folder for each page")
	photos := flags.Int64("photos", 2000, "room for a crew's pictures, in MB; they lie beside the database")
	flags.Int64Var(&a.Day.Events, "day-entries", 20_000, "entries that one phone may send in a day; what is more waits on it")
	dayMB := flags.Int64("day-mb", 200, "size of what one phone may send in a day, in MB, with its pictures")
	flags.StringVar(&a.Backups, "backups", "", "`folder` for a backup each night, best on another disk (default: beside the database, DB.backups)")
	flags.BoolVar(&a.BeginAnew, "begin-anew", false, "begin an empty journal although pictures, backups or other remains of one lie where its database is missing")
	reach := reachFlags(flags, &a.Reach)
	if err := readOnlyFlags(flags, args, out); err != nil {
		return err
	}
	if err := reach.settle(&a.Addr); err != nil {
		return err
	}
	if *photos < 1 || *photos > mostMB {
		return problem.Newf(problem.Range, "photos", "%d MB cannot be the room for pictures", *photos).WithHint("From 1 to %d; a picture takes up to 0.4 MB.", mostMB)
	}
	a.PhotoQuota = *photos * 1e6
	if *dayMB < 1 || *dayMB > mostMB || a.Day.Events < 1 {
		return problem.Newf(problem.Range, "day-mb", "%d entries of %d MB cannot be what a phone may send in a day", a.Day.Events, *dayMB).
			WithHint("At least 1 of each; at most %d MB.", mostMB)
	}
	a.Day.Bytes = *dayMB * 1e6
	if a.Backups == "" {
		a.Backups = backupFolder(a.DB)
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(serveGC)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := a.Open(); err != nil {
		return err
	}
	fmt.Fprintf(out, "Kerfside %s on %s\nJournal in %s. Stop with Ctrl-C.\n", version, a.URL(), a.DB)
	if a.Plain {
		fmt.Fprintln(out, "Plain HTTP: phones cannot keep the app. It works only while they reach this machine. Whoever is on the same network can read along.")
	}
	if err := a.welcome(out); err != nil {
		a.logger().Error("no invitation for an owner could be made", "err", err)
	}
	select {
	case <-ctx.Done():
		return a.Close()
	case err := <-a.failed:
		closed := a.Close() // best effort: the store has failed already
		if errors.Is(err, store.ErrReplaced) {
			return replaced(a.DB, closed)
		}
		return problem.New(problem.DiskFull, "db", "the database could not be written", "Look at the disk, then start again; phones send what is missing.").WithCause(err)
	case err := <-a.done:
		a.done <- err // Close waits for it as well
		return a.Close()
	}
}

// replaced says that the database was taken from under the server. closed tells
// where what it held is, if it could be kept.
func replaced(db string, closed error) error {
	p := problem.Newf(problem.Refused, "db", "the database %s was removed or replaced while the server ran, so it stopped", db).
		WithHint("Put it back, or bring the newest backup back with kerfside restore; phones bring what came after it.").WithCause(closed)
	var kept *problem.Error
	if errors.As(closed, &kept) && kept.Hint != "" {
		p.Hint = kept.Hint
	}
	return p
}
