package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"runtime/debug"
	"slices"
	"syscall"

	"kerfside/calc/problem"
	"kerfside/cmd/internal/command"
	"kerfside/server"
	"kerfside/server/store"
)

// serveGC is how much garbage may grow beside what is in use, in percent, before
// it is collected. Half of Go's default keeps a busy server of a million entries
// within 64 MB, for a few hundredths of its speed; GOGC overrides it.
const serveGC = 50

// mostMB is more room than any disk has, in MB, and still counts in bytes.
const mostMB = 1_000_000_000

var serveCommand = command.Command{
	Name: "serve", About: "serve the phone app and its journal, until it is told to stop",
	Declare: func(flags *flag.FlagSet) command.Action { return declareServe(flags).run },
	Examples: []command.Example{
		{Line: "kerfside serve", Does: "for this machine alone, at http://localhost:8480"},
		{Line: "kerfside serve -lan", Does: "for the shop's network, after kerfside lan"},
		{Line: "kerfside serve -acme -host kerfside.example.com", Does: "for a public name, with its certificate fetched"},
		{Line: "kerfside serve -behind-proxy -host kerfside.example.com", Does: "behind a proxy that does https"},
		{Line: "kerfside serve -behind-proxy -host kerfside.example.com -addr :8480 -trusted-proxy 10.88.0.0/16", Does: "the same, with the proxy in another container"},
		{Line: "kerfside serve -demo", Does: "with the invented crew, to look at; nothing is kept"},
		{Line: "kerfside serve -metrics localhost:9480", Does: "with figures for Prometheus and /healthz"},
	},
}

// serveRun is what stands on the command line of "kerfside serve".
type serveRun struct {
	App
	photos, dayMB int64  // in MB
	onFailure     string // the command, in one line
	reach         *reachWords
	given         func(visit func(*flag.Flag)) // what stands on the command line
}

// declareServe declares its flags.
func declareServe(flags *flag.FlagSet) *serveRun {
	a := &serveRun{given: flags.Visit}
	flags.StringVar(&a.Addr, "addr", "", "`address` to listen on, or unix:PATH behind a proxy (default localhost:8480; with -lan :8443, with -cert and -acme :443)")
	dbFlag(flags, &a.DB, "")
	flags.BoolVar(&a.Dev, "dev", false, "read pwa/ and guides/ from the working folder for each page")
	flags.BoolVar(&a.Demo, "demo", false, "show the invented crew of kerfside demo to whoever opens the address; it lies in a folder of its own that is removed at the end; "+
		"the address has another port each time, for a browser keeps what it saw under one")
	flags.Int64Var(&a.photos, "photos", 2000, "room for a crew's pictures, in MB; they lie beside the database")
	flags.Int64Var(&a.Day.Events, "day-entries", 20_000, "entries that one phone may send in a day; what is more waits on it")
	flags.Int64Var(&a.dayMB, "day-mb", 200, "size of what one phone may send in a day, in MB, with its pictures")
	flags.StringVar(&a.Backups, "backups", "", "`folder` for a backup each night, best on another disk (default: beside the database, DB.backups)")
	flags.StringVar(&a.onFailure, "on-backup-failure", "", "`command` to run when the nightly backup fails; KERFSIDE_REASON says why")
	flags.StringVar(&a.Watch, "metrics", "", "`address` where /metrics and /healthz are told in plain HTTP, like localhost:9480 (default nowhere)")
	flags.BoolVar(&a.BeginAnew, "begin-anew", false, "begin an empty journal although pictures, backups or other remains of one lie where its database is missing")
	a.reach = reachFlags(flags, &a.Reach)
	return a
}

// settle fills in what follows from the flags, and refuses what cannot be.
func (a *serveRun) settle() error {
	if a.Demo {
		if err := a.checkDemo(); err != nil {
			return err
		}
		if a.Addr == "" && a.reach.plain == "" {
			a.Addr = "localhost:0"
		}
	}
	if err := a.reach.settle(&a.Addr); err != nil {
		return err
	}
	if a.photos < 1 || a.photos > mostMB {
		return problem.Newf(problem.Range, "photos", "%d MB cannot be the room for pictures", a.photos).WithHint("From 1 to %d; a picture takes up to 0.4 MB.", mostMB)
	}
	a.PhotoQuota = a.photos * 1e6
	if a.dayMB < 1 || a.dayMB > mostMB || a.Day.Events < 1 {
		return problem.Newf(problem.Range, "day-mb", "%d entries of %d MB cannot be what a phone may send in a day", a.Day.Events, a.dayMB).
			WithHint("At least 1 of each; at most %d MB.", mostMB)
	}
	a.Day.Bytes = a.dayMB * 1e6
	if a.onFailure != "" {
		var err error
		if a.OnFailure, err = readFailureHook(a.onFailure); err != nil {
			return err
		}
	}
	if a.Backups == "" && !a.Demo {
		a.Backups = backupFolder(a.DB)
	}
	return nil
}

// checkDemo refuses what would mix invented data with real, or show them under a name
// that phones know as their crew's.
func (a *serveRun) checkDemo() error {
	var err error
	a.given(func(f *flag.Flag) {
		switch {
		case err != nil:
		case slices.Contains([]string{"db", "backups", "on-backup-failure", "begin-anew"}, f.Name):
			err = problem.Newf(problem.Conflict, f.Name, "-demo keeps nothing, so -%s is not for it", f.Name).
				WithHint("Leave it out. kerfside demo -db FILE makes the invented crew in a file that stays.")
		case slices.Contains([]string{"cert", "key", "acme", "behind-proxy", "lan", "redirect"}, f.Name):
			err = problem.Newf(problem.Conflict, f.Name, "-demo is not shown under a name of a real server, so -%s is not for it", f.Name).
				WithHint("Leave it out: -demo is for this machine, or with -plain-http and -host for a network that you trust.")
		}
	})
	return err
}

// run runs "kerfside serve" until it is told to stop.
func (a *serveRun) run(_ []string, out io.Writer) error {
	if err := a.settle(); err != nil {
		return err
	}
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(serveGC)
	}
	if a.Demo {
		dir, err := os.MkdirTemp("", "kerfside-demo-")
		if err != nil {
			return err
		}
		defer os.RemoveAll(dir)
		a.DB = filepath.Join(dir, "kerfside.db")
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := a.Open(); err != nil {
		return err
	}
	kept := "Journal in " + a.DB + "."
	if a.Demo {
		kept = server.Invented + " Whoever opens the address is in the crew of " + demoName + " at once. All that is entered is gone at the end."
	}
	fmt.Fprintf(out, "Kerfside %s on %s\n%s Stop with Ctrl-C.\n", thisBuild().Short(), a.URL(), kept)
	if a.Plain {
		fmt.Fprintln(out, "Plain HTTP: phones cannot keep the app. It works only while they reach this machine. Whoever is on the same network can read along.")
	}
	if !a.Demo {
		if err := a.welcome(out); err != nil {
			a.logger().Error("no invitation for an owner could be made", "err", err)
		}
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
