//go:build !unix

package process

import "os/exec"

// OwnGroup does nothing where there are no process groups.
func OwnGroup(*exec.Cmd) {}

// KillGroup ends a started program at once; its children find out themselves.
func KillGroup(c *exec.Cmd) error { return c.Process.Kill() }

// SlowGroup cannot slow a program here; its figures are those of full speed.
func SlowGroup(*exec.Cmd, float64) (end func()) { return func() {} }
