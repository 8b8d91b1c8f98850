package job

import "kerfside/calc/unit"

// parts says whether those in the torch last, on what that rests, and what to carry.
func (t tell) parts() {
	if t.in.Parts[0].Model == nil || t.in.Parts[1].Model == nil {
		return
	}
	n, text := t.res.Need, ""
	tip, electrode := tenths(n.TipLasts.P), tenths(n.ElectrodeLasts.P)
	if tip == electrode {
		text = "Tip and electrode: " + tip + " each to last the job."
	} else {
		text = "Tip: " + tip + " to last the job; electrode: " + electrode + "."
	}
	t.a.PutWord("lasts", text+" "+t.rests())
	if !t.res.Worn {
		t.a.PutWord("spares", "How many spares so long a job takes, nobody can tell. Plan it in parts.")
		return
	}
	carry := capital(both(n.Carry.Tips, n.Carry.Electrodes)) + " to spare are enough in 19 jobs of 20."
	tips, electrodes := t.in.Parts[0], t.in.Parts[1]
	switch lacks := [2]int{n.Carry.Tips - tips.Stock, n.Carry.Electrodes - electrodes.Stock}; {
	case !tips.Counted && !electrodes.Counted:
		carry += " How many you have is not entered."
	case !electrodes.Counted:
		carry += needs(lacks[0], 0, "tips") + " How many electrodes you have is not entered."
	case !tips.Counted:
		carry += needs(0, lacks[1], "electrodes") + " How many tips you have is not entered."
	default:
		carry += needs(n.Buy.Tips, n.Buy.Electrodes, "that")
	}
	t.a.PutWord("spares", carry)
}

// needs says what is missing, or that there is enough.
func needs(tips, electrodes int, enough string) string {
	switch {
	case max(tips, electrodes) > 0:
		return " You need " + both(tips, electrodes) + " more."
	case enough == "that":
		return " You have that."
	}
	return " You have enough " + enough + "."
}

// rests says on what the lives of the parts rest.
func (t tell) rests() string {
	tips, electrodes := t.in.Parts[0].Model.Failures, t.in.Parts[1].Model.Failures
	switch {
	case tips+electrodes == 0:
		return "Assumed: none of yours has worn out yet."
	case electrodes == 0:
		return "It rests on " + unit.Count(tips, "worn tip", "worn tips") + " of yours; the electrode's life is assumed."
	case tips == 0:
		return "It rests on " + unit.Count(electrodes, "worn electrode", "worn electrodes") + " of yours; the tip's life is assumed."
	}
	return "It rests on " + unit.Count(tips, "worn tip", "worn tips") + " and " + unit.Count(electrodes, "worn electrode", "worn electrodes") + " of yours."
}

// both names tips and electrodes, but none of which there are none.
func both(tips, electrodes int) string {
	switch {
	case electrodes <= 0:
		return unit.Count(tips, "tip", "tips")
	case tips <= 0:
		return unit.Count(electrodes, "electrode", "electrodes")
	}
	return unit.Count(tips, "tip", "tips") + " and " + unit.Count(electrodes, "electrode", "electrodes")
}
