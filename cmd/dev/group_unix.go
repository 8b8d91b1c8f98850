//go:build unix

package main

import "syscall"

// ownGroup makes a child process lead a group of its own.
func ownGroup() *syscall.SysProcAttr { return &syscall.SysProcAttr{Setpgid: true} }
