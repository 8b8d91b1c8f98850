//go:build unix

package process

import (
	"os/exec"
	"syscall"
)

// OwnGroup makes a program that has not started yet lead a group of its own.
func OwnGroup(c *exec.Cmd) { c.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} }

// KillGroup ends a started program and all its children at once, without a
// chance to tidy up.
func KillGroup(c *exec.Cmd) error { return syscall.Kill(-c.Process.Pid, syscall.SIGKILL) }
