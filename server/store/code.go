package store

import (
	"crypto/pbkdf2"
	"crypto/sha256"
	"strings"

	"kerfside/calc/problem"
)

// A typed code has ten characters of Crockford's base32: three that say which
// invitation it may belong to, and seven that prove it, 35 bits.
const (
	codeLength   = 10
	handleLength = 3
	alphabet     = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

	// rounds of PBKDF2 make a stolen copy of the database useless for the ten
	// minutes that a code lives: 2^35 codes take years at some 20 ms each.
	rounds = 100_000
)

// codeOf writes random bytes as a code; five bits of each count.
func codeOf(random []byte) string {
	b := make([]byte, len(random))
	for i, r := range random {
		b[i] = alphabet[r&31]
	}
	return string(b)
}

// ReadCode reads a code as people type it: case, dashes and spaces do not
// matter, O counts as 0, I and L as 1.
func ReadCode(text string) (string, error) {
	code := strings.Map(func(r rune) rune {
		switch r {
		case '-', ' ':
			return -1
		case 'O':
			return '0'
		case 'I', 'L':
			return '1'
		}
		return r
	}, strings.ToUpper(text))
	if len(code) != codeLength || strings.Trim(code, alphabet) != "" {
		return "", problem.New(problem.Malformed, "code", "that is no code", "It has ten letters and digits, like 7K3Q9-M2XWD.")
	}
	return code, nil
}

// ShowCode writes a code in two halves.
func ShowCode(code string) string { return code[:codeLength/2] + "-" + code[codeLength/2:] }

// hashCode is what is kept of a code.
func hashCode(code string, salt []byte) ([]byte, error) {
	return pbkdf2.Key(sha256.New, code, salt, rounds, sha256.Size)
}
