// Package cert serves a TLS certificate from files and takes it up again when
// they change, so that whatever renews them need not stop the server.
package cert

import (
	"crypto/tls"
	"crypto/x509"
	"os"
	"sync"

	"kerfside/calc/problem"
)

// Files is a certificate with its key, in two PEM files or both in one.
type Files struct {
	OnTrouble func(error) // told once when files have changed to something unfit; may be nil

	cert, key string

	mu      sync.Mutex
	current *tls.Certificate
	seen    [2]os.FileInfo // of cert and key when they were last read; nil if not there
}

// Open reads the files and refuses what cannot be served.
func Open(cert, key string) (*Files, error) {
	f := &Files{cert: cert, key: key}
	if err := f.refresh(); err != nil {
		return nil, err
	}
	return f, nil
}

// Get returns the certificate for a handshake; it is made for tls.Config. If
// the files have changed to something unfit, the old one goes on.
func (f *Files) Get(*tls.ClientHelloInfo) (*tls.Certificate, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if err := f.refresh(); err != nil && f.OnTrouble != nil {
		f.OnTrouble(err)
	}
	return f.current, nil
}

// Leaf returns the certificate as of the last handshake.
func (f *Files) Leaf() *x509.Certificate {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.current.Leaf
}

// Missing returns those of the names and addresses that the certificate is not
// for.
func (f *Files) Missing(hosts []string) (missing []string) {
	leaf := f.Leaf()
	for _, host := range hosts {
		if leaf.VerifyHostname(host) != nil {
			missing = append(missing, host)
		}
	}
	return missing
}

// refresh reads the files if they have changed since they were last read. A
// pair that is half written does not match, and is read again once the other
// half has changed too.
func (f *Files) refresh() error {
	changed := false
	for i, path := range []string{f.cert, f.key} {
		info, _ := os.Stat(path) // reading it says what is wrong
		changed = changed || !same(info, f.seen[i])
		f.seen[i] = info
	}
	if !changed && f.current != nil {
		return nil
	}
	certificate, err := os.ReadFile(f.cert)
	if err != nil {
		return unreadable(f.cert, err)
	}
	key, err := os.ReadFile(f.key)
	if err != nil {
		return unreadable(f.key, err)
	}
	pair, err := tls.X509KeyPair(certificate, key)
	if err != nil {
		return problem.Newf(problem.Malformed, "cert", "%s and %s are not a certificate and its key", f.cert, f.key).
			WithHint("Give -cert the PEM file with the certificate and those above it. Give -key the PEM file with its key.").WithCause(err)
	}
	f.current = &pair
	return nil
}

// same reports whether a file is the one that was seen, unchanged. Its number
// counts as well: two certificates can be as long and of the same moment.
func same(a, b os.FileInfo) bool {
	if a == nil || b == nil {
		return a == nil && b == nil
	}
	return os.SameFile(a, b) && a.ModTime().Equal(b.ModTime()) && a.Size() == b.Size()
}

func unreadable(path string, err error) error {
	return problem.Newf(problem.NotFound, "cert", "cannot read %s", path).
		WithHint("Give -cert and -key the files of certificate and key. The user who runs this must be able to read them.").WithCause(err)
}
