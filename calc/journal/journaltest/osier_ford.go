package journaltest

import (
	"strings"
	"testing"
)

// OsierFord is a month of Osier Ford Repair, which does not exist: two trucks,
// two phones, one of them with a clock a year ahead for a day.
func OsierFord(t *testing.T) *Script {
	const day = 24 * 60 * Minute
	s := &Script{T: t}
	b, one, two := Device("phone-b"), About("truck-1"), About("truck-2")
	s.Add("rig-1", 0, "rig.set", `{'name':'Truck 1','min_current':'20A','max_current':'40A','drainEvery':1500000}`, one)
	s.Add("rig-2", 0, "rig.set", `{'name':'Truck 2','max_current':'60A'}`, two, b)
	s.Add("rig-2b", 9000, "rig.set", `{'name':'Lorry 2'}`, two)
	s.Add("rig-2c", 60_000, "rig.set", `{'name':'Truck 2','min_current':null}`, two, b, Supersedes(ID("rig-2b")))
	s.Add("site-1", 2000, "site.set", `{'name':'Heron Croft','ground':'dry grass'}`, About("heron-croft"))
	s.Add("job-1", 3000, "job.set", `{'name':'Gate and hopper'}`, About("gate"))
	s.Add("units", 4000, "setting.set", `{'units':'metric','look':'night'}`, About("phone-a"))
	s.Add("tips", 5000, "line.set", `{'name':'Tips 40 A','price':'3.10'}`, About("tip-line"))
	s.Add("tips-in", 6000, "stock.moved", `{'n':10,'why':'bought'}`, About("tip-line"))
	s.Add("late-amend", 6500, "amend", `{'of':'`+ID("arc-2")+`','set':{'starts':3},'why':'heard three'}`, In("s1"))
	for i, slot := range []string{"cup", "tip", "diffuser", "electrode"} {
		s.Add("fit-"+slot, 7000+int64(i), "part.fitted", `{'slot':'`+slot+`','rig':'truck-1','line':'tip-line'}`, About("p-"+slot))
	}
	s.Add("open-1", day, "session.opened", `{'rig':'truck-1','title':'Field gate, hinge side','site':'heron-croft','job':'gate'}`, About("s1"))
	s.Add("title", day+1000, "session.set", `{'title':'Field gate'}`, About("s1"), b)
	s.Add("bring-up", day+2000, "guide.opened", `{'guide':'bring-up'}`, In("s1"))
	s.Add("clamp", day+3000, "check.answered", `{'guide':'bring-up','step':'clamp','result':'fail'}`, In("s1"))
	s.Add("clamp-ok", day+4000, "check.answered", `{'guide':'bring-up','step':'clamp','result':'good'}`, In("s1"))
	s.Add("cleared", day+5000, "check.cleared", `{'of':'`+ID("clamp")+`','why':'paint ground off'}`, In("s1"))
	s.Add("hose", day+6000, "check.answered", `{'guide':'bring-up','step':'hose','result':'change'}`, In("s1"), b)
	s.Add("watch", day+7000, "watch.started", `{'ms':3600000}`, In("s1"))
	s.Add("arc-1", day+Minute, "arc.started", `{'rig':'truck-1'}`, In("s1"), Wall(day+Minute))
	s.Add("arc-1b", day+Minute+5000, "arc.started", `{'rig':'truck-1'}`, In("s1"), b, Wall(day+Minute+4000))
	s.Add("stop-1b", day+Minute+50_000, "arc.stopped", `{'of':'`+ID("arc-1b")+`','starts':2}`, In("s1"), b, Wall(day+Minute+49_000))
	s.Add("stop-1", day+Minute+80_000, "arc.stopped", `{'of':'`+ID("arc-1")+`'}`, In("s1"), Wall(day+Minute+80_000))
	s.Add("arc-2", day+5*Minute, "arc.run", `{'rig':'truck-1','start':1760817800000,'stop':1760817890000,'starts':2}`, In("s1"))
	s.Add("arc-lost", day+9*Minute, "arc.started", `{}`, In("s1"))
	s.Add("drain", day+10*Minute, "trap.drained", `{'rig':'truck-1'}`, In("s1"), At(day+8*Minute))
	s.Add("filter", day+11*Minute, "filter.changed", `{}`, In("s1"))
	s.Add("tried", day+12*Minute, "cut.tried", `{'rig':'truck-1','metal':'mild-steel','thickness':6000,'amps':40,'pressure':500000,'speed':15000,'verdict':'good'}`, In("s1"))
	s.Add("note", day+13*Minute, "note.added", `{'text':'Zinc ground back: ½ \\u00e9 \\ud83d\\udd25 <b>'}`, In("s1"))
	s.Add("photo", day+14*Minute, "photo.added", `{'sha256':'`+strings.Repeat("ab", 32)+`','bytes':1234,'w':640,'h':480,'thumb':'data:image/jpeg;base64,AA=='}`, In("s1"))
	s.Add("read-1", day+15*Minute, "part.reading", `{'dmin':1010,'dmax':1060,'pit':300}`, About("p-tip"), In("s1"))
	s.Add("no-arc", day+16*Minute, "fault.seen", `{'symptom':'no arc at all','signs':['no pilot','click'],'rig':'truck-1'}`, About("fault-1"), In("s1"))
	s.Add("cause", day+17*Minute, "fault.found", `{'cause':'worn-electrode'}`, About("fault-1"), In("s1"))
	s.Add("mended", day+18*Minute, "fault.mended", `{'how':'new electrode'}`, About("fault-1"), In("s1"))
	s.Add("pull", day+19*Minute, "part.pulled", `{'why':'pit','rig':'truck-1'}`, About("p-electrode"), In("s1"))
	s.Add("refit", day+20*Minute, "part.fitted", `{'slot':'electrode','rig':'truck-1'}`, About("p-electrode-2"), In("s1"))
	s.Add("same", day+21*Minute, "same", `{'as':'p-electrode-2'}`, About("p-electrode-b"), b)
	s.Add("refit-b", day+20*Minute+500, "part.fitted", `{'slot':'electrode','rig':'truck-1'}`, About("p-electrode-b"), b)
	s.Add("watch-end", day+90*Minute, "watch.ended", `{'of':'`+ID("watch")+`'}`, In("s1"))
	s.Add("close-1", day+91*Minute, "session.closed", `{'left':'clean'}`, About("s1"))
	s.Add("open-2", 380*day, "session.opened", `{'rig':'truck-2','title':'Hopper patch'}`, About("s2"), b)
	s.Add("slip", 380*day+Minute, "note.added", `{'text':'wrong truck'}`, In("s2"), b)
	s.Add("hide", 380*day+2*Minute, "void", `{'of':'`+ID("slip")+`','on':true,'why':'slip'}`, In("s2"), b)
	s.Add("hide-fit", 9*day, "void", `{'of':'`+ID("fit-cup")+`','on':true}`)
	s.Add("show-fit", 9*day+1000, "void", `{'of':'`+ID("fit-cup")+`','on':false}`, b)
	s.Add("count", 10*day, "stock.counted", `{'n':4}`, About("tip-line"), At(9*day))
	s.Add("count-fix", 11*day, "amend", `{'of':'`+ID("count")+`','set':{'n':5,'at':1761500000000},'why':'one in the drawer'}`, b)
	s.Add("taken", 12*day, "stock.moved", `{'n':-7}`, About("tip-line"), b)
	s.Add("tomorrow", 13*day, "drone.flown", `{'over':'weir'}`, In("s2"), func(m map[string]any) { m["mood"] = []any{1, map[string]any{"deep": nil}} })
	s.Add("tomorrow-2", 14*day, "note.added", `{'text':{'rich':true}}`, In("s2"), func(m map[string]any) { m["v"] = 2 })
	s.addRest(15 * day)
	return s
}
