package fold

import (
	"cmp"

	"kerfside/calc/order"
)

// Thing is a rig or a site.
type Thing struct {
	ID   string   `json:"id"`
	Same []string `json:"same,omitempty"` // further ids that mean it
	Fields
}

// Things are the rigs and sites of the crew.
type Things struct {
	Rigs  []Thing `json:"rigs"`
	Sites []Thing `json:"sites"`
}

// Things returns the view rigs.
func (f *Fold) Things() Things {
	x := f.settled()
	rigs := map[string]register{}
	for id, r := range x.rigs {
		rigs[id] = r.fields
	}
	return Things{Rigs: x.things(rigs), Sites: x.things(x.sites)}
}

// things returns those of which something is set, by id.
func (x *index) things(all map[string]register) []Thing {
	list := []Thing{}
	for _, id := range order.Keys(all) {
		if v := all[id].view(); len(v.By) > 0 {
			list = append(list, Thing{ID: id, Same: x.aliases(id), Fields: v})
		}
	}
	return list
}

// aliases returns the other ids that mean the thing id.
func (x *index) aliases(id string) []string {
	var list []string
	for other := range x.same {
		if x.same.of(other) == id {
			list = append(list, other)
		}
	}
	order.Sort(list, cmp.Compare)
	return list
}
