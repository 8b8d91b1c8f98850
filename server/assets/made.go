package assets

import (
	"encoding/json"
	"io/fs"

	"kerfside/calc/cutting"
	"kerfside/calc/diagnose"
	"kerfside/calc/journal/event"
	"kerfside/calc/registry"
	"kerfside/guides"
	"kerfside/pwa"
)

// addMade adds the files that are made from others or from Go.
func addMade(raw map[string][]byte, markdown fs.FS) error {
	raw[styleFile] = styleSheet(raw)
	if err := fillTemplates(raw); err != nil {
		return err
	}
	made := map[string]any{
		"gen/calculators.json": registry.Describe(),
		"gen/corrections.json": event.AskedFields(),
		"gen/stops.json":       cutting.Stops(),
		"gen/faults.json": map[string]any{
			"signs": diagnose.Signs, "groups": diagnose.SignGroups, "causes": diagnose.Causes, "checks": diagnose.Checks,
			"pictures": diagnose.SignPictures,
		},
	}
	drawings, err := StillDrawings(raw)
	if err != nil {
		return err
	}
	made["gen/drawings.json"] = drawings
	for _, one := range registry.Describe() {
		if one.Name == "cut-plan" { // the first screen asks for this one alone: all of them would keep it waiting
			made["gen/cut-plan.json"] = one
		}
	}
	for name, value := range made {
		var err error
		if raw[name], err = json.Marshal(value); err != nil {
			return err
		}
	}
	return addGuides(raw, markdown)
}

// fillTemplates puts their words into the templates.
func fillTemplates(raw map[string][]byte) error {
	words, err := pwa.ReadWords(raw)
	if err != nil {
		return err
	}
	for name, template := range raw {
		if isFragment(name) {
			if raw[name], err = pwa.FillWords(name, template, words); err != nil {
				return err
			}
		}
	}
	return nil
}

// addGuides adds the guides, with their index and what a search looks through.
func addGuides(raw map[string][]byte, markdown fs.FS) error {
	library, err := guides.Load(markdown)
	if err != nil {
		return err
	}
	raw["gen/guides.json"] = library.IndexJSON()
	raw["gen/search.json"] = library.SearchJSON()
	for _, entry := range library.Index() {
		if raw["gen/guide/"+entry.ID+".json"], err = library.JSON(entry.ID); err != nil {
			return err
		}
	}
	return nil
}
