package book

import (
	"encoding/json"
	"strconv"
)

func itoa(n int64) string { return strconv.FormatInt(n, 10) }

func jsonOf(v any) (string, error) {
	raw, err := json.Marshal(v)
	return string(raw), err
}
