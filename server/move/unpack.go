package move

import (
	"context"
	"path/filepath"

	"kerfside/calc/problem"
	"kerfside/server/disk"
	"kerfside/server/store"
)

// Unpack takes a package in, without serving its crew yet, and returns the receipt with
// which the old server hands it over. The file is read to its end first, so that one
// that is not whole changes nothing. It works beside a running server. Unpacking again
// what is here whole returns the same receipt; what broke off is begun again.
func Unpack(ctx context.Context, a *store.Access, file string) (store.Receipt, Contents, error) {
	c, err := Check(file)
	if err != nil {
		return store.Receipt{}, c, err
	}
	t := taking{ctx: ctx, a: a, sum: c.Sum}
	again, err := read(file, visitor{begin: t.begin, events: t.events, picture: t.picture})
	if err != nil {
		return store.Receipt{}, c, takeTrouble(err)
	}
	if again.Sum != c.Sum {
		return store.Receipt{}, c, spoilt(file, nil)
	}
	if r, ok := t.in.Ready(); ok {
		return r, c, nil
	}
	r, err := t.in.Hold(ctx)
	return r, c, err
}

// takeTrouble says what stopped an unpacking. A problem is told as it is.
func takeTrouble(err error) error {
	if problem.KindOf(err) != problem.Internal {
		return problem.From(err)
	}
	return problem.New(problem.DiskFull, "file", "the package could not be taken in", "Nothing of it is served. See that the disk has room, then unpack it again.").WithCause(err)
}

// taking is an unpacking under way.
type taking struct {
	ctx context.Context
	a   *store.Access
	sum [32]byte
	c   Contents
	in  *store.Incoming
}

func (t *taking) begin(c Contents, access store.MovedAccess, erased []byte) (err error) {
	t.c, c.Sum = c, t.sum
	t.in, err = t.a.Receive(t.ctx, c.asPackage(access, erased))
	return err
}

func (t *taking) events(list []store.MovedEvent) error {
	if _, ok := t.in.Ready(); ok {
		return nil
	}
	return t.in.Events(t.ctx, list)
}

func (t *taking) picture(name string, data []byte) error {
	if _, ok := t.in.Ready(); ok {
		return nil
	}
	return disk.WriteWhole(filepath.Join(t.a.Pictures(), store.PictureFile(t.c.Crew, name)), data)
}
