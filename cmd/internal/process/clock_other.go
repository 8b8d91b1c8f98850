//go:build unix && !linux

package process

import (
	"syscall"
	"time"
)

// group is a group of processes.
type group struct{ id int }

func newGroup(id int) *group { return &group{id} }

func (g *group) pause()  { syscall.Kill(-g.id, syscall.SIGSTOP) }
func (g *group) resume() { syscall.Kill(-g.id, syscall.SIGCONT) }

func (*group) used() (d, lost time.Duration, known bool) { return 0, 0, false }
