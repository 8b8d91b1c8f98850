package journaltest

// Worked is the event of the specification.
const Worked = `{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","wall":[1760731116544,60],"device":"phone-a","kind":"note.added","v":1,"in":"S7d2mKx0PqLw9Zr4Tt1uVg","body":{"text":"tip changed"}}`

// OddlyQuoted is an event with quotes and a backslash in the key and the text of its
// body.
const OddlyQuoted = `{"id":"Qk3vZ0mJ8cW1xT5rLb2hYA","t":"0199f3c0b4000000","device":"d","kind":"a","v":1,"body":{"a\"":"\\"}}`
