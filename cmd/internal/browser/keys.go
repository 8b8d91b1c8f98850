package browser

import (
	"math"
	"strconv"
	"time"
)

// keys are the keys that Key knows: their code and number, what they type,
// and how WebDriver writes them.
var keys = map[string]struct {
	code   string
	number int
	text   string
	mark   string // "" for a key that WebDriver has no sign for
}{
	"Enter":          {code: "Enter", number: 13, text: "\r", mark: "\ue007"},
	"Tab":            {code: "Tab", number: 9, mark: "\ue004"},
	"Escape":         {code: "Escape", number: 27, mark: "\ue00c"},
	"Space":          {code: "Space", number: 32, text: " ", mark: " "},
	"Backspace":      {code: "Backspace", number: 8, mark: "\ue003"},
	"ArrowLeft":      {code: "ArrowLeft", number: 37, mark: "\ue012"},
	"ArrowUp":        {code: "ArrowUp", number: 38, mark: "\ue013"},
	"ArrowRight":     {code: "ArrowRight", number: 39, mark: "\ue014"},
	"ArrowDown":      {code: "ArrowDown", number: 40, mark: "\ue015"},
	"MediaPlayPause": {code: "MediaPlayPause", number: 179},
	"-":              {code: "Minus", number: 189, text: "-", mark: "-"},
	".":              {code: "Period", number: 190, text: ".", mark: "."},
	"/":              {code: "Slash", number: 191, text: "/", mark: "/"},
}

func init() {
	for digit := 0; digit <= 9; digit++ {
		text := strconv.Itoa(digit)
		k := keys["/"]
		k.code, k.number, k.text, k.mark = "Digit"+text, '0'+digit, text, text
		keys[text] = k
	}
}

// pressing is a finger on the glass, in the words that WebDriver and WebDriver
// BiDi share.
func pressing(pointer string, x, y float64, hold time.Duration) []any {
	return []any{map[string]any{
		"type": "pointer", "id": "finger", "parameters": map[string]any{"pointerType": pointer},
		"actions": []any{
			map[string]any{"type": "pointerMove", "duration": 0, "x": math.Round(x), "y": math.Round(y)},
			map[string]any{"type": "pointerDown", "button": 0},
			map[string]any{"type": "pause", "duration": hold.Milliseconds()},
			map[string]any{"type": "pointerUp", "button": 0},
		},
	}}
}

// typing is one key after the other, each written as WebDriver does.
func typing(text string) []any {
	actions := []any{}
	for _, r := range text {
		for _, way := range []string{"keyDown", "keyUp"} {
			actions = append(actions, map[string]any{"type": way, "value": string(r)})
		}
	}
	return []any{map[string]any{"type": "key", "id": "keys", "actions": actions}}
}

// asText makes an expression that is a promise of another's value in JSON.
func asText(expression string) string {
	return "(async () => JSON.stringify(await (" + expression + "\n)))()"
}
