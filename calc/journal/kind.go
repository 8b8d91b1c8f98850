package journal

import "fmt"

// want says what the fold asks of the body of a kind. An event that does not
// keep to it is listed with a warning, and passed over otherwise.
type want struct {
	about bool     // the event must say what it is about
	text  []string // keys that must hold text
	whole []string // keys that must hold an integer
	maybe []string // keys that, if they are there, must hold an integer
}

// kinds are the kinds that this version folds, all of v 1.
var kinds = map[string]want{
	"rig.set":        {about: true},
	"site.set":       {about: true},
	"job.set":        {about: true},
	"line.set":       {about: true},
	"setting.set":    {},
	"same":           {about: true, text: []string{"as"}},
	"session.opened": {about: true},
	"session.closed": {about: true},
	"session.set":    {about: true},
	"arc.started":    {},
	"arc.stopped":    {text: []string{"of"}, maybe: []string{"starts"}},
	"arc.run":        {whole: []string{"start", "stop"}, maybe: []string{"starts"}},
	"part.fitted":    {about: true, text: []string{"slot"}},
	"part.pulled":    {about: true},
	"part.reading":   {about: true},
	"trap.drained":   {},
	"filter.changed": {},
	"cut.tried":      {},
	"note.added":     {},
	"photo.added":    {},
	"guide.opened":   {text: []string{"guide"}},
	"check.answered": {text: []string{"guide", "step", "result"}},
	"check.cleared":  {text: []string{"of"}},
	"fault.seen":     {},
	"fault.found":    {about: true},
	"fault.mended":   {about: true},
	"watch.started":  {whole: []string{"ms"}},
	"watch.ended":    {text: []string{"of"}},
	"stock.moved":    {about: true, whole: []string{"n"}},
	"stock.counted":  {about: true, whole: []string{"n"}},
	"amend":          {text: []string{"of"}},
	"void":           {text: []string{"of"}},
}

// known reports whether this version folds events of that kind and version.
func known(f *fact) bool {
	_, ok := kinds[f.kind]
	return ok && f.v == 1
}

// lacks says what the fold misses in an event, "" if nothing.
func lacks(f *fact, b body) string {
	w := kinds[f.kind]
	if w.about && f.about == "" {
		return "it does not say what it is about"
	}
	for _, key := range w.text {
		if b.text(key) == "" {
			return fmt.Sprintf("it has no %s", key)
		}
	}
	for _, key := range w.whole {
		if _, ok := b.whole(key); !ok {
			return fmt.Sprintf("its %s is no whole number", key)
		}
	}
	for _, key := range w.maybe {
		if b.get(key) == nil {
			continue
		}
		if _, ok := b.whole(key); !ok {
			return fmt.Sprintf("its %s is no whole number", key)
		}
	}
	return ""
}
