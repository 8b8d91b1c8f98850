package lan

import (
	"crypto/ecdsa"
	"crypto/x509"
	"os"
	"testing"
	"time"

	"kerfside/calc/problem"
)

func TestRenewal(t *testing.T) {
	c := newClock()
	a := create(t, c, "shop.local", "192.168.1.20")
	first := served(t, a)
	if life := first.NotAfter.Sub(first.NotBefore); life > 397*day {
		t.Errorf("the certificate lives %v, more than 397 days", life)
	}
	c.at = first.NotAfter.Add(-30 * day)
	if !served(t, a).Equal(first) {
		t.Error("renewed with 30 days left")
	}
	c.at = c.at.Add(time.Hour)
	second := served(t, a)
	if second.Equal(first) || second.PublicKey.(*ecdsa.PublicKey).Equal(first.PublicKey) {
		t.Error("not renewed with less than 30 days left, or with the old key")
	}
	for _, host := range []string{"shop.local", "192.168.1.20"} {
		if err := verify(a.Root, second, host, c.at); err != nil {
			t.Errorf("renewed: %s: %v", host, err)
		}
	}
	again, err := Open(a.dir, c.now)
	if err != nil {
		t.Fatal(err)
	}
	if !again.Root.Equal(a.Root) || !served(t, again).Equal(second) {
		t.Error("opened again, the folder holds another root or certificate")
	}
}

// Phones that come at once when it is due all get the one new certificate.
func TestRenewalAtOnce(t *testing.T) {
	c := newClock()
	a := create(t, c, "shop.local")
	first := served(t, a)
	c.at = first.NotAfter.Add(-29 * day)
	got := make(chan *x509.Certificate)
	for range 20 {
		go func() {
			pair, err := a.Get(nil)
			if err != nil {
				t.Error(err)
			}
			got <- pair.Leaf
		}()
	}
	second := <-got
	for range 19 {
		if other := <-got; !other.Equal(second) {
			t.Error("two phones got two certificates")
		}
	}
	if second.Equal(first) {
		t.Error("not renewed")
	}
}

// The last certificate ends with its root and is not made again and again.
func TestRenewalAtTheRootsEnd(t *testing.T) {
	c := newClock()
	a := create(t, c, "shop.local")
	c.at = a.Root.NotAfter.Add(-100 * day)
	last := served(t, a)
	if !last.NotAfter.Equal(a.Root.NotAfter) {
		t.Errorf("it ends %v, the root %v", last.NotAfter, a.Root.NotAfter)
	}
	c.at = a.Root.NotAfter.Add(-10 * day)
	if !served(t, a).Equal(last) {
		t.Error("renewed although it already lasts as long as the root")
	}
	c.at = a.Root.NotAfter
	if _, err := Open(a.dir, c.now); problem.From(err).Kind != problem.Refused {
		t.Errorf("an ended root was opened: %v", err)
	}
}

// A folder that cannot be written to does not stop the server.
func TestRenewalFails(t *testing.T) {
	c := newClock()
	a := create(t, c, "shop.local")
	first := served(t, a)
	var troubles []error
	a.OnTrouble = func(err error) { troubles = append(troubles, err) }
	if err := os.Rename(a.dir, a.dir+".gone"); err != nil {
		t.Fatal(err)
	}
	c.at = first.NotAfter.Add(-20 * day)
	for range 3 {
		if !served(t, a).Equal(first) {
			t.Error("another certificate came out of nowhere")
		}
	}
	if len(troubles) != 1 {
		t.Errorf("told %v, want one trouble within an hour", troubles)
	}
	if err := os.Rename(a.dir+".gone", a.dir); err != nil {
		t.Fatal(err)
	}
	c.at = c.at.Add(time.Hour)
	if served(t, a).Equal(first) {
		t.Error("not renewed an hour later, when it could be")
	}
}
