//go:build !linux

package process

import "os/exec"

// EndWithUs does nothing where the system has no such thing: a program then
// outlives us if we are killed.
func EndWithUs(*exec.Cmd) {}
