package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"net/url"
	"strings"
	"text/tabwriter"
	"time"

	"kerfside/calc/problem"
	"kerfside/server/store"
)

// crewVerb is one of the words that may follow "kerfside crew".
type crewVerb struct {
	name, words, about string
	run                func(c *crewCommand, words []string) error
}

var crewVerbs = []crewVerb{
	{name: "owner", about: "make a one-time code for an owner's phone", run: func(c *crewCommand, _ []string) error { return c.invite(store.Owner) }},
	{name: "invite", about: "make a one-time code for a member's phone", run: func(c *crewCommand, _ []string) error { return c.invite(store.Member) }},
	{name: "list", about: "list the crews", run: (*crewCommand).list},
	{name: "new", words: "NAME", about: "add a crew and make a code for its owner", run: (*crewCommand).add},
	{name: "rename", words: "NAME", about: "name a crew, or with -device a phone", run: (*crewCommand).rename},
	{name: "devices", about: "list the phones of a crew", run: (*crewCommand).devices},
	{name: "revoke", words: "DEVICE", about: "take a phone out of its crew at once", run: (*crewCommand).revoke},
	{name: "audit", about: "list who did what about access", run: (*crewCommand).audit},
}

// crewCommand is one run of "kerfside crew". It works beside a server that is
// running on the same database, and counts there at once.
type crewCommand struct {
	out               io.Writer
	access            *store.Access
	crew, device, url string
	now               int64
}

// crew runs "kerfside crew".
func crew(args []string, out io.Writer) error {
	c := &crewCommand{out: out, now: time.Now().UnixMilli()}
	flags := flag.NewFlagSet("kerfside crew", flag.ContinueOnError)
	flags.SetOutput(out)
	db := flags.String("db", "kerfside.db", "file of the database")
	flags.StringVar(&c.crew, "crew", "", "`id` or name of the crew, if there are several")
	flags.StringVar(&c.device, "device", "", "`id` of the phone that rename is about")
	flags.StringVar(&c.url, "url", "", "`address` where phones find the server (default where it was last served)")
	flags.Usage = func() {
		fmt.Fprintln(out, "kerfside crew VERB [flags] [words]")
		for _, v := range crewVerbs {
			fmt.Fprintf(out, "  %-16s %s\n", v.name+" "+v.words, v.about)
		}
		flags.PrintDefaults()
	}
	if len(args) == 0 {
		flags.Usage()
		return nil
	}
	words, err := readFlags(flags, args, out)
	if err != nil {
		return err
	}
	if len(words) == 0 {
		return problem.New(problem.Missing, "", "kerfside crew needs a word that says what to do", "For example kerfside crew list; kerfside crew alone lists all.")
	}
	verb, words := words[0], words[1:]
	for _, v := range crewVerbs {
		if v.name != verb {
			continue
		}
		if (v.words == "") != (len(words) == 0) || v.words == "DEVICE" && len(words) > 1 {
			return problem.Newf(problem.Malformed, "", "kerfside crew %s does not go like that", v.name).
				WithHint("%s", strings.TrimSpace("kerfside crew "+v.name+" "+v.words))
		}
		if c.access, err = store.OpenAccess(*db); err != nil {
			return err
		}
		defer c.access.Close()
		return v.run(c, words)
	}
	flags.Usage()
	return problem.Newf(problem.Unknown, "", "there is no kerfside crew %q", verb).WithHint("The verbs are listed above.")
}

// which finds the crew that is meant.
func (c *crewCommand) which() (store.Crew, error) {
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

func (c *crewCommand) invite(role store.Role) error {
	crew, err := c.which()
	if err != nil {
		return err
	}
	return c.inviteTo(crew.ID, role)
}

func (c *crewCommand) inviteTo(crew string, role store.Role) error {
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

func (c *crewCommand) add(words []string) error {
	id, err := c.access.AddCrew(strings.Join(words, " "), c.now)
	if err != nil {
		return err
	}
	fmt.Fprintf(c.out, "Crew %s.\n", id)
	return c.inviteTo(id, store.Owner)
}

func (c *crewCommand) rename(words []string) error {
	crew, err := c.which()
	if err != nil {
		return err
	}
	if c.device != "" {
		return c.access.ChangeDevice(crew.ID, c.device, store.Change{Name: strings.Join(words, " ")}, "", c.now)
	}
	return c.access.RenameCrew(crew.ID, strings.Join(words, " "), c.now)
}

func (c *crewCommand) revoke(words []string) error {
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

// table prints rows in columns.
func (c *crewCommand) table(head string, rows []string) error {
	w := tabwriter.NewWriter(c.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, head)
	for _, row := range rows {
		fmt.Fprintln(w, row)
	}
	return w.Flush()
}

func day(ms int64) string { return time.UnixMilli(ms).Format("2006-01-02 15:04") }

func (c *crewCommand) list([]string) error {
	crews, err := c.access.Crews(context.Background())
	var rows []string
	for _, one := range crews {
		rows = append(rows, fmt.Sprintf("%s\t%s\t%d\t%d", one.ID, store.ShowName(one.Name), one.Devices, one.Owners))
	}
	if err != nil {
		return err
	}
	return c.table("ID\tNAME\tPHONES\tOWNERS", rows)
}

func (c *crewCommand) devices([]string) error {
	crew, err := c.which()
	if err != nil {
		return err
	}
	devices, err := c.access.Devices(context.Background(), crew.ID)
	if err != nil {
		return err
	}
	var rows []string
	for _, d := range devices {
		state := string(d.Role)
		if d.Revoked > 0 {
			state = "revoked " + day(d.Revoked)
		}
		rows = append(rows, fmt.Sprintf("%s\t%s\t%s\t%s\t%s", d.ID, store.ShowName(d.Name), state, day(d.Since), day(d.Seen)))
	}
	return c.table("ID\tNAME\tROLE\tSINCE\tSEEN", rows)
}

func (c *crewCommand) audit([]string) error {
	crew, err := c.which()
	if err != nil {
		return err
	}
	lines, err := c.access.AuditLines(context.Background(), crew.ID, 1000)
	if err != nil {
		return err
	}
	var rows []string
	for _, l := range lines {
		who := l.Who
		if who == "" {
			who = "command line"
		}
		rows = append(rows, fmt.Sprintf("%s\t%s\t%s\t%s\t%s", day(l.At), l.What, l.About, l.More, who))
	}
	return c.table("AT\tWHAT\tABOUT\tMORE\tBY", rows)
}
