package main

import (
	"cmp"
	"errors"
	"io/fs"
	"net"
	"os"
	"strings"
	"syscall"

	"kerfside/calc/problem"
)

// socketMark begins an address that is the path of a Unix socket.
const socketMark = "unix:"

func onSocket(addr string) bool { return strings.HasPrefix(addr, socketMark) }

func socketPath(addr string) string { return strings.TrimPrefix(addr, socketMark) }

// maxSocketPath is the longest path of a socket in bytes: sun_path of Linux has
// room for 108 with the zero at its end, and macOS for 104 (unix(7), unix(4)).
const maxSocketPath = 103

// checkSocket refuses what cannot be the path of a socket whose rights say who
// may use it. A name that begins with @ has no rights.
func checkSocket(path string) error {
	switch {
	case path == "" || path[0] == '@' || strings.ContainsRune(path, 0):
		return problem.Newf(problem.Malformed, "addr", "%q is no path of a Unix socket", path).WithHint("Write something like -addr unix:/run/kerfside/kerfside.sock.")
	case len(path) > maxSocketPath:
		return problem.Newf(problem.TooLarge, "addr", "the path of a Unix socket has at most %d bytes, and this one has %d", maxSocketPath, len(path)).
			WithHint("Choose a shorter one, like -addr unix:/run/kerfside/kerfside.sock.")
	}
	return nil
}

// socket is a listener on a Unix socket that takes its file along when it ends.
type socket struct {
	*net.UnixListener
	path string
	file fs.FileInfo
}

// listenSocket listens on a Unix socket with these rights, 0660 if mode is 0. A
// file that an earlier run left there goes, if it is a socket and nobody listens.
func listenSocket(path string, mode fs.FileMode) (net.Listener, error) {
	if err := removeStale(path); err != nil {
		return nil, err
	}
	l, err := net.ListenUnix("unix", &net.UnixAddr{Name: path, Net: "unix"})
	if err != nil {
		return nil, socketTrouble(path, err)
	}
	l.SetUnlinkOnClose(false) // it would take whatever lies there by then
	s := &socket{UnixListener: l, path: path}
	if err = os.Chmod(path, cmp.Or(mode, 0o660)); err == nil {
		s.file, err = os.Lstat(path)
	}
	if err != nil {
		return nil, socketTrouble(path, errors.Join(err, l.Close(), os.Remove(path)))
	}
	return s, nil
}

// Close ends the listening and removes the file, unless another has taken its place.
func (s *socket) Close() error {
	if is, err := os.Lstat(s.path); err == nil && os.SameFile(is, s.file) {
		os.Remove(s.path) // what stays there is taken away by the next start
	}
	return s.UnixListener.Close()
}

// removeStale makes room at path.
func removeStale(path string) error {
	info, err := os.Lstat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return socketTrouble(path, err)
	}
	if info.Mode().Type() != fs.ModeSocket {
		return problem.Newf(problem.Conflict, "addr", "%s is there already and is no socket", path).WithHint("Move it away, or choose another path for -addr.")
	}
	c, err := net.Dial("unix", path)
	switch {
	case err == nil:
		c.Close()
		return problem.Newf(problem.Busy, "addr", "another program listens on %s, perhaps a kerfside that runs already", path).WithHint("Stop that one, or choose another path for -addr.")
	case errors.Is(err, syscall.ECONNREFUSED):
		if err := os.Remove(path); err != nil {
			return socketTrouble(path, err)
		}
		return nil
	}
	return socketTrouble(path, err)
}

// socketTrouble says why nothing can be served at a path.
func socketTrouble(path string, err error) error {
	p := problem.Newf(problem.Busy, "addr", "cannot listen on the Unix socket %s", path).WithHint("Choose another path with -addr.")
	switch {
	case errors.Is(err, fs.ErrPermission):
		p = problem.Newf(problem.Refused, "addr", "this user may not make the Unix socket %s", path).WithHint("Give this user the folder, or choose another path with -addr.")
	case errors.Is(err, fs.ErrNotExist):
		p = problem.Newf(problem.NotFound, "addr", "there is no folder for the Unix socket %s", path).WithHint("Make the folder first, or choose another path with -addr.")
	}
	return p.WithCause(err)
}
