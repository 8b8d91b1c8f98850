package lan

import (
	"bytes"
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"fmt"
	"strings"
	"time"

	"kerfside/calc/problem"
)

const (
	// leafLife is the longest that phones take: 398 days by the rules of
	// browsers (CA/Browser Forum ballot SC31), and a day to spare.
	leafLife = 397 * day
	// renewBefore leaves a month in which a server that was off can come back.
	renewBefore = 30 * day
)

// Names returns what the server's certificate is for.
func (a *Authority) Names() Names {
	leaf := a.leaf.Leaf()
	return Names{DNS: leaf.DNSNames, IPs: leaf.IPAddresses}
}

// Ends returns until when the server's certificate is good.
func (a *Authority) Ends() time.Time {
	leaf := a.leaf.Leaf()
	return leaf.NotAfter
}

// Get returns the certificate for a handshake and renews it when it is due; it
// is made for tls.Config. While a renewal fails, the old one goes on, and the
// next try is an hour later.
func (a *Authority) Get(hello *tls.ClientHelloInfo) (*tls.Certificate, error) {
	if err := a.renewAgain(); err != nil && a.OnTrouble != nil {
		a.OnTrouble(err)
	}
	return a.leaf.Get(hello)
}

// renewAgain is Renew, at most once an hour.
func (a *Authority) renewAgain() error {
	a.renewing.Lock()
	defer a.renewing.Unlock()
	if a.now().Sub(a.tried) < time.Hour {
		return nil
	}
	return a.renew()
}

// Renew issues a new certificate for the same names if the present one has less
// than 30 days left, unless it already lasts as long as the root.
func (a *Authority) Renew() error {
	a.renewing.Lock()
	defer a.renewing.Unlock()
	return a.renew()
}

func (a *Authority) renew() error {
	a.tried = a.now()
	ends := a.Ends()
	if ends.Sub(a.tried) >= renewBefore || !ends.Before(a.Root.NotAfter) {
		return nil
	}
	return a.reissue(a.Names())
}

// Rename issues a certificate for other names, which the root must permit.
func (a *Authority) Rename(names Names) error {
	a.renewing.Lock()
	defer a.renewing.Unlock()
	return a.reissue(names)
}

// reissue writes a new certificate and takes it up.
func (a *Authority) reissue(names Names) error {
	if err := a.issue(names); err != nil {
		return err
	}
	_, err := a.leaf.Get(nil)
	return err
}

// issue signs a certificate and writes it with its key.
func (a *Authority) issue(names Names) error {
	serial, err := newSerial()
	if err != nil {
		return err
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return err
	}
	from := a.now().Add(-early)
	until := from.Add(leafLife)
	if until.After(a.Root.NotAfter) {
		until = a.Root.NotAfter
	}
	template := &x509.Certificate{
		SerialNumber:          serial,
		Subject:               pkix.Name{CommonName: names.Hosts()[0]},
		NotBefore:             from,
		NotAfter:              until,
		KeyUsage:              x509.KeyUsageDigitalSignature,
		ExtKeyUsage:           []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		BasicConstraintsValid: true,
		DNSNames:              names.DNS,
		IPAddresses:           names.IPs,
	}
	der, err := x509.CreateCertificate(rand.Reader, template, a.Root, key.Public(), a.key)
	if err != nil {
		return fmt.Errorf("sign the certificate: %w", err)
	}
	if err := a.permits(der); err != nil {
		return problem.Newf(problem.Refused, "host", "the root that phones have installed does not cover %s", strings.Join(names.Hosts(), ", ")).
			WithHint("Keep to names and networks it was made for. Or rename its folder, run kerfside lan again, and install the new root on every phone.").WithCause(err)
	}
	secret, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return err
	}
	return writeFile(a.path("leaf.pem"), bytes.Join([][]byte{block("CERTIFICATE", der), block("PRIVATE KEY", secret)}, nil), 0o600)
}

// permits checks a new certificate as a phone will.
func (a *Authority) permits(der []byte) error {
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		return err
	}
	roots := x509.NewCertPool()
	roots.AddCert(a.Root)
	_, err = leaf.Verify(x509.VerifyOptions{Roots: roots, CurrentTime: a.now()})
	return err
}
