package process

import (
	"fmt"
	"math/rand/v2"
	"net"
	"sync/atomic"
)

// lastPort is the port that was given out last.
var lastPort atomic.Int32

// OwnPort is a free port of loopback that nobody else of this process is given,
// below those that a system gives to whoever asks for any: it is still free when a
// program is started on it, or one that was closed is opened again.
func OwnPort() int {
	const first, last = 20_000, 32_000
	lastPort.CompareAndSwap(0, int32(first+rand.IntN(last-first)))
	for {
		port := first + int(lastPort.Add(1))%(last-first)
		if l, err := net.Listen("tcp", fmt.Sprintf("localhost:%d", port)); err == nil {
			l.Close()
			return port
		}
	}
}
