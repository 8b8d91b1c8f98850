package cert

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"encoding/pem"
	"math/big"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"kerfside/calc/problem"
)

// write makes a certificate for these names and writes it and its key.
func write(t *testing.T, dir string, serial int64, names ...string) (certPEM, keyPEM []byte) {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{SerialNumber: big.NewInt(serial), DNSNames: names, NotAfter: time.Now().Add(time.Hour)}
	der, err := x509.CreateCertificate(rand.Reader, template, template, key.Public(), key)
	if err != nil {
		t.Fatal(err)
	}
	secret, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		t.Fatal(err)
	}
	certPEM = pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der})
	keyPEM = pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: secret})
	put(t, filepath.Join(dir, "cert.pem"), certPEM)
	put(t, filepath.Join(dir, "key.pem"), keyPEM)
	return certPEM, keyPEM
}

// put replaces a file as programs that renew certificates do.
func put(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path+".new", data, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(path+".new", path); err != nil {
		t.Fatal(err)
	}
}

func serial(t *testing.T, f *Files) int64 {
	t.Helper()
	pair, err := f.Get(nil)
	if err != nil {
		t.Fatal(err)
	}
	return pair.Leaf.SerialNumber.Int64()
}

func open(t *testing.T, dir string) *Files {
	t.Helper()
	f, err := Open(filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem"))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestReload(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, 1, "shop.example")
	f := open(t, dir)
	var troubles []error
	f.OnTrouble = func(err error) { troubles = append(troubles, err) }
	if got := serial(t, f); got != 1 {
		t.Errorf("serial = %d, want 1", got)
	}
	write(t, dir, 2, "shop.example")
	if got := serial(t, f); got != 2 || len(troubles) != 0 {
		t.Errorf("after a renewal serial = %d with %v, want 2", got, troubles)
	}
}

// Halfway through a renewal the files do not match; the old pair goes on.
func TestReloadHalfWritten(t *testing.T) {
	dir := t.TempDir()
	oldCert, oldKey := write(t, dir, 1, "shop.example")
	f := open(t, dir)
	var troubles []error
	f.OnTrouble = func(err error) { troubles = append(troubles, err) }
	newCert, newKey := write(t, dir, 2, "shop.example")
	put(t, filepath.Join(dir, "cert.pem"), oldCert)
	put(t, filepath.Join(dir, "key.pem"), oldKey)
	serial(t, f)

	put(t, filepath.Join(dir, "cert.pem"), newCert)
	for range 3 {
		if got := serial(t, f); got != 1 {
			t.Errorf("with half of the new pair serial = %d, want 1", got)
		}
	}
	if len(troubles) != 1 {
		t.Errorf("told %v, want it once", troubles)
	}
	put(t, filepath.Join(dir, "key.pem"), newKey)
	if got := serial(t, f); got != 2 {
		t.Errorf("with the whole new pair serial = %d, want 2", got)
	}
	if err := os.Remove(filepath.Join(dir, "key.pem")); err != nil {
		t.Fatal(err)
	}
	if got := serial(t, f); got != 2 || len(troubles) != 2 {
		t.Errorf("with the key gone serial = %d with %v, want 2 and a second trouble", got, troubles)
	}
}

func TestMissing(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, 1, "shop.example", "*.crew.example")
	got := open(t, dir).Missing([]string{"shop.example", "a.crew.example", "other.example", "192.168.1.20"})
	if want := []string{"other.example", "192.168.1.20"}; !slices.Equal(got, want) {
		t.Errorf("Missing = %v, want %v", got, want)
	}
}

func TestOpenRefuses(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, 1, "shop.example")
	good, key := filepath.Join(dir, "cert.pem"), filepath.Join(dir, "key.pem")
	for _, c := range []struct {
		name, cert, key string
		kind            problem.Kind
	}{
		{name: "no certificate", cert: filepath.Join(dir, "none"), key: key, kind: problem.NotFound},
		{name: "no key", cert: good, key: filepath.Join(dir, "none"), kind: problem.NotFound},
		{name: "the wrong way round", cert: key, key: good, kind: problem.Malformed},
	} {
		_, err := Open(c.cert, c.key)
		if p := problem.From(err); err == nil || p.Kind != c.kind || p.Hint == "" {
			t.Errorf("%s: %v, want kind %s with a hint", c.name, err, c.kind)
		}
	}
}
