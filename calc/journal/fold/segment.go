package fold

import (
	"encoding/hex"
	"fmt"
	"strings"

	"kerfside/calc/journal/event"
)

// Segment is one record of the store snapshot. Its data is a first line, which names
// the segment below by its hash, and then one line for each fact or confirmation. The
// top segment ends in its seal; one with empty data holds nothing.
type Segment struct {
	Name string `json:"name"` // its number in six digits
	Fold int    `json:"fold"` // FoldVersion
	L    int64  `json:"l"`    // local change number up to which it holds all changes
	Data string `json:"data"`
}

// How many lines make a segment, and how many new ones make it worth writing.
const (
	segmentLines = 1000 // of a full segment, which never changes again
	writeAfter   = 100  // after so many the top segment is written anew
)

func segmentName(i int) string { return fmt.Sprintf("%06d", i) }

func segmentHash(data string) string {
	sum := event.SumOf([]byte(data))
	return hex.EncodeToString(sum[:16])
}

// sealMark begins the last line of the top segment. A full segment is named by the
// one above it; nothing stands above the top one, so it ends in its own hash.
const sealMark = "\n#\t"

func seal(data string) string { return data + sealMark + segmentHash(data) }

// unseal returns the data of a top segment if it is as it was written.
func unseal(text string) (string, error) {
	data, _, _ := strings.Cut(text, sealMark)
	if seal(data) != text {
		return "", fmt.Errorf("it is damaged")
	}
	return data, nil
}
