// Package openapi describes the calculators' addresses as an OpenAPI document, made
// from their declarations, for tools that call them.
//
// It follows OpenAPI 3.1, whose schemas are JSON Schema 2020-12.
package openapi

import (
	"encoding/json"
	"fmt"
	"reflect"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/registry"
)

// object is a JSON object as it is written.
type object map[string]any

// Document returns the description of GET /api/calc and of POST /api/calc/NAME for
// each calculator. version is the program's.
func Document(version string) ([]byte, error) {
	calculators := registry.All()
	paths := object{"/api/calc": object{"get": object{
		"operationId": "listCalculators",
		"summary":     "Describe every calculator",
		"responses": object{
			"200":     answered("The calculators.", object{"type": "array", "items": ref("Calculator")}),
			"default": failed(),
		},
	}}}
	schemas := object{
		"Calculator": schemaOf(reflect.TypeFor[form.Description]()),
		"Value":      schemaOf(reflect.TypeFor[form.Value]()),
		"Error":      object{"type": "object", "required": []string{"error"}, "properties": object{"error": ref("Problem")}},
		"Result":     anyOf(ref("Value"), object{"type": []string{"string", "boolean"}}, object{"type": "array", "items": ref("Row")}),
		"Row":        object{"type": "object", "additionalProperties": ref("Result")},
		"Answer":     answerSchema(ref("Row")),
	}
	for t, name := range named {
		schemas[name] = structSchema(t)
	}
	for _, c := range calculators {
		paths["/api/calc/"+c.Name] = object{"post": post(c)}
		schemas[c.Name+"-input"] = inputSchema(c)
		schemas[c.Name+"-results"] = resultsSchema(c)
		schemas[c.Name+"-answer"] = answerSchema(ref(c.Name + "-results"))
	}
	return json.MarshalIndent(object{
		"openapi": "3.1.0",
		"info": object{
			"title":   "Kerfside's calculators",
			"version": version,
			"description": fmt.Sprintf("%d calculators for cutting with a hand-held air plasma cutter. Figures are computed estimates: try them on scrap; the torch's manual wins. ", len(calculators)) +
				"A field takes text as typed, with its unit, or a bare number. Results are in SI, with texts to show.",
		},
		"servers":    []object{{"url": "/"}},
		"paths":      paths,
		"components": object{"schemas": schemas},
	}, "", " ")
}

// post is the address of one calculator.
func post(c *form.Calculator) object {
	return object{
		"operationId": c.Name,
		"summary":     c.Title,
		"description": c.About,
		"requestBody": object{"required": true, "content": inJSON(ref(c.Name + "-input"))},
		"responses": object{
			"200":     answered("What it tells.", ref(c.Name+"-answer")),
			"default": failed(),
		},
	}
}

func answered(what string, schema object) object {
	return object{"description": what, "content": inJSON(schema)}
}

// failed is the one shape of errors, whatever the status.
func failed() object {
	return answered("What was wrong, in which field, and what to do. 400 is for what cannot be read, 422 for a value that cannot be or is missing. 413 is for too much at once, 429 for too often.", ref("Error"))
}

func inJSON(schema object) object { return object{"application/json": object{"schema": schema}} }

func ref(name string) object { return object{"$ref": "#/components/schemas/" + name} }

func anyOf(schemas ...object) object { return object{"anyOf": schemas} }

// with returns a schema with more said of it.
func with(schema object, more object) object {
	for key, value := range more {
		schema[key] = value
	}
	return schema
}

// sentences joins what is not empty, each ended by one full stop.
func sentences(parts ...string) string {
	var all []string
	for _, p := range parts {
		if p != "" {
			all = append(all, strings.TrimSuffix(p, ".")+".")
		}
	}
	return strings.Join(all, " ")
}
