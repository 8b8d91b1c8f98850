package main

import (
	"context"
	"errors"
	"flag"
	"fmt"

	"kerfside/calc/problem"
	"kerfside/calc/unit"
	"kerfside/cmd/internal/command"
	"kerfside/server/move"
	"kerfside/server/store"
)

// moveVerbs carry a crew from one server to another, in their order.
var moveVerbs = []command.Command{
	{Name: "pack", About: "freeze a crew and write it into a file, to move it to another server", Words: []command.Word{{Name: "FILE", What: "the file to write"}}, Declare: moveVerb((*moveRun).pack, ofCrew),
		More: "Its phones keep what they enter, and ask again by themselves, until it is taken up or kept. A server may run on the database."},
	{Name: "unpack", About: "take in a crew that was packed on another server, without serving it yet", Words: []command.Word{{Name: "FILE", What: "the file that pack wrote"}}, Declare: moveVerb((*moveRun).unpack)},
	{Name: "hand-over", About: "give a packed crew away, to the copy that a receipt is of", Words: []command.Word{{Name: "RECEIPT", What: "the word that unpack printed"}}, Declare: moveVerb((*moveRun).handOver)},
	{Name: "take-up", About: "serve a crew that was unpacked here and handed over", Words: []command.Word{{Name: "KEY", What: "the word that hand-over printed"}}, Declare: moveVerb((*moveRun).takeUp)},
	{Name: "keep", About: "go on with a crew that was packed and not handed over", Declare: moveVerb((*moveRun).keep, ofCrew, orLost)},
	{Name: "drop", About: "delete what is left here of a crew that has moved", Declare: moveVerb((*moveRun).drop, ofCrew),
		More: "On the new server it deletes a copy that was unpacked and is not to be taken up."},
}

// moveRun is one step of a move.
type moveRun struct{ *crewRun }

// moveVerb is crewVerb for a step of a move.
func moveVerb(run func(m *moveRun, words []string) error, more ...func(c *crewRun, flags *flag.FlagSet)) func(*flag.FlagSet) command.Action {
	return func(flags *flag.FlagSet) command.Action {
		m := &moveRun{crewRun: &crewRun{}}
		dbFlag(flags, &m.db, "")
		asJSON(m.crewRun, flags)
		for _, declare := range more {
			declare(m.crewRun, flags)
		}
		return m.open(func(words []string) error { return run(m, words) })
	}
}

func orLost(c *crewRun, flags *flag.FlagSet) {
	flags.BoolVar(&c.lost, "lost", false, "go on with a crew that was handed over too, for the other server is lost for good")
}

// moved is what a step of a move tells.
type moved struct {
	Crew     string `json:"crew"`
	Name     string `json:"name,omitempty"`
	Entries  int64  `json:"entries,omitempty"`
	Phones   int    `json:"phones,omitempty"`
	Pictures int    `json:"pictures,omitempty"`
	SHA256   string `json:"sha256,omitempty"`  // of the package
	Receipt  string `json:"receipt,omitempty"` // for hand-over
	Key      string `json:"key,omitempty"`     // for take-up
}

func movedOf(c move.Contents) moved {
	return moved{Crew: c.Crew, Name: c.Name, Entries: c.Events, Phones: c.Devices, Pictures: c.Pictures, SHA256: fmt.Sprintf("%x", c.Sum)}
}

// tell prints what a step did, or as JSON what it is about.
func (m *moveRun) tell(v moved, format string, words ...any) error {
	if m.json {
		return printJSON(m.out, v)
	}
	_, err := fmt.Fprintf(m.out, format+"\n", words...)
	return err
}

// holds says what is in a package.
func holds(c move.Contents) string {
	return fmt.Sprintf("%s, %s, %s", unit.Count(int(c.Events), "entry", "entries"), unit.Count(c.Devices, "phone", "phones"), unit.Count(c.Pictures, "picture", "pictures"))
}

func (m *moveRun) pack(words []string) error {
	crew, err := m.which()
	if err != nil {
		return err
	}
	c, err := move.Pack(context.Background(), m.access, crew.ID, words[0], m.now)
	if err != nil {
		return err
	}
	return m.tell(movedOf(c), "Packed the crew %s: %s. Its phones wait now.\nCarry the file to the new server, and run there:\n  kerfside crew unpack %s", c.Crew, holds(c), words[0])
}

func (m *moveRun) unpack(words []string) error {
	receipt, c, err := move.Unpack(context.Background(), m.access, words[0])
	if err != nil {
		return err
	}
	v := movedOf(c)
	v.Receipt = receipt.String()
	return m.tell(v, "Unpacked the crew %s: %s. It is not served here yet.\nRun on the old server:\n  kerfside crew hand-over %s", c.Crew, holds(c), receipt)
}

func (m *moveRun) handOver(words []string) error {
	receipt, err := store.ReadReceipt(words[0])
	if err != nil {
		return err
	}
	key, err := m.access.HandOver(receipt, m.now)
	if err != nil {
		return err
	}
	return m.tell(moved{Crew: receipt.Crew, Key: key}, "Handed over the crew %s. What it had stays here until kerfside crew drop.\nRun on the new server:\n  kerfside crew take-up %s", receipt.Crew, key)
}

func (m *moveRun) takeUp(words []string) error {
	crew, err := m.access.TakeUp(words[0], m.now)
	if err != nil {
		return err
	}
	return m.tell(moved{Crew: crew}, "The crew %s is served here now. Let the proxy send it here.", crew)
}

func (m *moveRun) keep([]string) error {
	crew, err := m.which()
	if err != nil {
		return err
	}
	if err := m.access.Keep(crew.ID, m.lost, m.now); err != nil {
		return err
	}
	return m.tell(moved{Crew: crew.ID}, "The crew %s goes on here.", crew.ID)
}

func (m *moveRun) drop([]string) error {
	crew, err := m.which()
	if err != nil {
		return err
	}
	if err := m.access.Drop(context.Background(), crew.ID); err != nil {
		return err
	}
	if err := m.tell(moved{Crew: crew.ID}, "Deleted what was left here of the crew %s.", crew.ID); err != nil || m.json {
		return err
	}
	return tellBackups(m.out, m.db, backupFolder(m.db), "")
}

// awayHint says to whoever runs the server what to do about a crew that is on its way;
// the words of the store are for phones.
func awayHint(err error) error {
	if !errors.Is(err, store.ErrAway) {
		return err
	}
	return problem.From(err).WithHint("kerfside crew list shows how each crew stands. The server that serves it can do this.")
}
