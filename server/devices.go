package server

import (
	"net/http"

	"github.com/gorilla/mux"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// shownDevice is a device as phones see it.
type shownDevice struct {
	ID      string     `json:"id"`
	Name    string     `json:"name"`
	Role    store.Role `json:"role"`
	Since   int64      `json:"since"`
	Seen    int64      `json:"seen"`
	Revoked int64      `json:"revoked"`
	Over    int64      `json:"over,omitempty"` // when its day's budget was last used up, if within a day
}

func show(d store.Device) shownDevice {
	return shownDevice{ID: d.ID, Name: d.Name, Role: d.Role, Since: d.Since, Seen: d.Seen, Revoked: d.Revoked, Over: 0}
}

// listDevices shows an owner the whole crew, a member itself.
func (s *Server) listDevices(w http.ResponseWriter, r *http.Request, who store.Device) error {
	crew, err := s.store.CrewByID(r.Context(), who.Crew)
	if err != nil {
		return err
	}
	list := []store.Device{who}
	if who.Role == store.Owner {
		if list, err = s.store.Devices(r.Context(), who.Crew); err != nil {
			return err
		}
	}
	shown := make([]shownDevice, 0, len(list))
	for _, d := range list {
		one := show(d)
		one.Over = s.budgets.over(d, s.now())
		shown = append(shown, one)
	}
	type named struct {
		ID   string `json:"id"`
		Name string `json:"name"`
	}
	writeJSON(w, http.StatusOK, struct {
		Me      string        `json:"me"`
		Crew    named         `json:"crew"`
		Devices []shownDevice `json:"devices"`
	}{Me: who.ID, Crew: named{crew.ID, crew.Name}, Devices: shown})
	return nil
}

// changeDevice gives a device another name or role.
func (s *Server) changeDevice(w http.ResponseWriter, r *http.Request, who store.Device) error {
	id := mux.Vars(r)["id"]
	var asked struct{ Name, Role *string }
	if err := readJSON(w, r, &asked); err != nil {
		return err
	}
	if who.Role != store.Owner && (id != who.ID || asked.Role != nil) {
		return errNotOwner
	}
	var c store.Change
	switch {
	case asked.Name == nil && asked.Role == nil:
		return problem.New(problem.Missing, "name", "there is neither a name nor a role", "Give one of them.")
	case asked.Name != nil && *asked.Name == "":
		return problem.New(problem.Missing, "name", "the name is empty", "Give the phone a name, such as Truck 2.")
	case asked.Name != nil:
		c.Name = *asked.Name
	}
	if asked.Role != nil {
		var err error
		if c.Role, err = store.ReadRole(*asked.Role); err != nil {
			return err
		}
	}
	if err := s.store.ChangeDevice(who.Crew, id, c, who.ID, s.now().UnixMilli()); err != nil {
		return err
	}
	if c.Role != "" {
		s.log.Info("a role was set", "crew", who.Crew, "device", id, "by", who.ID, "role", c.Role)
	}
	d, err := s.store.DeviceByID(r.Context(), who.Crew, id)
	if err != nil {
		return err
	}
	writeJSON(w, http.StatusOK, show(d))
	return nil
}

// revokeDevice takes a device out of the crew.
func (s *Server) revokeDevice(w http.ResponseWriter, r *http.Request, who store.Device) error {
	id := mux.Vars(r)["id"]
	if who.Role != store.Owner && id != who.ID {
		return errNotOwner
	}
	if err := s.store.Revoke(who.Crew, id, who.ID, s.now().UnixMilli()); err != nil {
		return err
	}
	s.log.Info("a phone was revoked", "crew", who.Crew, "device", id, "by", who.ID)
	w.WriteHeader(http.StatusNoContent)
	return nil
}
