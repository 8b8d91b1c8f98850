package book

import "kerfside/calc/journal/fold"

// due is how a task of a rig stands.
type due struct {
	task
	of     fold.UpkeepTask
	rig    string
	limits fold.UpkeepLimits
	own    bool    // the crew set the limits
	used   float64 // of the nearest limit; 1 and more is due
	at     int64   // by the calendar; 0 where that sets nothing
	never  bool    // nobody has told of it yet
}

// upkeepOf is how all tasks stand that are kept, the most urgent first in each rig.
func (b *book) upkeepOf() []due {
	var all []due
	for _, r := range b.rigUpkeep() {
		for _, t := range r.Tasks {
			if !t.Limits.Off {
				all = append(all, b.dueOf(r.Rig, t))
			}
		}
	}
	return all
}

// rigUpkeep is the upkeep of all rigs, which is gathered once.
func (b *book) rigUpkeep() []fold.RigUpkeep {
	if b.kept == nil {
		b.kept = b.fold.Upkeep(b.Now).Rigs
	}
	return b.kept
}

func (b *book) dueOf(rig string, t fold.UpkeepTask) due {
	d := due{task: taskOf(t), of: t, rig: rig, limits: t.Limits, own: t.Limits.By != "" && t.Limits.Days+t.Limits.Arc+t.Limits.Hours > 0, never: t.At == 0}
	if t.Task == "drain" {
		d.own = t.Limits.Arc > 0 && t.Limits.By != ""
	} else if !d.own {
		d.limits.Days = d.days
	}
	share := func(n, of int64) {
		if of > 0 {
			d.used = max(d.used, float64(n)/float64(of))
		}
	}
	share(t.Ms, d.limits.Arc)
	if d.never {
		if t.Task != "drain" { // of a trap the arc tells, whoever logs it
			d.used = 0
		}
		return d
	}
	share(t.Hours, d.limits.Hours)
	if d.limits.Days > 0 {
		from := b.Zone.at(t.At).Number
		share(b.Zone.at(b.Now).Number-from, d.limits.Days)
		d.at = b.Zone.ms(from + d.limits.Days)
	}
	if t.Next > 0 {
		if d.at == 0 || t.Next < d.at {
			d.at = t.Next
		}
		if b.Zone.at(b.Now).Number >= b.Zone.at(t.Next).Number {
			d.used = max(d.used, 1)
		}
	}
	return d
}

func (d due) isDue() bool { return d.used >= 1-1e-9 }

// soon is what is left of a limit when a task is told as coming up.
const soon = 0.85
