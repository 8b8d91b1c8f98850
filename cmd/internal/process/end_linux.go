package process

import (
	"os/exec"
	"syscall"
)

// EndWithUs has the system kill a program that has not started yet when we end,
// however that happens. What it started in turn has to find out by itself.
func EndWithUs(c *exec.Cmd) {
	if c.SysProcAttr == nil {
		c.SysProcAttr = &syscall.SysProcAttr{}
	}
	// It goes by the thread that starts it; Go keeps its threads as long as it runs.
	c.SysProcAttr.Pdeathsig = syscall.SIGKILL
}
