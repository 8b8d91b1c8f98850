package store

import (
	"context"
	"crypto/ed25519"
	"database/sql"
	"encoding/base64"
	"errors"
	"fmt"
	"strings"

	"kerfside/calc/problem"
)

// Freeze begins the move of a crew, or finds the one that is under way: from its return
// on nothing of the crew changes here. It returns the number of the move and the public
// key with which the new server knows the word that hands the crew over.
//
// The secret one stays here until the crew is handed over. Keep destroys it, so that a
// package of a move that was called off can never be taken up.
func (a *Access) Freeze(crew string, now int64) (number int64, public []byte, err error) {
	if a.gone.path == "" {
		return 0, nil, problem.New(problem.Refused, "db", "a store in memory cannot be packed", "Give the file of a database.")
	}
	seed, err := a.secret(ed25519.SeedSize)
	if err != nil {
		return 0, nil, err
	}
	err = a.withCrew(crew, func(ctx context.Context, tx *sql.Tx, key int64, state CrewState) error {
		if state == CrewFrozen {
			return tx.QueryRowContext(ctx, `SELECT number, public FROM move WHERE crew = ?`, key).Scan(&number, &public)
		}
		if state != CrewHere {
			return notSo(crew, state, "be packed")
		}
		if err := tx.QueryRowContext(ctx, `SELECT moves + 1 FROM crew WHERE key = ?`, key).Scan(&number); err != nil {
			return err
		}
		public = ed25519.NewKeyFromSeed(seed).Public().(ed25519.PublicKey)
		if _, err := tx.ExecContext(ctx, `INSERT OR REPLACE INTO move (crew, number, seed, public) VALUES (?, ?, ?, ?)`, key, number, seed, public); err != nil {
			return fmt.Errorf("begin the move: %w", err)
		}
		if err := note(ctx, tx, key, AuditLine{At: now, What: Packed}); err != nil {
			return err
		}
		return setState(ctx, tx, key, CrewFrozen)
	})
	return number, public, err
}

// NotePackage notes the hash of the package that was written of a frozen crew.
func (a *Access) NotePackage(crew string, sum [32]byte) error {
	return a.withCrew(crew, func(ctx context.Context, tx *sql.Tx, key int64, state CrewState) error {
		if state != CrewFrozen {
			return notSo(crew, state, "be packed")
		}
		_, err := tx.ExecContext(ctx, `UPDATE move SET package = ? WHERE crew = ?`, sum[:], key)
		return err
	})
}

// Keep calls the move of a frozen crew off: it is served here again. One that was
// handed over is served elsewhere, or will be; with lost somebody says that this can
// never be, for that server is gone, and what is here is all there is.
func (a *Access) Keep(crew string, lost bool, now int64) error {
	return a.withCrew(crew, func(ctx context.Context, tx *sql.Tx, key int64, state CrewState) error {
		switch {
		case state == CrewHere:
			return nil
		case state == CrewMoved && !lost:
			return problem.New(problem.Refused, "crew", "the crew was handed over to the other server", "Take it up there, and move it back from there. If that server is lost for good: kerfside crew keep -lost.")
		case state != CrewFrozen && state != CrewMoved:
			return notSo(crew, state, "be kept")
		}
		if _, err := tx.ExecContext(ctx, `DELETE FROM move WHERE crew = ?`, key); err != nil {
			return fmt.Errorf("end the move: %w", err)
		}
		if err := note(ctx, tx, key, AuditLine{At: now, What: Kept}); err != nil {
			return err
		}
		return setState(ctx, tx, key, CrewHere)
	})
}

// Receipt is the word of a new server that it holds a package whole. It belongs to this
// one copy: another that is unpacked from the same file has another.
type Receipt struct {
	Crew    string
	Nonce   []byte
	Package []byte // its SHA-256
}

func (r Receipt) String() string {
	return receiptMark + r.Crew + "." + base64.RawURLEncoding.EncodeToString(append(r.Nonce, r.Package...))
}

// What a receipt and a key begin with, to tell them apart; an id may begin with a dash,
// which on a command line begins a flag.
const (
	receiptMark = "receipt."
	keyMark     = "key."
)

// Sizes of a receipt's parts.
const (
	nonceSize   = 16
	packageSize = 32
)

// ReadReceipt reads a receipt as it is printed.
func ReadReceipt(text string) (Receipt, error) {
	text, marked := strings.CutPrefix(strings.TrimSpace(text), receiptMark)
	crew, rest, _ := strings.Cut(text, ".")
	b, err := base64.RawURLEncoding.DecodeString(rest)
	if !marked || err != nil || len(b) != nonceSize+packageSize || !IsCrewID(crew) {
		return Receipt{}, problem.New(problem.Malformed, "", "that is no receipt", "It is the word that kerfside crew unpack prints on the new server.")
	}
	return Receipt{Crew: crew, Nonce: b[:nonceSize], Package: b[nonceSize:]}, nil
}

// said is what the key of a hand-over vouches for.
func (r Receipt) said(number int64) []byte { return fmt.Appendf(nil, "%s %d", r, number) }

// HandOver gives a frozen crew away to the copy that a receipt is of, for good, and
// returns the key with which that copy is taken up. Asked again it returns the same.
func (a *Access) HandOver(r Receipt, now int64) (key string, err error) {
	err = a.withCrew(r.Crew, func(ctx context.Context, tx *sql.Tx, row int64, state CrewState) error {
		if state != CrewFrozen && state != CrewMoved {
			return notSo(r.Crew, state, "be handed over")
		}
		var number int64
		var seed, nonce, sum []byte
		if err := tx.QueryRowContext(ctx, `SELECT number, seed, nonce, package FROM move WHERE crew = ?`, row).Scan(&number, &seed, &nonce, &sum); errors.Is(err, sql.ErrNoRows) {
			return notSo(r.Crew, state, "be handed over")
		} else if err != nil {
			return fmt.Errorf("find the move: %w", err)
		}
		if string(sum) != string(r.Package) {
			return problem.New(problem.Conflict, "", "the receipt is of another package than the one that was packed last", "Unpack that one on the new server. Or pack once more, and unpack that.")
		}
		key = keyMark + r.Crew + "." + base64.RawURLEncoding.EncodeToString(ed25519.Sign(ed25519.NewKeyFromSeed(seed), r.said(number)))
		if state == CrewMoved && nonce != nil {
			if string(nonce) != string(r.Nonce) {
				return problem.New(problem.Conflict, "", "the crew was handed over to another copy already", "Take that one up. Two must never be served.")
			}
			return nil
		}
		if err := a.gone.add(movedLine{Crew: r.Crew, Moved: number, At: now}); err != nil { // first: no restart serves it after that
			return problem.Newf(problem.DiskFull, "", "the list %s could not be written", a.gone.path).WithHint("The crew still waits here.").WithCause(err)
		}
		if _, err := tx.ExecContext(ctx, `UPDATE move SET nonce = ? WHERE crew = ?`, r.Nonce, row); err != nil {
			return fmt.Errorf("hand over: %w", err)
		}
		if _, err := tx.ExecContext(ctx, `UPDATE crew SET moves = ? WHERE key = ?`, number, row); err != nil {
			return fmt.Errorf("hand over: %w", err)
		}
		if err := note(ctx, tx, row, AuditLine{At: now, What: HandedOver}); err != nil {
			return err
		}
		return setState(ctx, tx, row, CrewMoved)
	})
	return key, err
}

// TakeUp serves a copy from now on that was unpacked here, with the key that the old
// server made for it. Asked again it changes nothing.
func (a *Access) TakeUp(key string, now int64) (crew string, err error) {
	key, marked := strings.CutPrefix(strings.TrimSpace(key), keyMark)
	crew, rest, _ := strings.Cut(key, ".")
	signature, err := base64.RawURLEncoding.DecodeString(rest)
	if !marked || err != nil || len(signature) != ed25519.SignatureSize || !IsCrewID(crew) {
		return "", problem.New(problem.Malformed, "", "that is no key", "It is the word that kerfside crew hand-over prints on the old server.")
	}
	return crew, a.withCrew(crew, func(ctx context.Context, tx *sql.Tx, row int64, state CrewState) error {
		if state != CrewHeld && state != CrewHere {
			return notSo(crew, state, "be taken up")
		}
		var number int64
		var public []byte
		r := Receipt{Crew: crew}
		err := tx.QueryRowContext(ctx, `SELECT number, public, nonce, package FROM move WHERE crew = ? AND nonce IS NOT NULL`, row).Scan(&number, &public, &r.Nonce, &r.Package)
		if errors.Is(err, sql.ErrNoRows) {
			return notSo(crew, state, "be taken up")
		}
		if err != nil {
			return fmt.Errorf("find the move: %w", err)
		}
		if !ed25519.Verify(public, r.said(number), signature) {
			return problem.New(problem.Refused, "", "the key is not for the copy that is here", "Hand the crew over with the receipt of this copy: kerfside crew unpack prints it once more.")
		}
		if state == CrewHere {
			return nil
		}
		if _, err := tx.ExecContext(ctx, `UPDATE crew SET moves = ? WHERE key = ?`, number, row); err != nil {
			return fmt.Errorf("take up: %w", err)
		}
		if err := note(ctx, tx, row, AuditLine{At: now, What: TakenUp}); err != nil {
			return err
		}
		return setState(ctx, tx, row, CrewHere)
	})
}

// IsCrewID reports whether text may be a crew's id: 128 bits in base64url, so that it is
// fit for the name of a folder and for the map of a proxy.
func IsCrewID(text string) bool {
	b, err := base64.RawURLEncoding.DecodeString(text)
	return err == nil && len(b) == 16 && len(text) == 22 // a line break counts as nothing to the reader
}

// notSo refuses what a crew in that state cannot do.
func notSo(crew string, state CrewState, what string) error {
	return problem.Newf(problem.Refused, "crew", "the crew %s is %s here and cannot %s", crew, state, what).
		WithHint("kerfside crew list shows how each crew stands. A move goes: pack, unpack, hand-over, take-up.")
}

func setState(ctx context.Context, tx *sql.Tx, key int64, state CrewState) error {
	if _, err := tx.ExecContext(ctx, `UPDATE crew SET state = ? WHERE key = ?`, state, key); err != nil {
		return fmt.Errorf("set the state of a crew: %w", err)
	}
	return nil
}
