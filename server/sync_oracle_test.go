package server

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"kerfside/server/store"
)

// plain is an event as the oracle reads it.
type plain struct {
	ID, Kind, About string
	T               string
	At              *int64
	Body            map[string]any
	o               string
}

// oracle walks over the events in order and counts.
func oracle(rows []store.Row) (stock map[string]int64, fails []string) {
	var list []plain
	for _, r := range rows {
		var e plain
		json.Unmarshal(r.Raw, &e)
		e.o = r.O.String()
		list = append(list, e)
	}
	slices.SortFunc(list, func(a, b plain) int { return strings.Compare(a.o+a.T+a.ID, b.o+b.T+b.ID) })
	void := map[any]bool{}
	for _, e := range list {
		if e.Kind == "void" {
			void[e.Body["of"]] = e.Body["on"] != false
		}
	}
	set := map[any]map[string]any{}
	cleared := map[any]bool{}
	for _, e := range list {
		if void[e.ID] {
			continue
		}
		switch e.Kind {
		case "amend":
			target := e.Body["of"]
			if set[target] == nil {
				set[target] = map[string]any{}
			}
			maps.Copy(set[target], e.Body["set"].(map[string]any))
		case "check.cleared":
			cleared[e.Body["of"]] = true
		}
	}
	when := func(e plain) string {
		if e.At != nil {
			if at := fmt.Sprintf("%012x0000", *e.At); at < e.o {
				return at
			}
		}
		return e.o
	}
	slices.SortStableFunc(list, func(a, b plain) int { return strings.Compare(when(a), when(b)) })
	stock = map[string]int64{}
	for _, e := range list {
		if void[e.ID] {
			continue
		}
		if e.Kind == "check.answered" && e.Body["result"] == "fail" && !cleared[e.ID] {
			fails = append(fails, e.ID)
		}
		maps.Copy(e.Body, set[e.ID])
		switch e.Kind {
		case "stock.moved":
			stock[e.About] += int64(e.Body["n"].(float64))
		case "stock.counted":
			stock[e.About] = int64(e.Body["n"].(float64))
		case "part.fitted":
			stock[e.Body["line"].(string)]--
		}
	}
	slices.Sort(fails)
	return stock, fails
}
