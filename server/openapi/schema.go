package openapi

import (
	"fmt"
	"maps"
	"reflect"
	"strings"

	"kerfside/calc/form"
	"kerfside/calc/problem"
)

// named are the types that hold themselves, and that schemas therefore name.
var named = map[reflect.Type]string{
	reflect.TypeFor[problem.Error]():         "Problem",
	reflect.TypeFor[form.FieldDescription](): "Field",
}

// schemaOf is the schema of what package encoding/json writes of a type: of structs
// with tags, and of what they are made of.
func schemaOf(t reflect.Type) object {
	if name, ok := named[t]; ok {
		return ref(name)
	}
	switch t.Kind() {
	case reflect.Pointer:
		return schemaOf(t.Elem())
	case reflect.String:
		return object{"type": "string"}
	case reflect.Bool:
		return object{"type": "boolean"}
	case reflect.Int, reflect.Int64:
		return object{"type": "integer"}
	case reflect.Float64:
		return object{"type": "number"}
	case reflect.Slice:
		return object{"type": []string{"array", "null"}, "items": schemaOf(t.Elem())}
	case reflect.Map:
		return object{"type": []string{"object", "null"}, "additionalProperties": schemaOf(t.Elem())}
	case reflect.Struct:
		return structSchema(t)
	}
	panic(fmt.Sprintf("openapi: no schema for %v", t))
}

// structSchema requires what is written always.
func structSchema(t reflect.Type) object {
	properties, required := object{}, []string{}
	for i := range t.NumField() {
		f := t.Field(i)
		name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		if !f.IsExported() || name == "-" {
			continue
		}
		if f.Anonymous && name == "" {
			inner := structSchema(f.Type)
			maps.Copy(properties, inner["properties"].(object))
			required = append(required, inner["required"].([]string)...)
			continue
		}
		properties[name] = schemaOf(f.Type)
		if options != "omitempty" {
			required = append(required, name)
		}
	}
	return object{"type": "object", "properties": properties, "required": required, "additionalProperties": false}
}
