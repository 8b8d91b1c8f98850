package shapes

import "go/types"

// assets are the files of JSON that the server makes from Go, or what stands under one
// key of them: what has their type in a package, or a function that returns it.
var assets = []struct {
	name, key, path, object string
	list                    bool // of the type that object is
}{
	{name: "gen/calculators.json", path: "calc/registry", object: "Describe"},
	{name: "gen/cut-plan.json", path: "calc/form", object: "Description"},
	{name: "gen/corrections.json", path: "calc/journal/event", object: "AskedFields"},
	{name: "gen/stops.json", path: "calc/cutting", object: "Stops"},
	{name: "gen/faults.json", key: "signs", path: "calc/diagnose", object: "Signs"},
	{name: "gen/faults.json", key: "groups", path: "calc/diagnose", object: "SignGroups"},
	{name: "gen/faults.json", key: "causes", path: "calc/diagnose", object: "Causes"},
	{name: "gen/faults.json", key: "checks", path: "calc/diagnose", object: "Checks"},
	{name: "gen/faults.json", key: "pictures", path: "calc/diagnose", object: "SignPictures"},
	{name: "gen/drawings.json", path: "server/assets", object: "StillDrawings"},
	{name: "gen/guides.json", path: "guides", object: "Entry", list: true},
	{name: "gen/search.json", path: "guides", object: "SearchIndex"},
	{name: "gen/guide/{id}.json", path: "guides", object: "Guide"},
}

// declareAssets declares those files.
func (d *declarations) declareAssets() error {
	d.file = serverFile
	rows, parts := map[string]string{}, map[string]string{}
	for _, a := range assets {
		o, err := d.source.object(a.path, a.object)
		if err != nil {
			return err
		}
		t := o.Type()
		if f, ok := t.(*types.Signature); ok {
			t = f.Results().At(0).Type()
		}
		if a.list {
			t = types.NewSlice(t)
		}
		if a.key == "" {
			rows[a.name] = d.typed(t)
			continue
		}
		parts[a.name] += a.key + ": " + d.typed(t) + "; "
		rows[a.name] = "{ " + parts[a.name] + "}"
	}
	d.table("Assets", "The files of JSON that the server makes from Go, by name.", rows)
	return nil
}
