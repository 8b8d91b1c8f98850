package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"net/url"
	"strings"
	"time"

	"kerfside/calc/problem"
	"kerfside/cmd/internal/command"
	"kerfside/server"
	"kerfside/server/store"
)

var crewCommand = command.Command{
	Name: "crew", About: "make codes for phones to join with, list and revoke phones",
	More: "It works beside a server that runs on the same database, and counts there at once.",
	Verbs: append([]command.Command{
		{Name: "owner", About: "make a one-time code for an owner's phone", Declare: crewVerb((*crewRun).owner, ofCrew, atURL, asJSON)},
		{Name: "invite", About: "make a one-time code for a member's phone", Declare: crewVerb((*crewRun).member, ofCrew, atURL, asJSON)},
		{Name: "list", About: "list the crews", Declare: crewVerb((*crewRun).list, asJSON)},
		{Name: "new", About: "add a crew and make a code for its owner", Words: crewName, Declare: crewVerb((*crewRun).add, atURL, asJSON)},
		{Name: "rename", About: "name a crew, or with -device a phone", Words: crewName, Declare: crewVerb((*crewRun).rename, ofCrew, ofDevice)},
		{Name: "devices", About: "list the phones of a crew", Declare: crewVerb((*crewRun).devices, ofCrew, asJSON)},
		{Name: "revoke", About: "take a phone out of its crew at once", Words: []command.Word{{Name: "DEVICE", What: "the id of one phone"}}, Declare: crewVerb((*crewRun).revoke, ofCrew)},
		{Name: "audit", About: "list who did what about access", Declare: crewVerb((*crewRun).audit, ofCrew, asJSON)},
	}, moveVerbs...),
}

// crewName are the words of a name, which need no quotes.
var crewName = []command.Word{{Name: "NAME", What: "the new name", Many: true}}

// crewRun is one run of "kerfside crew". It works beside a server that is
// running on the same database, and counts there at once.
type crewRun struct {
	out                   io.Writer
	access                *store.Access
	db, crew, device, url string
	now                   int64
	json                  bool // see asJSON
	lost                  bool // see orLost
}

// crewVerb declares the flags of a verb, and -db with them, and opens what run
// works on.
func crewVerb(run func(c *crewRun, words []string) error, more ...func(c *crewRun, flags *flag.FlagSet)) func(*flag.FlagSet) command.Action {
	return func(flags *flag.FlagSet) command.Action {
		c := &crewRun{}
		dbFlag(flags, &c.db, "")
		for _, declare := range more {
			declare(c, flags)
		}
		return c.open(func(words []string) error { return run(c, words) })
	}
}

func ofCrew(c *crewRun, flags *flag.FlagSet) {
	flags.StringVar(&c.crew, "crew", "", "`id` or name of the crew, if there are several")
}

func ofDevice(c *crewRun, flags *flag.FlagSet) {
	flags.StringVar(&c.device, "device", "", "`id` of the phone that is named")
}

func atURL(c *crewRun, flags *flag.FlagSet) {
	flags.StringVar(&c.url, "url", "", "`address` where phones find the server (default where it was last served)")
}

func asJSON(c *crewRun, flags *flag.FlagSet) { jsonFlag(flags, &c.json) }

// open returns an action that runs beside an open database.
func (c *crewRun) open(run func(words []string) error) command.Action {
	return func(words []string, out io.Writer) (err error) {
		c.out, c.now = out, time.Now().UnixMilli()
		if c.access, err = store.OpenAccess(c.db); err != nil {
			return err
		}
		defer c.access.Close()
		return awayHint(run(words))
	}
}

// which finds the crew that is meant.
func (c *crewRun) which() (store.Crew, error) {
	all, err := c.access.Crews(context.Background())
	if err != nil {
		return store.Crew{}, err
	}
	var found []store.Crew
	for _, one := range all {
		if c.crew == "" || one.ID == c.crew || one.Name == c.crew {
			found = append(found, one)
		}
	}
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) == 0:
		return store.Crew{}, problem.Newf(problem.NotFound, "crew", "there is no crew %q", c.crew).WithHint("kerfside crew list names them.")
	}
	return store.Crew{}, problem.Newf(problem.Missing, "crew", "there are %d crews that may be meant", len(found)).WithHint("Say which with -crew and its id; kerfside crew list names them.")
}

func (c *crewRun) owner([]string) error  { return c.invite(store.Owner) }
func (c *crewRun) member([]string) error { return c.invite(store.Member) }

func (c *crewRun) invite(role store.Role) error {
	crew, err := c.which()
	if err != nil {
		return err
	}
	return c.inviteTo(crew.ID, role)
}

func (c *crewRun) inviteTo(crew string, role store.Role) error {
	origin, err := c.access.Origin(context.Background())
	switch {
	case err != nil:
		return err
	case c.url != "":
		if origin, err = readOrigin(c.url); err != nil {
			return err
		}
	case origin == "":
		return problem.New(problem.Missing, "url", "this database was never served, so there is no address to join at", "Start kerfside serve first, or say the address with -url.")
	}
	v, err := c.access.Invite(crew, role, "", c.now)
	if err != nil {
		return err
	}
	if c.json {
		return printJSON(c.out, invited{Crew: v.Crew, Role: v.Role, Link: joinLink(origin, v), Code: store.ShowCode(v.Code), Address: origin + server.JoinPath, Expires: timeOf(v.Expires)})
	}
	return tell(c.out, origin, v)
}

// readOrigin reads where phones find the server, as a link may begin with it.
func readOrigin(text string) (string, error) {
	u, err := url.Parse(text)
	if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Host == "" || u.User != nil ||
		strings.Trim(u.Path, "/") != "" || u.RawQuery != "" || u.Fragment != "" || store.ShowName(text) != text || strings.Contains(text, " ") {
		return "", problem.Newf(problem.Malformed, "url", "%q is no address of a server", text).
			WithHint("Write it as phones open it, such as https://kerfside.example.com, with -url.")
	}
	return u.Scheme + "://" + u.Host, nil
}

func (c *crewRun) add(words []string) error {
	id, err := c.access.AddCrew(strings.Join(words, " "), c.now)
	if err != nil {
		return err
	}
	if !c.json {
		fmt.Fprintf(c.out, "Crew %s.\n", id)
	}
	return c.inviteTo(id, store.Owner)
}

func (c *crewRun) rename(words []string) error {
	crew, err := c.which()
	if err != nil {
		return err
	}
	if c.device != "" {
		return c.access.ChangeDevice(crew.ID, c.device, store.Change{Name: strings.Join(words, " ")}, "", c.now)
	}
	return c.access.RenameCrew(crew.ID, strings.Join(words, " "), c.now)
}

func (c *crewRun) revoke(words []string) error {
	crew, err := c.which()
	if err != nil {
		return err
	}
	if err := c.access.Revoke(crew.ID, words[0], "", c.now); err != nil {
		return err
	}
	fmt.Fprintln(c.out, "Revoked. The phone keeps what it holds and can export it; the server no longer answers it.")
	if crew, err = c.access.CrewByID(context.Background(), crew.ID); err == nil && crew.Owners == 0 {
		fmt.Fprintln(c.out, "The crew has no owner now: kerfside crew owner makes a code for one.")
	}
	return err
}
