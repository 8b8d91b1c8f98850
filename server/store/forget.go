package store

import (
	"context"
	"database/sql"
	"fmt"

	"kerfside/calc/journal/event"
	"kerfside/calc/journal/exchange"
	"kerfside/calc/problem"
)

// Written is what the journal holds of a device.
type Written struct {
	Entries  int // its own, what is set about it, and what amends or removes one of its own
	Pictures int // that these name
	Damaged  int // of the entries: bytes that do not fit their sum, and cannot be taken out
}

// WrittenBy counts what Forget would take out.
func (a *Access) WrittenBy(ctx context.Context, crew, device string) (Written, error) {
	if _, err := a.DeviceByID(ctx, crew, device); err != nil {
		return Written{}, err
	}
	f, err := a.find(ctx, crew, device)
	return f.Written, err
}

// Forget takes out of the journal what a device wrote, at most so many entries at a
// time, as Erase does. It returns how many are left, and may be broken off and asked
// again. A device of the crew is taken off first. When none is left, the device and
// what the audit says of it go too, and a restore of an older backup does not bring
// them back. The stubs go on naming its id, which is random and then nobody's.
//
// by is the owner's device, which cannot forget itself: its token would end before
// the work does.
func (a *Access) Forget(ctx context.Context, crew, device, by string, now int64, most int) (done, left int, err error) {
	if device == by {
		return 0, 0, problem.New(problem.Refused, "id", "a phone cannot forget itself", "Let another owner's phone forget this one.")
	}
	if a.gone.path == "" {
		return 0, 0, problem.New(problem.Refused, "db", "a store in memory keeps no list of erasures", "Give the file of a database.")
	}
	if err := a.Revoke(crew, device, by, now); err != nil {
		return 0, 0, err
	}
	if err := a.takeOut(ctx, crew, nil); err != nil { // what was broken off in between
		return 0, 0, err
	}
	f, err := a.find(ctx, crew, device)
	if err != nil {
		return 0, 0, err
	}
	var lines []any
	for _, raw := range f.raws[:min(most, len(f.raws))] {
		list, err := exchange.Erase(raw)
		if err != nil {
			return 0, 0, err
		}
		for _, e := range list {
			lines = append(lines, erasedLine{Crew: crew, Erasure: e, At: now})
		}
		done++
	}
	left = f.Entries - done
	if left == 0 {
		lines = append(lines, forgottenLine{Crew: crew, Device: device, At: now})
	}
	if err := a.takeOut(ctx, crew, lines); err != nil {
		return 0, left, err
	}
	switch left {
	case 0:
		return done, 0, a.Audit(crew, AuditLine{At: now, What: Forgotten, Who: by})
	case f.Damaged:
		return done, left, problem.Newf(problem.Busy, "id", "%d of its entries are damaged on the server and cannot be taken out yet", f.Damaged).
			WithHint("Let the crew's phones sync, so that they bring them again. Then go on.")
	}
	return done, left, nil
}

// removeForgotten removes the rows of devices that were forgotten and what the audit
// says of them. A phone that joined again since is another matter.
func removeForgotten(ctx context.Context, tx *sql.Tx, crew int64, forgotten map[string]int64) error {
	for device, at := range forgotten {
		if _, err := tx.ExecContext(ctx, `DELETE FROM audit WHERE crew = ? AND ? IN (who, about) AND at <= ?`, crew, device, at); err != nil {
			return fmt.Errorf("forget what the audit says of a device: %w", err)
		}
		if _, err := tx.ExecContext(ctx, `DELETE FROM device WHERE crew = ? AND id = ? AND since <= ?`, crew, device, at); err != nil {
			return fmt.Errorf("forget a device: %w", err)
		}
	}
	return nil
}

// found is what a look through the journal found of a device.
type found struct {
	Written
	raws [][]byte // of entries that can be taken out
}

// find looks through the whole journal of a crew.
func (a *Access) find(ctx context.Context, crew, device string) (f found, err error) {
	// A backslash may write the letters of the id otherwise.
	rows, err := a.read.QueryContext(ctx, `SELECT sum, raw FROM event e JOIN crew c ON e.crew = c.key
		WHERE c.id = ?1 AND (instr(raw, CAST(?2 AS BLOB)) > 0 OR instr(raw, CAST('\' AS BLOB)) > 0
			OR instr(raw, CAST('"amend"' AS BLOB)) > 0 OR instr(raw, CAST('"void"' AS BLOB)) > 0) ORDER BY n`, crew, device)
	if err != nil {
		return f, fmt.Errorf("look for the entries of device %s: %w", device, err)
	}
	defer rows.Close()
	own, pictures := map[string]bool{}, map[string]bool{}
	type amendment struct {
		of  string
		raw []byte
	}
	var amendments []amendment // by other phones
	for rows.Next() {
		var sum, raw []byte
		if err := rows.Scan(&sum, &raw); err != nil {
			return f, fmt.Errorf("look for the entries of device %s: %w", device, err)
		}
		e, err := event.Decode(raw)
		if err != nil {
			continue // not even damage tells whose it is
		}
		if e.Device == device {
			own[e.ID] = true
		}
		of := ""
		if e.Kind == "amend" || e.Kind == "void" {
			of = event.ReadBody(e.Body).Text("of")
		}
		isOwn := e.Device == device || e.Kind == "setting.set" && e.About == device
		switch {
		case e.Kind == event.ErasedKind:
		case isOwn && event.SumOf(raw) != event.Sum(sum):
			f.Damaged++
		case isOwn:
			f.raws = append(f.raws, raw)
			if name := exchange.PictureOf(e); name != "" {
				pictures[name] = true
			}
		case of != "" && event.SumOf(raw) == event.Sum(sum):
			amendments = append(amendments, amendment{of, raw})
		}
	}
	for _, one := range amendments {
		if own[one.of] {
			f.raws = append(f.raws, one.raw)
		}
	}
	f.Entries, f.Pictures = len(f.raws)+f.Damaged, len(pictures)
	return f, rows.Err()
}
