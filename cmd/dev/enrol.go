package main

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"time"

	"kerfside/server/store"
)

// enrol lets so many devices join the crew and returns the cookie of each. It
// goes to the database, as the command line does: by way of the network so many
// would be told to slow down.
func (r *release) enrol(devices int) ([]*http.Cookie, error) {
	access, err := store.OpenAccess(r.db())
	if err != nil {
		return nil, err
	}
	defer access.Close()
	crews, err := access.Crews(context.Background())
	if err != nil || len(crews) == 0 {
		return nil, fmt.Errorf("find the crew: %w", err)
	}
	_, port, err := net.SplitHostPort(r.addr)
	if err != nil {
		return nil, err
	}
	var cookies []*http.Cookie
	for i := range devices {
		now := time.Now().UnixMilli()
		invite, err := access.Invite(crews[0].ID, store.Member, "", now)
		if err != nil {
			return nil, err
		}
		name := fmt.Sprintf("load-%d", i)
		_, token, err := access.Enrol(store.Enrolment{Secret: invite.Secret, Name: name, Device: name, Now: now})
		if err != nil {
			return nil, err
		}
		cookies = append(cookies, &http.Cookie{Name: "kerfside-" + port, Value: token})
	}
	return cookies, nil
}
