package form

import "slices"

// Pick returns the fields of those keys, in the order of the keys, for a calculator
// that asks some of what another one declares.
func Pick(fields []Field, keys ...string) []Field {
	picked := make([]Field, len(keys))
	for i, key := range keys {
		at := slices.IndexFunc(fields, func(f Field) bool { return f.Key == key })
		if at < 0 {
			panic("form: no field " + key + " to pick")
		}
		picked[i] = fields[at]
	}
	return picked
}

// Without returns the fields but those of these keys.
func Without(fields []Field, keys ...string) []Field {
	return slices.DeleteFunc(slices.Clone(fields), func(f Field) bool { return slices.Contains(keys, f.Key) })
}
