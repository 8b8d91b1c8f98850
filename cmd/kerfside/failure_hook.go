package main

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"strings"
	"time"

	"kerfside/calc/problem"
)

// failureHook is a command that is run when the nightly backup fails. The program
// and its words are parted at blanks; no shell reads them.
type failureHook []string

// hookTime is how long it may take. What it has started and left behind gets
// hookGrace more to let go of its output.
const (
	hookTime  = time.Minute
	hookGrace = 5 * time.Second
)

// maxHookOutput is how much of its output is logged, in bytes.
const maxHookOutput = 1000

// readFailureHook refuses a command that is not there.
func readFailureHook(line string) (failureHook, error) {
	words := strings.Fields(line)
	if len(words) == 0 {
		return nil, problem.New(problem.Malformed, "on-backup-failure", "no command is named", "Write the path of a program, like -on-backup-failure /usr/local/bin/tell-me.")
	}
	path, err := exec.LookPath(words[0])
	if err != nil {
		return nil, problem.Newf(problem.NotFound, "on-backup-failure", "the command %s cannot be run", words[0]).
			WithHint("Name a program that this user may run. Quotes and pipes mean nothing here: put them into a script.").WithCause(err)
	}
	words[0] = path
	return words, nil
}

// run runs it, with what failed in its environment: KERFSIDE_REASON says why, in
// one line, KERFSIDE_DB is the database and KERFSIDE_BACKUPS the folder. Its error
// ends with what the command printed.
func (h failureHook) run(ctx context.Context, db, dir string, failure error) error {
	ctx, cancel := context.WithTimeout(ctx, hookTime)
	defer cancel()
	c := exec.CommandContext(ctx, h[0], h[1:]...)
	c.WaitDelay = hookGrace
	c.Env = append(os.Environ(), "KERFSIDE_REASON="+reason(failure), "KERFSIDE_DB="+db, "KERFSIDE_BACKUPS="+dir)
	out, err := c.CombinedOutput()
	if err == nil {
		return nil
	}
	if ctx.Err() != nil {
		err = errors.Join(err, context.Cause(ctx))
	}
	return problem.Newf(problem.Internal, "", "%s failed: %s", h[0], strings.TrimSpace(string(out[:min(len(out), maxHookOutput)]))).WithCause(err)
}

// reason says in one line why a backup failed.
func reason(err error) string {
	p := problem.From(err)
	said := p.Msg
	if cause := p.Unwrap(); cause != nil {
		said += ": " + cause.Error()
	}
	return strings.Join(strings.Fields(said), " ")
}
