package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"time"

	"kerfside/server"
	"kerfside/server/qr"
	"kerfside/server/store"
)

// Invite makes an invitation to the first crew and returns its link. role is
// "owner" or "member".
func (a *App) Invite(role string) (link string, err error) {
	r, err := store.ReadRole(role)
	if err != nil {
		return "", err
	}
	v, err := a.store.Invite(a.store.Crew(), r, "", time.Now().UnixMilli())
	if err != nil {
		return "", err
	}
	return joinLink(a.URL(), v), nil
}

// joinLink is what a phone opens to join.
func joinLink(origin string, v store.Invite) string { return origin + server.JoinPath + "#" + v.Secret }

// welcome tells how the first phone joins, as long as the crew has no owner.
// The code is told to a terminal only: what serve prints elsewhere ends up in a
// log.
func (a *App) welcome(out io.Writer) error {
	crew, err := a.store.CrewByID(context.Background(), a.store.Crew())
	if err != nil || crew.Owners > 0 || crew.State != store.CrewHere {
		return err
	}
	if !isTerminal(out) {
		fmt.Fprintf(out, "The crew has no owner yet: \"kerfside crew owner -db %s\" shows how one joins.\n", a.DB)
		return nil
	}
	v, err := a.store.Invite(crew.ID, store.Owner, "", time.Now().UnixMilli())
	if err != nil {
		return err
	}
	fmt.Fprintln(out, "\nThe crew has no owner yet. The first phone joins as its owner:")
	return tell(out, a.URL(), v)
}

// tell prints an invitation; the QR code is for a terminal only.
func tell(out io.Writer, origin string, v store.Invite) error {
	link := joinLink(origin, v)
	if isTerminal(out) {
		code, err := qr.Encode(link)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "\n%s\n", code.Terminal())
	}
	fmt.Fprintf(out, "  open  %s\n  or type the code %s at %s%s\n\nIt works once, until %s. It makes that phone %s of its crew.\n",
		link, store.ShowCode(v.Code), origin, server.JoinPath, time.UnixMilli(v.Expires).Format("15:04"),
		map[store.Role]string{store.Owner: "an owner", store.Member: "a member"}[v.Role])
	return nil
}

// isTerminal reports whether out is one.
func isTerminal(out io.Writer) bool {
	f, ok := out.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
