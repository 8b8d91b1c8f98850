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

// SlowGroup makes a started program and all its children that many times
// slower, by stopping those that work for most of every slice of time. It returns a
// function that gives them their speed back.
func SlowGroup(c *exec.Cmd, times float64) (end func()) {
	stop, done := make(chan struct{}), make(chan struct{})
	group := newGroup(c.Process.Pid)
	go func() {
		defer close(done)
		turns(times, group, stop)
	}()
	return func() {
		close(stop)
		<-done
	}
}
