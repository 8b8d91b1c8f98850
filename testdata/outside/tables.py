"""Tables by Python's own csv module.

Reads {"read": [file, …], "write": [{"dialect": {…}, "rows": [[field, …], …]}, …]} and
writes {"read": [[[field, …], …], …], "written": [file, …]}.
"""
import csv
import io
import json
import sys

ask = json.load(sys.stdin)


def read(file):
    return list(csv.reader(io.StringIO(file.removeprefix("\ufeff"), newline=""), strict=True))


def write(table):
    file = io.StringIO(newline="")
    csv.writer(file, **table["dialect"]).writerows(table["rows"])
    return file.getvalue()


json.dump({"read": [read(file) for file in ask["read"]], "written": [write(table) for table in ask["write"]]}, sys.stdout)
