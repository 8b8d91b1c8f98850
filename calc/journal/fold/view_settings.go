package fold

import "slices"

// Settings is the view settings.
type Settings struct {
	Devices map[string]Fields `json:"devices"`
}

// ownSettings never leave the phone that they are entered on. Earlier versions
// wrote the number to call into the journal.
var ownSettings = []string{"emergency", "watcher"}

// Settings returns the settings of all devices, without what should be on that
// phone alone; a phone takes its own.
func (f *Fold) Settings() Settings {
	v := Settings{Devices: map[string]Fields{}}
	for id, r := range f.settled().devices {
		fields := r.view()
		for _, own := range ownSettings {
			delete(fields.Fields, own)
			delete(fields.By, own)
		}
		fields.Also = slices.DeleteFunc(fields.Also, func(a LostValue) bool { return slices.Contains(ownSettings, a.Field) })
		v.Devices[id] = fields
	}
	return v
}
