package main

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/tls"
	"crypto/x509"
	"encoding/asn1"
	"encoding/base64"
	"encoding/json"
	"encoding/pem"
	"errors"
	"fmt"
	"io"
	"math/big"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

// acmeStub is a certificate authority of one order at a time that speaks as
// much of RFC 8555 as a client needs, and checks challenges by asking the app.
// It does not check signatures: that is the client library's own matter.
type acmeStub struct {
	*httptest.Server
	offers string // the one type of challenge that it offers
	app    *App   // where names lead to

	root   *x509.Certificate
	key    *ecdsa.PrivateKey
	thumb  string // of the account's key
	host   string // of the order
	state  string // of the authorization: pending, valid or invalid
	issued []byte
	orders int
	why    error // for an invalid authorization
}

const acmeToken = "tok3n-for-the-challenge-0123456789"

func newAcmeStub(t *testing.T, app *App, offers string) *acmeStub {
	t.Helper()
	ca := &acmeStub{offers: offers, app: app}
	var err error
	if ca.key, err = ecdsa.GenerateKey(elliptic.P256(), rand.Reader); err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{
		SerialNumber: big.NewInt(1), NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(1000 * time.Hour),
		IsCA: true, BasicConstraintsValid: true, KeyUsage: x509.KeyUsageCertSign,
	}
	der, err := x509.CreateCertificate(rand.Reader, template, template, ca.key.Public(), ca.key)
	if err == nil {
		ca.root, err = x509.ParseCertificate(der)
	}
	if err != nil {
		t.Fatal(err)
	}
	ca.Server = httptest.NewServer(http.HandlerFunc(ca.serve))
	t.Cleanup(ca.Close)
	return ca
}

// rootFile writes the stub's root for a phone to trust.
func (ca *acmeStub) rootFile(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "ca.crt")
	if err := os.WriteFile(path, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: ca.root.Raw}), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

type object = map[string]any

// serve answers by path. The client asks one thing after the other.
func (ca *acmeStub) serve(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("Replay-Nonce", rand.Text())
	send := func(status int, v any) {
		w.Header().Set("Content-Type", "application/json")
		w.WriteHeader(status)
		json.NewEncoder(w).Encode(v)
	}
	var signed struct{ Protected, Payload string }
	if r.Method == http.MethodPost {
		if err := json.NewDecoder(r.Body).Decode(&signed); err != nil {
			send(http.StatusBadRequest, object{"detail": err.Error()})
			return
		}
	}
	switch r.URL.Path {
	case "/directory":
		send(http.StatusOK, object{"newNonce": ca.URL + "/nonce", "newAccount": ca.URL + "/account", "newOrder": ca.URL + "/new-order"})
	case "/nonce":
	case "/account":
		ca.thumb = thumbprint(signed.Protected)
		w.Header().Set("Location", ca.URL+"/account")
		send(http.StatusCreated, object{"status": "valid"})
	case "/new-order":
		var order struct{ Identifiers []struct{ Value string } }
		decodePart(signed.Payload, &order)
		ca.host, ca.state, ca.issued = order.Identifiers[0].Value, "pending", nil
		ca.orders++
		w.Header().Set("Location", ca.URL+"/order")
		send(http.StatusCreated, ca.order())
	case "/order":
		send(http.StatusOK, ca.order())
	case "/authz":
		send(http.StatusOK, object{"status": ca.state, "identifier": object{"type": "dns", "value": ca.host}, "challenges": []object{ca.challenge()}})
	case "/challenge":
		if signed.Payload != "" { // it is ready to be asked
			ca.state = "valid"
			if ca.why = ca.check(); ca.why != nil {
				ca.state = "invalid"
			}
		}
		send(http.StatusOK, ca.challenge())
	case "/finalize":
		var ask struct{ CSR string }
		decodePart(signed.Payload, &ask)
		if err := ca.issue(ask.CSR); err != nil {
			send(http.StatusBadRequest, object{"detail": err.Error()})
			return
		}
		w.Header().Set("Location", ca.URL+"/order")
		send(http.StatusOK, ca.order())
	case "/cert":
		w.Write(ca.issued)
	default:
		send(http.StatusNotFound, object{"detail": r.URL.Path})
	}
}

func (ca *acmeStub) order() object {
	o := object{"status": "pending", "authorizations": []string{ca.URL + "/authz"}, "finalize": ca.URL + "/finalize"}
	switch {
	case ca.issued != nil:
		o["status"], o["certificate"] = "valid", ca.URL+"/cert"
	case ca.state == "valid":
		o["status"] = "ready"
	case ca.state == "invalid":
		o["status"] = "invalid"
	}
	return o
}

func (ca *acmeStub) challenge() object {
	return object{"type": ca.offers, "url": ca.URL + "/challenge", "token": acmeToken, "status": ca.state}
}

// check asks the app for the proof that it answers for the name.
func (ca *acmeStub) check() error {
	proof := acmeToken + "." + ca.thumb
	if ca.offers == "http-01" { // RFC 8555, 8.3
		request, err := http.NewRequest("GET", "http://"+ca.app.Redirect+"/.well-known/acme-challenge/"+acmeToken, nil)
		if err != nil {
			return err
		}
		request.Host = ca.host
		reply, err := http.DefaultClient.Do(request)
		if err != nil {
			return err
		}
		defer reply.Body.Close()
		if body, err := io.ReadAll(reply.Body); err != nil || string(body) != proof {
			return fmt.Errorf("http-01 answered %d %q, %w", reply.StatusCode, body, err)
		}
		return nil
	}
	// RFC 8737, 3: the proof's hash stands in a critical extension.
	conn, err := tls.Dial("tcp", ca.app.Addr, &tls.Config{ServerName: ca.host, NextProtos: []string{"acme-tls/1"}, InsecureSkipVerify: true})
	if err != nil {
		return err
	}
	defer conn.Close()
	sum := sha256.Sum256([]byte(proof))
	want, err := asn1.Marshal(sum[:])
	if err != nil {
		return err
	}
	for _, e := range conn.ConnectionState().PeerCertificates[0].Extensions {
		if e.Id.String() == "1.3.6.1.5.5.7.1.31" && e.Critical && slices.Equal(e.Value, want) {
			return nil
		}
	}
	return errors.New("tls-alpn-01 answered without the proof")
}

// issue signs what was asked for, if it is for the name of the order alone.
func (ca *acmeStub) issue(text string) error {
	der, err := base64.RawURLEncoding.DecodeString(text)
	if err != nil {
		return err
	}
	csr, err := x509.ParseCertificateRequest(der)
	if err != nil {
		return err
	}
	if err := csr.CheckSignature(); err != nil || ca.state != "valid" || !slices.Equal(csr.DNSNames, []string{ca.host}) {
		return fmt.Errorf("asked for %v, %w", csr.DNSNames, err)
	}
	leaf, err := x509.CreateCertificate(rand.Reader, &x509.Certificate{
		SerialNumber: big.NewInt(2), DNSNames: csr.DNSNames, NotBefore: time.Now().Add(-time.Hour), NotAfter: time.Now().Add(900 * time.Hour),
		KeyUsage: x509.KeyUsageDigitalSignature, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
	}, ca.root, csr.PublicKey, ca.key)
	ca.issued = pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: leaf})
	return err
}

// thumbprint returns that of the key in a protected header (RFC 7638).
func thumbprint(protected string) string {
	var header struct {
		JWK struct{ Crv, Kty, X, Y string }
	}
	decodePart(protected, &header)
	k := header.JWK
	sum := sha256.Sum256(fmt.Appendf(nil, `{"crv":%q,"kty":%q,"x":%q,"y":%q}`, k.Crv, k.Kty, k.X, k.Y))
	return base64.RawURLEncoding.EncodeToString(sum[:])
}

// decodePart reads one part of a JWS; what cannot be read stays empty and fails
// later.
func decodePart(part string, v any) {
	if text, err := base64.RawURLEncoding.DecodeString(part); err == nil {
		json.Unmarshal(text, v)
	}
}
