// Package lan makes the certificates of a shop network that has no public name:
// a root that each phone installs once, and the server's own certificate below
// it, which is renewed without the phones noticing. It also serves the page
// from which phones install the root.
//
// A folder holds three files:
//
//	root.crt   the root, PEM; what phones install
//	root.key   its key, PEM, mode 0600; it never leaves the folder
//	leaf.pem   the server's certificate and key, PEM, mode 0600
//
// A root on a phone could vouch for any site, so this one is bound by critical
// name constraints (RFC 5280, 4.2.1.10) to the shop's names and private address
// ranges, to servers, and to signing no further authority: even if its key is
// stolen, it opens nothing but the shop.
package lan

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/cert"
)

const (
	day = 24 * time.Hour
	// rootLife is long, since a new root means that every phone installs again,
	// and short enough that a forgotten one dies.
	rootLife = 5 * 365 * day
	// early lets phones in whose clocks are behind.
	early = day
)

// Authority is the root of one shop network with the server's certificate.
type Authority struct {
	Root      *x509.Certificate
	OnTrouble func(error) // told when a renewal fails at a handshake; may be nil

	dir  string
	key  *ecdsa.PrivateKey
	now  func() time.Time
	leaf *cert.Files

	renewing sync.Mutex
	tried    time.Time // the last time that a renewal was thought of
}

// Create makes a root for these names and a first certificate, in a folder that
// must not be there yet. It appears whole or not at all.
func Create(dir string, names Names, now func() time.Time) (*Authority, error) {
	if len(names.Hosts()) == 0 {
		return nil, problem.New(problem.Missing, "host", "a certificate needs the name or the address that phones will call this machine by",
			"Write something like: kerfside lan -host shop.local -host 192.168.1.20")
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	made, err := os.MkdirTemp(filepath.Dir(dir), ".lan-")
	if err != nil {
		return nil, cannotWrite(dir, err)
	}
	defer os.RemoveAll(made)
	a := &Authority{dir: made, key: key, now: now}
	if err := a.makeRoot(names); err != nil {
		return nil, err
	}
	if err := a.issue(names); err != nil {
		return nil, err
	}
	if err := os.Rename(made, dir); err != nil {
		return nil, cannotWrite(dir, err)
	}
	return Open(dir, now)
}

// makeRoot signs the root and writes it with its key.
func (a *Authority) makeRoot(names Names) error {
	serial, err := newSerial()
	if err != nil {
		return err
	}
	now := a.now()
	template := &x509.Certificate{
		SerialNumber:                serial,
		Subject:                     pkix.Name{CommonName: "Kerfside root for " + names.Hosts()[0], Organization: []string{"Kerfside, this shop only"}},
		NotBefore:                   now.Add(-early),
		NotAfter:                    now.Add(rootLife),
		KeyUsage:                    x509.KeyUsageCertSign | x509.KeyUsageCRLSign,
		ExtKeyUsage:                 []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid:       true,
		IsCA:                        true,
		MaxPathLenZero:              true,
		PermittedDNSDomainsCritical: true,
		PermittedDNSDomains:         names.DNS,
		PermittedIPRanges:           names.ranges(),
		ExcludedIPRanges:            names.excluded(),
	}
	if len(names.DNS) == 0 {
		template.ExcludedDNSDomains = []string{""} // all of them
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, a.key.Public(), a.key)
	if err != nil {
		return fmt.Errorf("sign the root: %w", err)
	}
	if a.Root, err = x509.ParseCertificate(der); err != nil {
		return err
	}
	secret, err := x509.MarshalPKCS8PrivateKey(a.key)
	if err != nil {
		return err
	}
	if err := writeFile(a.path("root.key"), block("PRIVATE KEY", secret), 0o600); err != nil {
		return err
	}
	return writeFile(a.path("root.crt"), block("CERTIFICATE", der), 0o644)
}

// Open reads a folder that Create made.
func Open(dir string, now func() time.Time) (*Authority, error) {
	a := &Authority{dir: dir, now: now}
	if _, err := os.Stat(a.path("root.crt")); os.IsNotExist(err) {
		return nil, problem.Newf(problem.NotFound, "lan", "there is no certificate for the shop network in %s", dir).
			WithHint("Make one first: kerfside lan -host shop.local -host 192.168.1.20, with the same -db.")
	}
	if err := private(a.path("root.key")); err != nil {
		return nil, err
	}
	der, err := readBlock(a.path("root.crt"))
	if err != nil {
		return nil, err
	}
	if a.Root, err = x509.ParseCertificate(der); err != nil {
		return nil, spoilt(a.path("root.crt"), err)
	}
	secret, err := readBlock(a.path("root.key"))
	if err != nil {
		return nil, err
	}
	key, err := x509.ParsePKCS8PrivateKey(secret)
	if err != nil {
		return nil, spoilt(a.path("root.key"), err)
	}
	own, ok := key.(*ecdsa.PrivateKey)
	if !ok || !own.PublicKey.Equal(a.Root.PublicKey) {
		return nil, spoilt(a.path("root.key"), fmt.Errorf("it is not the key of root.crt"))
	}
	a.key = own
	if !now().Before(a.Root.NotAfter) {
		return nil, problem.Newf(problem.Refused, "lan", "the root in %s has ended on %s", dir, a.Root.NotAfter.Format(time.DateOnly)).
			WithHint("Rename that folder, run kerfside lan again, and install the new root on every phone.")
	}
	if a.leaf, err = cert.Open(a.path("leaf.pem"), a.path("leaf.pem")); err != nil {
		return nil, err
	}
	return a, nil
}

// Fingerprint returns the SHA-256 of the root as phones show it, in four lines
// of eight bytes.
func (a *Authority) Fingerprint() []string {
	sum := sha256.Sum256(a.Root.Raw)
	lines := make([]string, 4)
	for i := range lines {
		lines[i] = fmt.Sprintf("% X", sum[8*i:8*i+8])
	}
	return lines
}

func (a *Authority) path(name string) string { return filepath.Join(a.dir, name) }

// newSerial returns 127 random bits, which no two certificates share.
func newSerial() (*big.Int, error) {
	return rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), 127))
}

// private refuses a key that other users of the machine can read. Windows
// keeps no such modes.
func private(path string) error {
	info, err := os.Stat(path)
	if err != nil {
		return spoilt(path, err)
	}
	if mode := info.Mode().Perm(); mode&0o077 != 0 && runtime.GOOS != "windows" {
		return problem.Newf(problem.Refused, "lan", "%s has mode %04o: others on this machine can read the key", path, mode).
			WithHint("If nobody has, run: chmod 600 %s. Otherwise rename the folder, run kerfside lan again, and install the new root on every phone.", path)
	}
	return nil
}

func block(kind string, der []byte) []byte {
	return pem.EncodeToMemory(&pem.Block{Type: kind, Bytes: der})
}

func readBlock(path string) ([]byte, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, spoilt(path, err)
	}
	b, _ := pem.Decode(text)
	if b == nil {
		return nil, spoilt(path, fmt.Errorf("it holds no PEM block"))
	}
	return b.Bytes, nil
}

// writeFile replaces a file in one step, on the disk before it is named.
func writeFile(path string, data []byte, mode os.FileMode) error {
	f, err := os.CreateTemp(filepath.Dir(path), "."+strings.TrimPrefix(filepath.Base(path), "."))
	if err != nil {
		return cannotWrite(path, err)
	}
	defer os.Remove(f.Name()) // gone already if all went well
	_, err = f.Write(data)
	for _, step := range []func() error{func() error { return f.Chmod(mode) }, f.Sync} {
		if err == nil {
			err = step()
		}
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		return cannotWrite(path, err)
	}
	return nil
}

func cannotWrite(path string, err error) error {
	return problem.Newf(problem.DiskFull, "lan", "cannot write %s", path).
		WithHint("See that the folder is there and that this user may write in it.").WithCause(err)
}

func spoilt(path string, err error) error {
	return problem.Newf(problem.Malformed, "lan", "%s cannot be used", path).
		WithHint("Put the folder back from a backup; or rename it, run kerfside lan again, and install the new root on every phone.").WithCause(err)
}
