"""Texts of calendar files by the library vobject.

Reads [file, …] and writes for each file [[summary, description, what the alarm says], …].
"""
import json
import sys

import vobject


def read(file):
    for event in vobject.readOne(file).vevent_list:
        description = event.description.value if "description" in event.contents else ""
        yield [event.summary.value, description, event.valarm.description.value]


json.dump([list(read(file)) for file in json.load(sys.stdin)], sys.stdout)
