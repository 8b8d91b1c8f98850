package browser

import (
	"fmt"
	"os/exec"

	"kerfside/cmd/internal/process"
)

// program is one that has been started in a group of its own.
type program struct {
	cmd   *exec.Cmd
	ended chan struct{} // closed when it has
}

// start starts a program, which Kill ends with the others.
func (b *Browser) start(cmd *exec.Cmd) (*program, error) {
	process.OwnGroup(cmd)
	process.EndWithUs(cmd)
	cmd.Env = append(cmd.Environ(), "TMPDIR="+b.temp)
	if err := cmd.Start(); err != nil {
		return nil, fmt.Errorf("start %s: %w", cmd.Path, err)
	}
	p := &program{cmd, make(chan struct{})}
	b.programs = append(b.programs, p)
	go func() {
		cmd.Wait()
		close(p.ended)
	}()
	return p, nil
}

// kill ends the program and all that it started, and returns when it is gone.
func (p *program) kill() {
	select {
	case <-p.ended: // its number may belong to another by now
	default:
		process.KillGroup(p.cmd)
		<-p.ended
	}
}
