package ics

// morning is how long before the midnight of its day a due thing is told of: 9 in the
// morning of the day before, when there is time to do or buy something.
const morning = 15 * 3600

// reminderSeconds is how much of a day a reminder takes up in the calendar.
const reminderSeconds = 10 * 60

// Due returns what is to be done by a day: all day long, told of on the morning of the
// day before.
func Due(about, day, summary, description string) Event {
	return Event{About: about, Start: On(day), Summary: summary, Description: description, Alarm: Alarm{From: Begins, After: -morning}}
}

// Daily returns a reminder at a time of each day from that day on, or of each so many
// days, like the drain at the end of the day.
func Daily(about, day, time string, everyDays int, summary, description string) Event {
	return Event{
		About: about, Start: OnAt(day, time), Seconds: reminderSeconds, EveryDays: max(everyDays, 1),
		Summary: summary, Description: description, Alarm: Alarm{From: Begins},
	}
}

// FireWatch returns a watch from one moment to another, in ms since 1970 UTC, told of
// when it ends.
func FireWatch(about string, from, to int64, summary, description string) Event {
	return Event{
		About: about, Start: At(from), Seconds: to/1000 - from/1000,
		Summary: summary, Description: description, Alarm: Alarm{From: Ends},
	}
}
