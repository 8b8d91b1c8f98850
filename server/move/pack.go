package move

import (
	"archive/tar"
	"bufio"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"kerfside/calc/problem"
	"kerfside/server/disk"
	"kerfside/server/store"
)

// Pack freezes a crew and writes it into file, which is checked as it lies before it
// gets that name. It works beside a running server, which tells the crew's phones to
// wait. Packing again writes the file anew.
func Pack(ctx context.Context, a *store.Access, crew, file string, now int64) (c Contents, err error) {
	if err := mayOverwrite(file, crew); err != nil {
		return c, err
	}
	half, err := os.CreateTemp(filepath.Dir(file), "."+filepath.Base(file)+"-*") // for its user alone
	if err != nil {
		return c, problem.Newf(problem.Refused, "file", "%s cannot be written", file).WithHint("Name a file in a folder with room. Nothing was changed.").WithCause(err)
	}
	defer func() {
		if gone := os.Remove(half.Name()); !errors.Is(gone, fs.ErrNotExist) {
			err = errors.Join(err, gone)
		}
	}()
	defer half.Close()
	number, public, err := a.Freeze(crew, now)
	if err != nil {
		return c, err
	}
	if c, err = write(ctx, a, half, crew, number, public); err != nil {
		return c, packTrouble(file, err)
	}
	if err := errors.Join(half.Sync(), half.Close()); err != nil {
		return c, packTrouble(file, err)
	}
	checked, err := Check(half.Name())
	if err == nil && checked.Sum != c.Sum {
		err = errors.New("the file does not hold what was written")
	}
	if err != nil {
		return c, packTrouble(file, err)
	}
	if err := errors.Join(os.Rename(half.Name(), file), disk.SyncFolder(filepath.Dir(file))); err != nil {
		return c, packTrouble(file, err)
	}
	return c, a.NotePackage(crew, c.Sum)
}

// packTrouble says that a crew is frozen and no file is there.
func packTrouble(file string, err error) error {
	return problem.Newf(problem.DiskFull, "file", "%s could not be written whole", file).
		WithHint("The crew waits: pack it once more, or let it go on here with kerfside crew keep.").WithCause(err)
}

// mayOverwrite refuses a file that is not an earlier package of the crew.
func mayOverwrite(file, crew string) error {
	info, err := os.Stat(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err == nil && info.Mode().IsRegular() {
		if c, err := contentsOf(file); err == nil && c.Crew == crew {
			return nil
		}
	}
	return problem.Newf(problem.Conflict, "file", "%s is there already, and is no package of this crew", file).WithHint("Name a new file. Nothing was changed.")
}

// write writes the package.
func write(ctx context.Context, a *store.Access, f *os.File, crew string, number int64, public []byte) (c Contents, err error) {
	l, err := a.Leave(ctx, crew)
	if err != nil {
		return c, err
	}
	access, err := l.Access(ctx)
	if err != nil {
		return c, err
	}
	erased, err := l.Erased()
	if err != nil {
		return c, err
	}
	gone, err := store.ReadMovedErasures(crew, erased)
	if err != nil {
		return c, err
	}
	c = Contents{Form: form, Crew: crew, Name: l.Name, Move: number, Key: public, Events: l.Max, Head: hex.EncodeToString(l.Head[:]),
		Devices: len(access.Devices), Invites: len(access.Invites), Audit: len(access.Audit), Erased: len(erased)}
	pictures, err := picturesOf(a.Pictures(), crew)
	if err != nil {
		return c, err
	}
	c.Pictures = len(pictures)
	err = l.Events(ctx, func(e store.MovedEvent) error { // what stands first has to be known first
		if !gone.Fits(e) {
			c.Damaged++
		}
		return nil
	})
	if err != nil {
		return c, err
	}
	out := bufio.NewWriterSize(f, 1<<20)
	p := &packer{tar: tar.NewWriter(out)}
	if err := errors.Join(p.addJSON("crew.json", c), p.addJSON("access.json", access), p.add("erased.jsonl", erased)); err != nil {
		return c, err
	}
	if err := p.addEvents(ctx, l); err != nil {
		return c, err
	}
	for _, name := range pictures {
		data, err := os.ReadFile(filepath.Join(a.Pictures(), store.PictureFile(crew, name)))
		if err == nil && store.PictureName(data) != name {
			err = errors.New("a picture changed while it was packed")
		}
		if err == nil {
			err = p.add("photos/"+name, data)
		}
		if err != nil {
			return c, err
		}
		c.Bytes += int64(len(data))
	}
	c.Sum, err = p.end()
	return c, errors.Join(err, out.Flush())
}

// addEvents adds the arrivals in portions.
func (p *packer) addEvents(ctx context.Context, l *store.Leaving) error {
	var lines []byte
	entries := 0
	flush := func() error {
		entries++
		err := p.add(fmt.Sprintf("events/%06d.jsonl", entries), lines)
		lines = lines[:0]
		return err
	}
	err := l.Events(ctx, func(e store.MovedEvent) error {
		text, err := json.Marshal(e)
		if err != nil {
			return err
		}
		if lines = append(append(lines, text...), '\n'); len(lines) < portion {
			return nil
		}
		return flush()
	})
	if err != nil || len(lines) == 0 {
		return err
	}
	return flush()
}

// picturesOf lists the pictures of a crew by name. One whose bytes went bad on the disk
// stays behind: phones are asked for it.
func picturesOf(dir, crew string) (names []string, err error) {
	if dir == "" {
		return nil, nil
	}
	err = filepath.WalkDir(filepath.Join(dir, crew), func(path string, d fs.DirEntry, err error) error {
		if errors.Is(err, fs.ErrNotExist) {
			return nil // none was ever kept
		}
		if err != nil || d.IsDir() || len(d.Name()) != 2*sha256.Size {
			return err
		}
		data, err := os.ReadFile(path)
		if err == nil && store.PictureName(data) == d.Name() {
			names = append(names, d.Name())
		}
		return err
	})
	return names, err
}
