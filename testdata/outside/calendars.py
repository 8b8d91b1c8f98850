"""Calendar files by the libraries icalendar and recurring-ical-events.

Reads [file, …] and writes for each file [{uid, stamp, start, end, alarm, times}, …]: when the alarm goes off, and when the event comes in the thirty days
from its start on. Its texts are read by calendar_texts.py: icalendar takes an escaped
backslash before an n for a line break.
"""
import datetime
import json
import sys

import icalendar
import recurring_ical_events


def form(when):
    if isinstance(when, datetime.datetime) and when.tzinfo:
        return when.astimezone(datetime.timezone.utc).replace(tzinfo=None).isoformat() + "Z"
    return when.isoformat()


def moment(when):
    if isinstance(when, datetime.datetime):
        return when
    return datetime.datetime.combine(when, datetime.time())


def event(e):
    start = e.decoded("DTSTART")
    whole = not isinstance(start, datetime.datetime)
    end = start + (e.decoded("DURATION") if "DURATION" in e else datetime.timedelta(days=1 if whole else 0))
    [alarm] = e.subcomponents
    assert alarm.name == "VALARM" and alarm["ACTION"] == "DISPLAY"
    trigger = alarm["TRIGGER"]
    edge = end if trigger.params.get("RELATED") == "END" else start
    alone = icalendar.Calendar()
    alone.add_component(e)
    last = moment(start) + datetime.timedelta(days=30, seconds=-1)
    times = sorted(form(one.decoded("DTSTART")) for one in recurring_ical_events.of(alone).between(moment(start), last))
    return {
        "uid": str(e["UID"]), "stamp": form(e.decoded("DTSTAMP")), "start": form(start), "end": form(end),
        "alarm": form(moment(edge) + trigger.dt), "times": times,
    }


def read(file):
    calendar = icalendar.Calendar.from_ical(file)
    assert calendar.name == "VCALENDAR" and calendar["VERSION"] == "2.0" and not calendar.errors
    assert all(e.name == "VEVENT" and not e.errors for e in calendar.subcomponents)
    return [event(e) for e in calendar.subcomponents]


json.dump([read(file) for file in json.load(sys.stdin)], sys.stdout)
