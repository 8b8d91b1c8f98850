package process

import (
	"fmt"
	"math/rand/v2"
	"net"
	"sync"
)

// block is the row of ports that this process alone hands out: it listens on the
// first of them as long as it lives, which keeps every other process off.
var block struct {
	sync.Mutex
	held []net.Listener // the first port of each
	last int            // the port that was given out last
}

const (
	lowest, highest = 20_000, 32_000 // below those that a system gives to whoever asks for any
	blockSize       = 100
)

// OwnPort is a free port of loopback that nobody else who asks here is given, in
// this process or another: it is still free when a program is started on it, or
// one that was closed is opened again.
func OwnPort() int {
	block.Lock()
	defer block.Unlock()
	for {
		if len(block.held) == 0 || (block.last+1)%blockSize == 0 {
			claim()
		}
		block.last++
		if l, err := listenOn(block.last); err == nil {
			l.Close()
			return block.last
		}
	}
}

// claim takes a block that no process has; the one before stays taken.
func claim() {
	for {
		port := lowest + blockSize*rand.IntN((highest-lowest)/blockSize)
		if l, err := listenOn(port); err == nil {
			block.held, block.last = append(block.held, l), port
			return
		}
	}
}

func listenOn(port int) (net.Listener, error) {
	return net.Listen("tcp", fmt.Sprintf("localhost:%d", port))
}
