package journal

import (
	"crypto/sha256"
	"encoding/hex"
	"math/rand/v2"
	"strings"
	"testing"
)

// TestSha256Published holds the phone's SHA-256 to the examples of NIST (FIPS 180-2,
// appendix B) and to that of no bytes.
func TestSha256Published(t *testing.T) {
	for text, want := range map[string]string{
		"":    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
		"abc": "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
		"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq": "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
		strings.Repeat("a", 1_000_000):                             "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0",
	} {
		if sum := sha256Of([]byte(text)); hex.EncodeToString(sum[:]) != want {
			t.Errorf("of %.20q: %x, want %s", text, sum, want)
		}
	}
}

// TestSha256IsThatOfTheServer: phone and server must come to the same chain, so both
// ways of summing agree at each length around the ends of a block and at random ones.
func TestSha256IsThatOfTheServer(t *testing.T) {
	random := rand.NewChaCha8([32]byte{9})
	text := make([]byte, 70_000)
	random.Read(text)
	for n := range 300 {
		check256(t, text[:n])
	}
	for range 50 {
		check256(t, text[:random.Uint64()%uint64(len(text))])
	}
}

func check256(t *testing.T, text []byte) {
	t.Helper()
	if got, want := sha256Of(text), sha256.Sum256(text); got != Sum(want) {
		t.Fatalf("of %d bytes: %x, want %x", len(text), got, want)
	}
}
