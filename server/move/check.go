package move

import (
	"archive/tar"
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"kerfside/calc/journal/event"
	"kerfside/calc/problem"
	"kerfside/server/store"
)

// visitor is handed what a package holds, in its order.
type visitor struct {
	begin   func(c Contents, access store.MovedAccess, erased []byte) error
	events  func([]store.MovedEvent) error
	picture func(name string, data []byte) error
}

// Check reads a package to its end and tells what it holds: that it is whole, that its
// entries fit their sums and their counts, its arrivals their chain, and bytes their
// hashes. Its error is a problem.
func Check(file string) (Contents, error) {
	return read(file, visitor{
		begin:   func(Contents, store.MovedAccess, []byte) error { return nil },
		events:  func([]store.MovedEvent) error { return nil },
		picture: func(string, []byte) error { return nil },
	})
}

// contentsOf reads the beginning of a package.
func contentsOf(file string) (c Contents, err error) {
	f, err := os.Open(file)
	if err != nil {
		return c, err
	}
	defer f.Close()
	u := unpacker{tar: tar.NewReader(f)}
	return c, u.readJSON("crew.json", &c)
}

// errTaking is behind what a visitor found wrong, which is no fault of the file.
var errTaking = errors.New("it could not be taken in")

// read hands a package to a visitor. What was handed over counts only if there is no
// error.
func read(file string, v visitor) (Contents, error) {
	f, err := os.Open(file)
	if err != nil {
		return Contents{}, problem.Newf(problem.NotFound, "file", "%s cannot be read", file).WithHint("Name the file that kerfside crew pack wrote.").WithCause(err)
	}
	defer f.Close()
	r := reading{u: unpacker{tar: tar.NewReader(bufio.NewReaderSize(f, 1<<20))}, v: v}
	switch err := r.all(); {
	case errors.Is(err, errTaking), problem.KindOf(err) == problem.OldApp:
		return r.c, err
	case err != nil:
		return r.c, spoilt(file, err)
	}
	return r.c, nil
}

// reading is one way through a package.
type reading struct {
	u    unpacker
	v    visitor
	c    Contents
	gone store.MovedErasures

	n        int64
	chain    event.Chain
	damaged  int
	pictures int
}

func (r *reading) all() error {
	if err := r.begin(); err != nil {
		return err
	}
	for {
		if err := r.u.next(); err != nil {
			return err
		}
		kind, name, _ := strings.Cut(r.u.name, "/")
		switch {
		case kind == "events" && r.pictures == 0:
			if err := r.events(); err != nil {
				return err
			}
		case kind == "photos":
			if err := r.picture(name); err != nil {
				return err
			}
		case r.u.name == sumsName:
			return r.end()
		default:
			return fmt.Errorf("%q does not belong in it", r.u.name)
		}
	}
}

// taken marks what a visitor found wrong.
func taken(err error) error {
	if err == nil {
		return nil
	}
	return errors.Join(err, errTaking)
}

func (r *reading) begin() error {
	if err := r.u.readJSON("crew.json", &r.c); err != nil {
		return err
	}
	if r.c.Form > form {
		return problem.New(problem.OldApp, "file", "the package was made by a newer kerfside", "Nothing was changed. Update this program first.")
	}
	head, ok := r.c.head()
	if r.c.Form != form || !store.IsCrewID(r.c.Crew) || r.c.Move < 1 || len(r.c.Key) != 32 || r.c.Events < 0 || !ok || r.c.Events == 0 && head != (event.Chain{}) {
		return errors.New("crew.json says what cannot be")
	}
	var access store.MovedAccess
	if err := r.u.readJSON("access.json", &access); err != nil {
		return err
	}
	if len(access.Devices) != r.c.Devices || len(access.Invites) != r.c.Invites || len(access.Audit) != r.c.Audit {
		return errors.New("access.json does not hold as much as crew.json says")
	}
	if slices.ContainsFunc(access.Devices, func(d store.MovedDevice) bool { return !event.IsName(d.ID) || len(d.Token) != 32 }) {
		return errors.New("access.json has a phone that cannot be")
	}
	if err := r.u.next(); err != nil {
		return err
	}
	erased, err := r.u.read(maxText)
	if err != nil || r.u.name != "erased.jsonl" || len(erased) != r.c.Erased {
		return errors.Join(errors.New("the list of erasures is not the one that crew.json tells of"), err)
	}
	if r.gone, err = store.ReadMovedErasures(r.c.Crew, erased); err != nil {
		return err
	}
	return taken(r.v.begin(r.c, access, erased))
}

func (r *reading) events() error {
	text, err := r.u.read(maxPortion)
	if err != nil {
		return err
	}
	var list []store.MovedEvent
	for line := range bytes.Lines(text) {
		var e store.MovedEvent
		if err := json.Unmarshal(line, &e); err != nil {
			return fmt.Errorf("%s: %w", r.u.name, err)
		}
		o, err := event.ParseStamp(e.O)
		if r.n++; err != nil || e.N != r.n || len(e.Sum) != len(event.Sum{}) || !event.IsID(e.ID) || len(e.Raw) > event.MaxEvent || e.Standing < 0 || e.Standing > 3 {
			return fmt.Errorf("%s: arrival %d cannot be", r.u.name, e.N)
		}
		r.chain = r.chain.Next(e.ID, o, event.Sum(e.Sum))
		if !r.gone.Fits(e) {
			r.damaged++
		} else if in, err := event.Decode(e.Raw); err != nil || in.ID != e.ID {
			return fmt.Errorf("%s: arrival %d is another event", r.u.name, e.N)
		}
		list = append(list, e)
	}
	return taken(r.v.events(list))
}

func (r *reading) picture(name string) error {
	data, err := r.u.read(maxPicture)
	if err != nil {
		return err
	}
	if r.pictures++; store.PictureName(data) != name {
		return fmt.Errorf("the picture %q does not fit its name", name)
	}
	r.c.Bytes += int64(len(data))
	return taken(r.v.picture(name, data))
}

func (r *reading) end() (err error) {
	if r.c.Sum, err = r.u.end(); err != nil {
		return err
	}
	if head, _ := r.c.head(); r.n != r.c.Events || r.chain != head || r.damaged != r.c.Damaged || r.pictures != r.c.Pictures {
		return errors.New("it does not hold what crew.json says")
	}
	return nil
}
