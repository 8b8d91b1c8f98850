package main

import (
	"context"
	"fmt"
	"text/tabwriter"
	"time"

	"kerfside/server/store"
)

// table prints rows in columns, or all as JSON.
func (c *crewRun) table(all any, head string, rows []string) error {
	if c.json {
		return printJSON(c.out, all)
	}
	w := tabwriter.NewWriter(c.out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(w, head)
	for _, row := range rows {
		fmt.Fprintln(w, row)
	}
	return w.Flush()
}

func day(ms int64) string { return time.UnixMilli(ms).Format("2006-01-02 15:04") }

func (c *crewRun) list([]string) error {
	crews, err := c.access.Crews(context.Background())
	if err != nil {
		return err
	}
	all, rows := []listed{}, []string(nil)
	for _, one := range crews {
		all = append(all, listed{ID: one.ID, Name: one.Name, Phones: one.Devices, Owners: one.Owners, State: string(one.State)})
		rows = append(rows, fmt.Sprintf("%s\t%s\t%d\t%d\t%s", one.ID, store.ShowName(one.Name), one.Devices, one.Owners, one.State))
	}
	return c.table(all, "ID\tNAME\tPHONES\tOWNERS\tSTANDS", rows)
}

func (c *crewRun) devices([]string) error {
	crew, err := c.which()
	if err != nil {
		return err
	}
	devices, err := c.access.Devices(context.Background(), crew.ID)
	if err != nil {
		return err
	}
	all, rows := []phone{}, []string(nil)
	for _, d := range devices {
		one, state := phone{ID: d.ID, Name: d.Name, Role: d.Role, Since: timeOf(d.Since), Seen: timeOf(d.Seen)}, string(d.Role)
		if d.Revoked > 0 {
			at := timeOf(d.Revoked)
			one.Revoked, state = &at, "revoked "+day(d.Revoked)
		}
		all = append(all, one)
		rows = append(rows, fmt.Sprintf("%s\t%s\t%s\t%s\t%s", d.ID, store.ShowName(d.Name), state, day(d.Since), day(d.Seen)))
	}
	return c.table(all, "ID\tNAME\tROLE\tSINCE\tSEEN", rows)
}

func (c *crewRun) audit([]string) error {
	crew, err := c.which()
	if err != nil {
		return err
	}
	lines, err := c.access.AuditLines(context.Background(), crew.ID, 1000)
	if err != nil {
		return err
	}
	all, rows := []audited{}, []string(nil)
	for _, l := range lines {
		all = append(all, audited{At: timeOf(l.At), What: l.What, About: l.About, More: l.More, By: l.Who})
		who := l.Who
		if who == "" {
			who = "command line"
		}
		rows = append(rows, fmt.Sprintf("%s\t%s\t%s\t%s\t%s", day(l.At), l.What, l.About, l.More, who))
	}
	return c.table(all, "AT\tWHAT\tABOUT\tMORE\tBY", rows)
}
