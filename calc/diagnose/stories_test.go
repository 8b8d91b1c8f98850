package diagnose

import (
	"os"
	"strconv"
	"strings"
	"testing"
)

// story is one case of testdata/diagnose/stories.txt; its head says the form.
type story struct {
	name   string
	seen   Seen
	was    []string
	within int
	is     State
}

func readStories(t *testing.T) []story {
	return readStoryFile(t, "stories.txt")
}

func readStoryFile(t *testing.T, name string) []story {
	t.Helper()
	text, err := os.ReadFile("../../testdata/diagnose/" + name)
	if err != nil {
		t.Fatal(err)
	}
	var stories []story
	for n, line := range strings.Split(string(text), "\n") {
		word, rest, _ := strings.Cut(strings.TrimSpace(line), " ")
		rest = strings.TrimSpace(rest)
		if word == "" || word == "#" || strings.HasPrefix(word, "#") {
			continue
		}
		if word == "story" {
			stories = append(stories, story{name: rest, within: 2, seen: Seen{Answers: map[string]bool{}, Context: Context{TipMinutes: -1, ElectrodeMinutes: -1, DrainMinutes: -1}}})
			continue
		}
		s := &stories[len(stories)-1]
		switch word {
		case "signs", "absent":
			for _, key := range strings.Fields(rest) {
				if !has(Signs, key) {
					t.Fatalf("line %d: no sign %q", n+1, key)
				}
				s.seen.Answers[key] = word == "signs"
			}
		case "checks":
			for _, word := range strings.Fields(rest) {
				key, answer, _ := strings.Cut(word, ":")
				if !has(Checks, key) || answer != "yes" && answer != "no" {
					t.Fatalf("line %d: no check with its answer: %q", n+1, word)
				}
				s.seen.Answers[key] = answer == "yes"
			}
		case "with":
			readContext(t, n, strings.Fields(rest), &s.seen.Context)
		case "was":
			s.was = strings.Fields(rest)
		case "within":
			s.within, _ = strconv.Atoi(rest)
		case "is":
			s.is = State(rest)
		default:
			t.Fatalf("line %d: %q is no word of a story", n+1, word)
		}
	}
	return stories
}

func readContext(t *testing.T, n int, words []string, c *Context) {
	t.Helper()
	for i := 0; i < len(words); i++ {
		if words[i] == "past-plan" {
			c.PastPlan = true
			continue
		}
		value := words[i+1]
		minutes, _ := strconv.ParseFloat(value, 64)
		switch words[i] {
		case "tip":
			c.TipMinutes = minutes
		case "electrode":
			c.ElectrodeMinutes = minutes
		case "drain":
			c.DrainMinutes = minutes
		case "air":
			c.Air = value
		case "power":
			c.Power = value
		case "duty":
			c.Duty = value
		default:
			t.Fatalf("line %d: %q is no context", n+1, words[i])
		}
		i++
	}
}

func place(res Result, cause string) int {
	for i, c := range res.Causes {
		if c.Key == cause {
			return i + 1
		}
	}
	return 0
}

func (s story) isTrue(cause string) bool {
	for _, w := range s.was {
		if w == cause {
			return true
		}
	}
	return false
}

// answer is what a check shows when these are the causes.
func (s story) answer(check Finding) bool {
	for _, w := range s.was {
		if check.given(w) >= often {
			return true
		}
	}
	return false
}

// mostChecks is how many checks a story may take until the finder acts.
const mostChecks = 14

func TestStories(t *testing.T) {
	for file, least := range map[string]int{"stories.txt": 40, "cold_stories.txt": 40} {
		t.Run(file, func(t *testing.T) { runStories(t, file, least) })
	}
}

func runStories(t *testing.T, file string, least int) {
	stories := readStoryFile(t, file)
	if len(stories) < least {
		t.Errorf("only %d stories", len(stories))
	}
	checks := 0
	for _, s := range stories {
		t.Run(s.name, func(t *testing.T) {
			res := Think(s.seen)
			if s.is != "" {
				if res.State != s.is {
					t.Errorf("state = %s, want %s", res.State, s.is)
				}
				return
			}
			best := len(Causes)
			for _, w := range s.was {
				best = min(best, place(res, w))
			}
			if best > s.within {
				t.Errorf("%v stands at %d (%.3f), want within %d; first is %s (%.3f)", s.was, best, chanceOf(res, s.was[0]), s.within, res.Causes[0].Key, res.Causes[0].Chance)
			}
			checks += s.follow(t)
		})
	}
	t.Logf("%d stories, %d checks asked in all", len(stories), checks)
}

// follow answers what is asked until the finder acts, and says how many checks
// that took.
func (s story) follow(t *testing.T) int {
	t.Helper()
	var asked []string
	for range mostChecks {
		res := Think(s.seen)
		if res.State == Act || res.State == Service {
			if !s.isTrue(res.Causes[0].Key) {
				t.Errorf("after %v it acts on %s (%.3f), want %v (%.3f)", asked, res.Causes[0].Key, res.Causes[0].Chance, s.was, chanceOf(res, s.was[0]))
			}
			if top := res.Causes[0]; top.Service && res.State != Service {
				t.Errorf("after %v it says %s of %s, which a qualified person mends", asked, res.State, top.Key)
			}
			return len(asked)
		}
		if len(res.Next) == 0 {
			t.Errorf("after %v nothing is left to ask: %s %s", asked, res.State, res.Causes[0].Key)
			return len(asked)
		}
		check := res.Next[0]
		s.seen.Answers[check.Key] = s.answer(check)
		asked = append(asked, check.Key)
	}
	t.Errorf("after %d checks %v it still asks", mostChecks, asked)
	return len(asked)
}

func chanceOf(res Result, cause string) float64 {
	for _, c := range res.Causes {
		if c.Key == cause {
			return c.Chance
		}
	}
	return 0
}

// TestStoriesCoverEveryCause: a cause that no story tells of is not known to
// come out right.
func TestStoriesCoverEveryCause(t *testing.T) {
	told := map[string]bool{}
	for _, s := range readStories(t) {
		for _, w := range s.was {
			told[w] = true
		}
	}
	for _, c := range Causes {
		if !told[c.Key] {
			t.Errorf("no story tells of %s", c.Key)
		}
	}
}
