package main

import (
	"context"
	"crypto/sha256"
	"fmt"
	"io"
	"net/http"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"kerfside/calc/problem"
)

// lanSays runs "kerfside lan" without its page and returns what it prints.
func lanSays(t *testing.T, db, line string) (string, error) {
	t.Helper()
	var out strings.Builder
	err := program.Run(append([]string{"lan", "-db", db, "-page", "none"}, strings.Fields(line)...), &out)
	return out.String(), err
}

var fingerprint = regexp.MustCompile(`(?m)(^  ([0-9A-F]{2} ?){8}\n){4}`)

func TestLAN(t *testing.T) {
	db := filepath.Join(t.TempDir(), "kerfside.db")
	if _, err := lanSays(t, db, ""); problem.From(err).Kind != problem.Missing {
		t.Errorf("without a name: %v, want it to ask for one", err)
	}
	first, err := lanSays(t, db, "-host shop.local -host 192.168.1.20")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(first, "https://shop.local:8443") || fingerprint.FindString(first) == "" {
		t.Errorf("it says\n%s\nwant the app's address and the fingerprint", first)
	}
	again, err := lanSays(t, db, "")
	if err != nil || again != first {
		t.Errorf("the second time (%v) it says\n%s\nwant what it said first\n%s", err, again, first)
	}
	moved, err := lanSays(t, db, "-host 192.168.1.99 -app 443")
	if err != nil || !strings.Contains(moved, "at https://192.168.1.99\n") || !strings.Contains(moved, "bare address") {
		t.Errorf("with another address of the network (%v) it says\n%s\nwant the new address, and a warning", err, moved)
	}
	if fingerprint.FindString(moved) != fingerprint.FindString(first) {
		t.Error("another address made another root")
	}
	if _, err := lanSays(t, db, "-host other.local"); problem.From(err).Kind != problem.Refused {
		t.Errorf("a name that the root does not cover: %v, want it refused", err)
	}
}

// The page is served until it is told to stop, at an address that phones find
// without knowing names.
func TestLANPage(t *testing.T) {
	authority, err := makeAuthority(filepath.Join(t.TempDir(), "kerfside.lan"), shopHosts)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	said, writer := io.Pipe()
	ended := make(chan error, 1)
	go func() {
		err := showPage(ctx, writer, authority, "127.0.0.1:0", "https://shop.local:8443")
		writer.CloseWithError(err)
		ended <- err
	}()
	buffer := make([]byte, 1024)
	n, err := said.Read(buffer)
	if err != nil {
		t.Fatal(err)
	}
	port := regexp.MustCompile(`http://192\.168\.1\.20:(\d+)`).FindStringSubmatch(string(buffer[:n]))
	if port == nil {
		t.Fatalf("it says %q, want the page's address", buffer[:n])
	}
	reply, err := http.Get("http://127.0.0.1:" + port[1] + "/kerfside.crt")
	if err != nil {
		t.Fatal(err)
	}
	root, err := io.ReadAll(reply.Body)
	reply.Body.Close()
	if sum := fmt.Sprintf("% X", sha256.Sum256(root)); err != nil || sum != strings.Join(authority.Fingerprint(), " ") {
		t.Errorf("the page gives a root with %s, %v; the console shows %v", sum, err, authority.Fingerprint())
	}
	stop()
	if err := <-ended; err != nil {
		t.Errorf("stopped, it ended with %v", err)
	}
}
