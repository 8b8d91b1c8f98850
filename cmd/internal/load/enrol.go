package load

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"time"

	"kerfside/server/store"
)

// Enrol lets so many devices join the first crew of the server at address and
// returns the cookie of each.
func Enrol(access *store.Access, address string, devices int) ([]*http.Cookie, error) {
	crews, err := access.Crews(context.Background())
	if err != nil || len(crews) == 0 {
		return nil, fmt.Errorf("find the crew: %w", err)
	}
	at, err := url.Parse(address)
	if err != nil {
		return nil, err
	}
	return EnrolIn(access, crews[0].ID, "kerfside-"+at.Port(), devices)
}

// EnrolIn lets so many devices join a crew and returns the cookie of each, under that
// name. It goes to the database, as the command line does: by way of the network so
// many would be told to slow down.
func EnrolIn(access *store.Access, crew, cookie string, devices int) ([]*http.Cookie, error) {
	var cookies []*http.Cookie
	for i := range devices {
		now := time.Now().UnixMilli()
		invite, err := access.Invite(crew, store.Member, "", now)
		if err != nil {
			return nil, err
		}
		name := fmt.Sprintf("load-%d", i)
		_, token, err := access.Enrol(store.Enrolment{Secret: invite.Secret, Name: name, Device: name, Now: now})
		if err != nil {
			return nil, err
		}
		cookies = append(cookies, &http.Cookie{Name: cookie, Value: token})
	}
	return cookies, nil
}
