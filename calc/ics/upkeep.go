package ics

// morning is how long before the midnight of its day a due thing is told of: 9 in the
// morning of the day before, when there is time to do or buy something.
const morning = 15 * 3600

// reminderSeconds is how much of a day a reminder takes up in the calendar.
const reminderSeconds = 10 * 60

// Due returns what is to be done by a day: all day long, told of on the morning of the
// day before.
func Due(about, day, summary, description string) Event {
	return on(On(day), about, summary, description, Alarm{Begins, -morning})
}

// Daily returns a reminder at a time of each day from that day on, or of each so many
// days, like the drain at the end of the day.
func Daily(about, day, time string, everyDays int, summary, description string) Event {
	e := on(OnAt(day, time), about, summary, description, Alarm{From: Begins})
	e.Seconds, e.EveryDays = reminderSeconds, max(everyDays, 1)
	return e
}

// FireWatch returns a watch from one moment to another, in ms since 1970 UTC, told of
// when it ends.
func FireWatch(about string, from, to int64, summary, description string) Event {
	e := on(At(from), about, summary, description, Alarm{From: Ends})
	e.Seconds = to/1000 - from/1000
	return e
}

func on(start Moment, about, summary, description string, alarm Alarm) (e Event) {
	e.About, e.Start, e.Summary, e.Description, e.Alarm = about, start, summary, description, alarm
	return e
}
