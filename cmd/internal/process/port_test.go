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
