package site

import (
	"strings"

	"kerfside/calc/form"
)

// whose says what of the air and the power here is the truck's and what the
// site's own, and which plate the volts pick; "" where nothing was kept.
func whose(r *form.Reader, in Input) string {
	var text []string
	for _, of := range []struct {
		owner form.Owner
		says  string
	}{{form.OfTruck, "The truck's: "}, {form.OfSite, "This site's own: "}} {
		var list []string
		for _, item := range []struct{ key, name string }{{"compressor", "compressor"}, {"hose", "air hose"}, {"cord", "cord"}} {
			if r.FromOf(item.key) == of.owner {
				list = append(list, item.name)
			}
		}
		if list != nil {
			text = append(text, of.says+strings.Join(list, ", ")+".")
		}
	}
	if v := in.Plan.Rig.Inlet; v.Other != nil && v.Known {
		text = append(text, "The machine's plate for "+v.Name()+".")
	}
	return strings.Join(text, " ")
}
