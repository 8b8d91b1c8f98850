package lan

import (
	"crypto/ecdsa"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"errors"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kerfside/calc/problem"
)

// clock is a wall clock that tests move.
type clock struct{ at time.Time }

func (c *clock) now() time.Time { return c.at }

func newClock() *clock { return &clock{time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)} }

func mustNames(t *testing.T, hosts ...string) Names {
	t.Helper()
	names, err := ParseNames(hosts)
	if err != nil {
		t.Fatal(err)
	}
	return names
}

func create(t *testing.T, c *clock, hosts ...string) *Authority {
	t.Helper()
	a, err := Create(filepath.Join(t.TempDir(), "lan"), mustNames(t, hosts...), c.now)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// served returns the certificate of a handshake now.
func served(t *testing.T, a *Authority) *x509.Certificate {
	t.Helper()
	if a.OnTrouble == nil {
		a.OnTrouble = func(err error) { t.Error(err) }
	}
	pair, err := a.Get(nil)
	if err != nil {
		t.Fatal(err)
	}
	return pair.Leaf
}

// verify checks a certificate as a phone that has the root does.
func verify(root, leaf *x509.Certificate, host string, at time.Time) error {
	roots := x509.NewCertPool()
	roots.AddCert(root)
	_, err := leaf.Verify(x509.VerifyOptions{Roots: roots, DNSName: host, CurrentTime: at})
	return err
}

func TestLeafVerifies(t *testing.T) {
	for _, hosts := range [][]string{
		{"shop.local"}, {"192.168.1.20"}, {"fd00::20"},
		{"shop.local", "bench.shop.local", "192.168.1.20", "10.0.0.4", "fd00::20"},
	} {
		c := newClock()
		a := create(t, c, hosts...)
		for _, host := range hosts {
			if err := verify(a.Root, served(t, a), host, c.at); err != nil {
				t.Errorf("made for %v: %s: %v", hosts, host, err)
			}
		}
	}
}

// signed returns a certificate for any hosts, signed with the root's key: what
// someone could do who has stolen it.
func signed(t *testing.T, a *Authority, ca bool, hosts ...string) *x509.Certificate {
	t.Helper()
	template := &x509.Certificate{
		SerialNumber: a.Root.SerialNumber, Subject: pkix.Name{CommonName: "stolen"},
		NotBefore: a.now().Add(-time.Hour), NotAfter: a.now().Add(time.Hour),
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid: true, IsCA: ca,
	}
	if ca {
		template.KeyUsage |= x509.KeyUsageCertSign
	}
	for _, host := range hosts {
		if ip := net.ParseIP(host); ip != nil {
			template.IPAddresses = append(template.IPAddresses, ip)
		} else {
			template.DNSNames = append(template.DNSNames, host)
		}
	}
	der, err := x509.CreateCertificate(rand.Reader, template, a.Root, &a.key.PublicKey, a.key)
	if err != nil {
		t.Fatal(err)
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	return leaf
}

func TestConstraints(t *testing.T) {
	both := []string{"shop.local", "192.168.1.20"}
	for _, c := range []struct {
		root, leaf []string
		ok         bool
	}{
		{root: both, leaf: []string{"shop.local"}, ok: true},
		{root: both, leaf: []string{"bench.shop.local"}, ok: true},
		{root: both, leaf: []string{"192.168.1.99"}, ok: true}, // the router's next lease
		{root: both, leaf: []string{"bank.example"}},
		{root: both, leaf: []string{"notshop.local"}},
		{root: both, leaf: []string{"local"}},
		{root: both, leaf: []string{"192.168.2.20"}},
		{root: both, leaf: []string{"198.51.100.9"}},
		{root: both, leaf: []string{"fd00::20"}},
		{root: both, leaf: []string{"shop.local", "bank.example"}},
		{root: []string{"shop.local"}, leaf: []string{"192.168.1.20"}},
		{root: []string{"shop.local"}, leaf: []string{"fd00::20"}},
		{root: []string{"192.168.1.20"}, leaf: []string{"shop.local"}},
		{root: []string{"192.168.1.20"}, leaf: []string{"bank.example"}},
		{root: []string{"fd00::20"}, leaf: []string{"fd00::21"}, ok: true},
		{root: []string{"fd00::20"}, leaf: []string{"fd00:0:0:1::20"}},
		{root: []string{"fd00::20"}, leaf: []string{"192.168.1.20"}},
	} {
		clock := newClock()
		a := create(t, clock, c.root...)
		err := verify(a.Root, signed(t, a, false, c.leaf...), "", clock.at)
		var refused x509.CertificateInvalidError
		if c.ok && err != nil {
			t.Errorf("root for %v, certificate for %v: %v", c.root, c.leaf, err)
		}
		if !c.ok && (!errors.As(err, &refused) || refused.Reason != x509.CANotAuthorizedForThisName) {
			t.Errorf("root for %v, certificate for %v: %v, want it refused by name", c.root, c.leaf, err)
		}
	}
}

// The root signs servers only, and no further authority.
func TestRootIsBound(t *testing.T) {
	c := newClock()
	a := create(t, c, "shop.local")
	if !a.Root.PermittedDNSDomainsCritical || !a.Root.IsCA || a.Root.MaxPathLen != 0 || !a.Root.MaxPathLenZero {
		t.Error("the root's constraints are not critical, or it may sign authorities")
	}
	key, ok := a.Root.PublicKey.(*ecdsa.PublicKey)
	if !ok || key.Curve.Params().Name != "P-256" {
		t.Errorf("the root's key is %T", a.Root.PublicKey)
	}
	below := signed(t, a, true, "shop.local")
	leaf := signed(t, &Authority{Root: below, key: a.key, now: c.now}, false, "shop.local")
	roots, between := x509.NewCertPool(), x509.NewCertPool()
	roots.AddCert(a.Root)
	between.AddCert(below)
	if _, err := leaf.Verify(x509.VerifyOptions{Roots: roots, Intermediates: between, CurrentTime: c.at}); err == nil {
		t.Error("a certificate below an authority below the root was taken")
	}
	mail, err := signed(t, a, false, "shop.local").Verify(x509.VerifyOptions{Roots: roots, CurrentTime: c.at, KeyUsages: []x509.ExtKeyUsage{x509.ExtKeyUsageEmailProtection}})
	if err == nil {
		t.Errorf("good for mail: %v", mail)
	}
}

func TestModes(t *testing.T) {
	a := create(t, newClock(), "shop.local")
	for name, want := range map[string]os.FileMode{"root.key": 0o600, "leaf.pem": 0o600, "root.crt": 0o644, ".": 0o700} {
		info, err := os.Stat(a.path(name))
		if err != nil {
			t.Fatal(err)
		}
		if got := info.Mode().Perm(); got != want {
			t.Errorf("%s has mode %04o, want %04o", name, got, want)
		}
	}
	files, err := os.ReadDir(a.dir)
	if err != nil || len(files) != 3 {
		t.Errorf("the folder holds %v, %v; want three files", files, err)
	}
}

func TestRename(t *testing.T) {
	c := newClock()
	a := create(t, c, "shop.local", "192.168.1.20")
	if err := a.Rename(mustNames(t, "bench.shop.local", "192.168.1.77")); err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(a.Names().Hosts(), " "); got != "bench.shop.local 192.168.1.77" {
		t.Errorf("names = %s", got)
	}
	before := served(t, a)
	for _, host := range []string{"other.local", "192.168.2.20"} {
		if err := a.Rename(mustNames(t, host)); problem.From(err).Kind != problem.Refused {
			t.Errorf("Rename(%s) = %v, want it refused", host, err)
		}
	}
	if !served(t, a).Equal(before) {
		t.Error("a refused name changed the certificate")
	}
}

func TestOpenRefuses(t *testing.T) {
	for _, c := range []struct {
		name  string
		spoil func(a *Authority) error
		kind  problem.Kind
	}{
		{name: "nothing there", spoil: func(a *Authority) error { return os.RemoveAll(a.dir) }, kind: problem.NotFound},
		{name: "key that others read", spoil: func(a *Authority) error { return os.Chmod(a.path("root.key"), 0o640) }, kind: problem.Refused},
		{name: "no key", spoil: func(a *Authority) error { return os.Remove(a.path("root.key")) }, kind: problem.Malformed},
		{name: "key of another root", spoil: func(a *Authority) error {
			other := create(t, newClock(), "shop.local")
			return os.Rename(other.path("root.key"), a.path("root.key"))
		}, kind: problem.Malformed},
		{name: "no PEM", spoil: func(a *Authority) error { return os.WriteFile(a.path("root.crt"), []byte("?"), 0o644) }, kind: problem.Malformed},
	} {
		t.Run(c.name, func(t *testing.T) {
			clock := newClock()
			a := create(t, clock, "shop.local")
			if err := c.spoil(a); err != nil {
				t.Fatal(err)
			}
			_, err := Open(a.dir, clock.now)
			if p := problem.From(err); err == nil || p.Kind != c.kind || p.Hint == "" {
				t.Errorf("Open = %v (%s), want kind %s with a hint", err, p.Kind, c.kind)
			}
		})
	}
}

// Create never replaces a root that phones may have.
func TestCreateKeepsWhatIsThere(t *testing.T) {
	c := newClock()
	a := create(t, c, "shop.local")
	if _, err := Create(a.dir, mustNames(t, "shop.local"), c.now); err == nil {
		t.Error("a second root was made over the first")
	}
	again, err := Open(a.dir, c.now)
	if err != nil || !again.Root.Equal(a.Root) {
		t.Errorf("the first root is gone: %v", err)
	}
}
