package server

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"kerfside/calc/problem"
	"kerfside/calc/registry"
	"kerfside/calc/vector"
	"kerfside/server/openapi"
)

// described holds the document of the calculators to JSON Schema, as a general
// validator reads it.
type described struct {
	t        *testing.T
	compiler *jsonschema.Compiler
	document any
}

// describe validates the document with the schema of OpenAPI 3.1 by its makers, which
// its $id names, and each schema in it with that of JSON Schema.
func describe(t *testing.T, document []byte) *described {
	t.Helper()
	d := &described{t: t, compiler: jsonschema.NewCompiler(), document: readValue(t, document)}
	official, err := os.ReadFile("openapi/testdata/openapi-3.1.json")
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]any{"official": readValue(t, official), "document": d.document} {
		if err := d.compiler.AddResource("https://kerfside.example/"+name, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := d.compiler.MustCompile("https://kerfside.example/official").Validate(d.document); err != nil {
		t.Fatalf("it is no OpenAPI document: %v", err)
	}
	for name := range d.at("components", "schemas").(map[string]any) {
		d.schema(name)
	}
	return d
}

// at finds what stands in the document under the keys.
func (d *described) at(keys ...string) any {
	v := d.document
	for _, key := range keys {
		o, ok := v.(map[string]any)
		if !ok || o[key] == nil {
			d.t.Fatalf("the document has nothing under %v", keys)
		}
		v = o[key]
	}
	return v
}

func (d *described) schema(name string) *jsonschema.Schema {
	d.t.Helper()
	s, err := d.compiler.Compile("https://kerfside.example/document#/components/schemas/" + name)
	if err != nil {
		d.t.Fatalf("schema %s: %v", name, err)
	}
	return s
}

func readValue(t *testing.T, text []byte) any {
	t.Helper()
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatalf("%v: %.200s", err, text)
	}
	return v
}

// inWire is a value as it crosses the wire.
func inWire(t *testing.T, v any) any {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return readValue(t, text)
}

// TestOpenAPI: the document of the calculators is one of OpenAPI 3.1, and each check
// value's input, answer or error fits it.
func TestOpenAPI(t *testing.T) {
	text, err := openapi.Document("v0")
	if err != nil {
		t.Fatal(err)
	}
	d := describe(t, text)
	failure, answers, errors := d.schema("Error"), 0, 0
	for _, c := range registry.All() {
		d.at("paths", "/api/calc/"+c.Name, "post")
		input, answer := d.schema(c.Name+"-input"), d.schema(c.Name+"-answer")
		file, err := os.ReadFile("../testdata/calc/" + c.Name + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		cases, err := vector.Parse(string(file))
		if err != nil {
			t.Fatal(err)
		}
		for _, check := range cases {
			got, err := c.Calculate(check.Input)
			if err != nil {
				errors++
				if trouble := failure.Validate(inWire(t, problem.Envelope{Error: problem.From(err)})); trouble != nil {
					t.Errorf("%s, %s: the error does not fit: %v", c.Name, check.Name, trouble)
				}
				continue
			}
			answers++
			if trouble := input.Validate(readValue(t, check.Input)); trouble != nil {
				t.Errorf("%s, %s: the input does not fit: %v", c.Name, check.Name, trouble)
			}
			if trouble := answer.Validate(inWire(t, got)); trouble != nil {
				t.Errorf("%s, %s: the answer does not fit: %v", c.Name, check.Name, trouble)
			}
		}
	}
	if answers < 800 || errors < 300 {
		t.Errorf("only %d answers and %d errors were held to it", answers, errors)
	}
	t.Logf("tally: %d answers and errors held to the OpenAPI document", answers+errors)
}

// TestOpenAPIRefuses: what is not so does not fit.
func TestOpenAPIRefuses(t *testing.T) {
	text, err := openapi.Document("v0")
	if err != nil {
		t.Fatal(err)
	}
	d := describe(t, text)
	for schema, values := range map[string][]string{
		"air-tank-input":   {`[]`, `{}`, `{"free_air":"5cfm","tank":"60l","demand":[1]}`, `{"free_air":"5cfm","tank":"60l","demand":"4cfm","dmeand":1}`},
		"air-tank-results": {`{"verdict":1}`, `{"fill":{"value":1,"unit":"min","text":"1 min"}}`, `{"fill":{"value":1,"unit":"s"}}`, `{"file":"x"}`},
		"air-tank-answer":  {`{"results":{}}`, `{"results":{},"cautions":null,"working":[],"sources":[]}`},
		"Error":            {`{}`, `{"error":{"kind":"range"}}`, `{"error":{"kind":"range","msg":1}}`},
		"Calculator":       {`{"name":"x"}`},
	} {
		for _, value := range values {
			if d.schema(schema).Validate(readValue(t, []byte(value))) == nil {
				t.Errorf("%s takes %s", schema, value)
			}
		}
	}
}

// TestOpenAPIServed asks a server for the document, and holds what it answers there
// and then to it.
func TestOpenAPIServed(t *testing.T) {
	anyone := client{shop: newShop(t)}
	ask := func(method, path, body string) (int, []byte) {
		reply := anyone.send(method, path, body)
		return reply.Code, reply.Body.Bytes()
	}
	status, text := ask("GET", "/api/calc/openapi.json", "")
	if status != 200 {
		t.Fatalf("status %d: %s", status, text)
	}
	d := describe(t, text)
	_, list := ask("GET", "/api/calc", "")
	all, ok := readValue(t, list).([]any)
	if !ok || len(all) != len(registry.Names()) {
		t.Errorf("GET /api/calc answers %.100s", list)
	}
	for _, one := range all {
		if err := d.schema("Calculator").Validate(one); err != nil {
			t.Error(err)
		}
	}
	for _, c := range []struct {
		path, body, schema string
		status             int
	}{
		{path: "cut-plan", body: `{"metal":"mild-steel","thickness":"1/4in","tips":"25:0.8mm,45:1.05mm"}`, schema: "cut-plan-answer", status: 200},
		{path: "air-tank", body: `{"free_air":"5cfm","tank":"60l","demand":"4cfm","units":"us"}`, schema: "air-tank-answer", status: 200},
		{path: "air-tank", body: `{"free_air":"plenty"}`, schema: "Error", status: 400},
		{path: "air-tank", body: `{"free_air":"5cfm"}`, schema: "Error", status: 422},
		{path: "air-tank", body: `{`, schema: "Error", status: 400},
		{path: "no-such-sum", body: `{}`, schema: "Error", status: 422},
		{path: "air-tank", body: strings.Repeat(" ", maxCalcBody+1), schema: "Error", status: 413},
	} {
		status, text := ask("POST", "/api/calc/"+c.path, c.body)
		if err := d.schema(c.schema).Validate(readValue(t, text)); err != nil || status != c.status {
			t.Errorf("POST %s %.80s: status %d, want %d; %v", c.path, c.body, status, c.status, err)
		}
	}
}
