package problem

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
)

func TestFromKeepsAProblemThroughWrapping(t *testing.T) {
	p := New(Range, "thickness", "40 mm is past this rig", "At most 12 mm.")
	got := From(fmt.Errorf("plan: %w", p))
	if got != p {
		t.Errorf("From(wrapped) = %v, want the problem itself", got)
	}
}

func TestFromHidesWhatIsNotAProblem(t *testing.T) {
	secret := errors.New("open /home/someone/kerfside.db: permission denied")
	got := From(secret)
	if got.Kind != Internal {
		t.Errorf("kind = %q, want %q", got.Kind, Internal)
	}
	if !errors.Is(got, secret) {
		t.Error("the cause is lost: the log could not name it")
	}
	b, err := json.Marshal(Envelope{got})
	if err != nil {
		t.Fatal(err)
	}
	if s := string(b); len(s) == 0 || strings.Contains(s, "someone") || strings.Contains(s, "permission") {
		t.Errorf("what is shown tells the cause: %s", s)
	}
}

func TestEnvelopeShape(t *testing.T) {
	b, err := json.Marshal(Envelope{New(Missing, "metal", "which metal?", "Pick one.")})
	if err != nil {
		t.Fatal(err)
	}
	const want = `{"error":{"kind":"missing","field":"metal","msg":"which metal?","hint":"Pick one."}}`
	if string(b) != want {
		t.Errorf("envelope = %s, want %s", b, want)
	}
}

func TestWithFieldKeepsTheFirstBlame(t *testing.T) {
	p := New(Range, "", "too thin", "At least 1 mm.").WithField("thickness")
	if p.Field != "thickness" {
		t.Errorf("field = %q, want thickness", p.Field)
	}
	if again := p.WithField("gauge"); again.Field != "thickness" {
		t.Errorf("blamed again: field = %q, want thickness still", again.Field)
	}
}
