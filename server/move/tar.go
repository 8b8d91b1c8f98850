package move

import (
	"archive/tar"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// sumsName is the last entry.
const sumsName = "SHA256SUMS"

// Sizes of entries, in bytes.
const (
	portion    = 1 << 20   // of events, when an entry is full
	maxPortion = 4 << 20   // as it is read
	maxPicture = 4 << 20   // twice what a server takes
	maxText    = 256 << 20 // of any other
)

// packer writes entries.
type packer struct {
	tar  *tar.Writer
	sums bytes.Buffer
}

func (p *packer) add(name string, data []byte) error {
	fmt.Fprintf(&p.sums, "%x  %s\n", sha256.Sum256(data), name)
	return p.put(name, data)
}

func (p *packer) put(name string, data []byte) error {
	if err := p.tar.WriteHeader(&tar.Header{Name: name, Mode: 0o600, Size: int64(len(data)), Format: tar.FormatUSTAR}); err != nil {
		return err
	}
	_, err := p.tar.Write(data)
	return err
}

// addJSON adds an entry of one value.
func (p *packer) addJSON(name string, v any) error {
	text, err := json.Marshal(v)
	if err != nil {
		return err
	}
	return p.add(name, append(text, '\n'))
}

// end writes the last entry and returns the hash of the package.
func (p *packer) end() ([32]byte, error) {
	text := p.sums.Bytes()
	return sha256.Sum256(text), errors.Join(p.put(sumsName, text), p.tar.Close())
}

// unpacker reads entries and keeps their sums.
type unpacker struct {
	tar  *tar.Reader
	sums bytes.Buffer
	name string // of the entry that next has found
	size int64
}

// next finds the next entry; at the end its name is sumsName, and hash tells what was
// read before.
func (u *unpacker) next() error {
	header, err := u.tar.Next()
	if errors.Is(err, io.EOF) {
		return errors.New("it ends before its sums")
	}
	if err != nil {
		return err
	}
	if header.Typeflag != tar.TypeReg {
		return fmt.Errorf("%q is no file", header.Name)
	}
	u.name, u.size = header.Name, header.Size
	return nil
}

// read returns the bytes of the entry.
func (u *unpacker) read(most int64) ([]byte, error) {
	if u.size > most {
		return nil, fmt.Errorf("%s has %d bytes; at most %d are read", u.name, u.size, most)
	}
	data, err := io.ReadAll(u.tar)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", u.name, err)
	}
	if u.name != sumsName {
		fmt.Fprintf(&u.sums, "%s  %s\n", hex.EncodeToString(sum(data)), u.name)
	}
	return data, nil
}

// readJSON reads an entry of one value.
func (u *unpacker) readJSON(name string, into any) error {
	if err := u.next(); err != nil {
		return err
	}
	if u.name != name {
		return fmt.Errorf("%q stands where %s is expected", u.name, name)
	}
	data, err := u.read(maxText)
	if err != nil {
		return err
	}
	return json.Unmarshal(data, into)
}

// end compares the sums, of which the entry that next has found tells, with what was
// read, and returns the hash of the package.
func (u *unpacker) end() ([32]byte, error) {
	text, err := u.read(maxText)
	if err != nil {
		return [32]byte{}, err
	}
	if !bytes.Equal(text, u.sums.Bytes()) {
		return [32]byte{}, errors.New("its entries do not fit their sums")
	}
	return sha256.Sum256(text), nil
}

func sum(data []byte) []byte {
	s := sha256.Sum256(data)
	return s[:]
}
