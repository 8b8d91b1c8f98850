package openapi

import (
	"reflect"

	"kerfside/calc/form"
)

// inputSchema is what a calculator takes.
func inputSchema(c *form.Calculator) object {
	fields, needed := object{
		"units": object{"description": "System of units of the texts in the answer.", "anyOf": []object{{"enum": []string{"metric", "us"}}, {"type": "string"}, {"type": "null"}}, "default": "metric"},
		"rig":   object{"type": "object", "description": "What is kept of the rig in use: fields that belong to a rig are taken from it where they are not given."},
		"site":  object{"type": "object", "description": "What is kept of the site in use, as rig."},
	}, []string{}
	for _, f := range c.Describe().Fields {
		fields[f.Key] = fieldSchema(f)
		if isNeeded(f) {
			needed = append(needed, f.Key)
		}
	}
	return object{"type": "object", "properties": fields, "required": needed, "additionalProperties": false}
}

func isNeeded(f form.FieldDescription) bool {
	return f.Default == "" && !f.Optional && f.Only == nil && f.Owner == "" && f.Known == ""
}

// listSchema is a list field: rows, or a text that says them.
func listSchema(f form.FieldDescription) object {
	cells, needed := object{}, []string{}
	for _, cell := range f.Rows.Fields {
		cells[cell.Key] = fieldSchema(cell)
		if isNeeded(cell) {
			needed = append(needed, cell.Key)
		}
	}
	row := object{"type": "object", "title": f.Rows.Name, "properties": cells, "required": needed, "additionalProperties": false,
		"patternProperties": object{"^_": object{"type": []string{"string", "number", "boolean", "null"}, "description": "Belongs to the sender, and goes along with its row."}}}
	return anyOf(object{"type": "array", "maxItems": f.Rows.Most, "items": row}, object{"type": []string{"string", "null"}})
}

// fieldSchema is one field. A field that has an owner is needed only where the rig or
// the site does not have it, so that it is not required here.
func fieldSchema(f form.FieldDescription) object {
	entered := object{"type": []string{"string", "number", "boolean", "null"}}
	if f.Kind == form.KindChoice || f.Kind == form.KindYesNo {
		words := []string{"yes", "no"}
		if f.Kind == form.KindChoice {
			words = nil
		}
		for _, c := range f.Choices {
			words = append(words, c.Word)
		}
		entered = anyOf(object{"enum": words}, entered) // what it reads besides: capitals, labels, other spellings
	}
	if f.Kind == form.KindList {
		entered = listSchema(f)
	}
	said := object{"title": f.Label, "description": sentences(f.Help, f.Allowed, basis(f))}
	if f.Default != "" {
		said["default"] = f.Default
	}
	if len(f.Chips) > 0 {
		said["examples"] = f.Chips
	}
	return with(entered, said)
}

func basis(f form.FieldDescription) string {
	if f.Default == "" || f.Basis == "" {
		return ""
	}
	return "The default is " + f.Basis
}

// resultsSchema is what a calculator tells. Which of its results are there depends on
// what was entered.
func resultsSchema(c *form.Calculator) object {
	results := object{}
	for _, r := range c.Results {
		results[r.Key] = with(resultSchema(&r), object{"title": r.Label})
	}
	return object{"type": "object", "properties": results, "additionalProperties": false}
}

func resultSchema(r *form.Result) object {
	switch r.Gives.Kind {
	case form.KindYesNo:
		return object{"type": "boolean"}
	case form.KindChoice, form.KindText:
		return object{"type": "string"}
	case form.KindRows:
		return object{"type": "array", "items": ref("Row")}
	case form.KindCount, form.KindFactor:
		return ofUnit("1")
	}
	number := ref("Value") // which quantity may depend on what was entered
	if r.Gives.Quantity != nil {
		number = ofUnit(r.Gives.Quantity.SI)
	}
	return anyOf(number, object{"type": "string", "description": "In words, where there is no figure."})
}

// ofUnit is a value in that unit of the SI.
func ofUnit(unit string) object {
	return with(ref("Value"), object{"type": "object", "properties": object{"unit": object{"const": unit}}})
}

// answerSchema is an answer whose results are of that schema.
func answerSchema(results object) object {
	return object{
		"type":     "object",
		"required": []string{"results", "cautions", "working", "sources"},
		"properties": object{
			"results":  results,
			"cautions": with(object{"description": "What to heed, in sentences."}, listOf[string]()),
			"working":  with(object{"description": "The sum, step by step."}, listOf[string]()),
			"sources": object{"type": "array", "items": object{
				"type": "object", "required": []string{"id", "text"},
				"properties": object{"id": object{"type": "string"}, "text": object{"type": "string"}},
			}},
			"pictures": object{"type": "array", "items": object{
				"type": "object", "required": []string{"name"},
				"properties": object{"name": object{"type": "string"}, "params": object{"type": "object"}},
			}},
			"lengths": object{"type": "array", "description": "Lengths of the pictures: in mm, and as they are told.", "items": object{
				"type": "array", "prefixItems": []object{{"type": "number"}, {"type": "string"}}, "items": false,
			}},
			"templates": with(object{"description": "What can be printed at 1:1."}, listOf[form.Offered]()),
			"cuts":      with(object{"description": "Cuts that follow, as the fields of a cut plan or of a row of a job."}, listOf[form.Onward]()),
			"parts":     object{"type": "object", "description": "Answers of other calculators, reckoned on the way.", "additionalProperties": ref("Answer")},
		},
		"additionalProperties": false,
	}
}

// listOf is a list of what that type is written as.
func listOf[T any]() object { return object{"type": "array", "items": schemaOf(reflect.TypeFor[T]())} }
