package process

import (
	"net"
	"strconv"
	"testing"
)

// No two programs are given the same port, although neither listens yet, nor one
// that something listens on or that the system may give to another.
func TestOwnPort(t *testing.T) {
	var taken net.Listener
	for taken == nil { // the next one may be another's
		taken, _ = net.Listen("tcp", net.JoinHostPort("localhost", strconv.Itoa(OwnPort()+1)))
	}
	defer taken.Close()
	given := map[int]bool{taken.Addr().(*net.TCPAddr).Port: true}
	for range 500 {
		port := OwnPort()
		if given[port] {
			t.Fatalf("port %d is taken", port)
		}
		if port >= 32_768 { // where Linux begins to give them
			t.Fatalf("the system may give port %d to another", port)
		}
		given[port] = true
	}
}

// Another process is kept off the ports that this one hands out: it cannot have the
// first of their block.
func TestOwnPortBlock(t *testing.T) {
	for range 2 * blockSize {
		port := OwnPort()
		if l, err := listenOn(port - port%blockSize); err == nil {
			l.Close()
			t.Fatalf("another process may hand out %d too", port)
		}
	}
}
