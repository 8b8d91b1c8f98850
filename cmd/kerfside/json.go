package main

import (
	"encoding/json"
	"flag"
	"io"
	"time"

	"kerfside/server/backup"
	"kerfside/server/store"
)

// The keys of what -json prints stay: the page command of /help tells them.
type (
	// listed is a crew in "crew list".
	listed struct {
		ID     string `json:"id"`
		Name   string `json:"name"`
		Phones int    `json:"phones"`
		Owners int    `json:"owners"`
		State  string `json:"state"` // here, frozen, moved, gone, arriving or held: see the page spread
	}

	// phone is a phone in "crew devices".
	phone struct {
		ID      string     `json:"id"`
		Name    string     `json:"name"`
		Role    store.Role `json:"role"`
		Since   time.Time  `json:"since"`
		Seen    time.Time  `json:"seen"`
		Revoked *time.Time `json:"revoked"` // null if it was not
	}

	// audited is a line of "crew audit".
	audited struct {
		At    time.Time `json:"at"`
		What  string    `json:"what"`
		About string    `json:"about"` // id of a phone or an invitation, "" for the crew
		More  string    `json:"more"`
		By    string    `json:"by"` // id of a phone, "" for the command line
	}

	// invited is what "crew owner", "invite" and "new" made.
	invited struct {
		Crew    string     `json:"crew"`
		Role    store.Role `json:"role"`
		Link    string     `json:"link"`
		Code    string     `json:"code"`
		Address string     `json:"address"` // where the code is typed
		Expires time.Time  `json:"expires"`
	}

	// backedUp is what "backup" made.
	backedUp struct {
		File     string   `json:"file"`
		Entries  int64    `json:"entries"`
		Pictures int      `json:"pictures"` // new ones
		Removed  int      `json:"removed"`  // old backups
		Damaged  []string `json:"damaged"`  // ids of entries
		Spoilt   int      `json:"spoilt"`   // pictures left out
		SameDisk bool     `json:"same_disk"`
	}

	// restored is what "restore" put in place.
	restored struct {
		DB       string   `json:"db"`
		Entries  int64    `json:"entries"`
		Pictures int      `json:"pictures"`
		Damaged  []string `json:"damaged"`
		Former   string   `json:"former"` // file of the former database, "" if there was none
		Access   string   `json:"access"` // former or backup: by which the crews may be used
	}
)

func backedUpOf(b backup.Backup) backedUp {
	return backedUp{File: b.File, Entries: b.Events, Pictures: b.Pictures, Removed: b.Removed, Damaged: append([]string{}, b.Damaged...), Spoilt: b.Spoilt, SameDisk: b.SameDisk}
}

func restoredOf(db string, r backup.Restoration) restored {
	v := restored{DB: db, Entries: r.Events, Pictures: r.Pictures, Damaged: append([]string{}, r.Damaged...), Former: r.Aside, Access: "backup"}
	if r.Access {
		v.Access = "former"
	}
	return v
}

// timeOf is a stored time as JSON tells it, in UTC.
func timeOf(ms int64) time.Time { return time.UnixMilli(ms).UTC() }

// jsonFlag declares -json.
func jsonFlag(flags *flag.FlagSet, to *bool) {
	flags.BoolVar(to, "json", false, "print one JSON value instead of text")
}

// printJSON prints v as one JSON value.
func printJSON(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}
