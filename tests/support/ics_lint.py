#!/usr/bin/env python3
"""Byte lint for calendar files: the rules that calendar apps punish.

usage: ics_lint.py FILE...        exit 0 all good, 1 faults found, 2 not readable

It reads bytes and knows no iCalendar library, so that it can't share a fault with one. Rules:
RFC 5545 section 3.1 (lines), 3.3.11 (escapes), 3.6 (components), RFC 7986 (NAME, COLOR), and
this project's own shape: one order of properties, all-day events with two alarms last (three
for a last day to hand in), or to-dos with a due day and one alarm. A feed's head says besides how
often to look again.
"""
import datetime
import re
import sys

HEAD = ["VERSION", "PRODID", "CALSCALE", "NAME", "X-WR-CALNAME", "COLOR"]
EVENT = ["UID", "DTSTAMP", "LAST-MODIFIED", "SEQUENCE", "DTSTART", "DTEND", "SUMMARY",
         "DESCRIPTION", "CATEGORIES", "STATUS", "TRANSP", "X-MICROSOFT-CDO-BUSYSTATUS"]
FEED_HEAD = HEAD + ["REFRESH-INTERVAL", "X-PUBLISHED-TTL"]
TODO = ["UID", "DTSTAMP", "LAST-MODIFIED", "SEQUENCE", "DUE", "SUMMARY", "DESCRIPTION",
        "CATEGORIES", "STATUS", "RELATED-TO"]
ALARM = ["ACTION", "TRIGGER", "DESCRIPTION"]
TRIGGERS = {"VEVENT": ["-P6DT15H", "-PT15H"], "VTODO": ["-PT15H"]}
# At 9 in the morning two weeks, three days and a day ahead.
LAST_DAY = ["-P13DT15H", "-P2DT15H", "-PT15H"]
TEXTS = {"SUMMARY", "DESCRIPTION", "CATEGORIES", "NAME", "X-WR-CALNAME"}
FIXED = {
    "VERSION": "2.0", "CALSCALE": "GREGORIAN", "REFRESH-INTERVAL": "PT12H",
    "X-PUBLISHED-TTL": "PT12H",
    "TRANSP": "TRANSPARENT", "X-MICROSOFT-CDO-BUSYSTATUS": "FREE", "ACTION": "DISPLAY",
}
UUID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")
STAMP = re.compile(r"[0-9]{8}T[0-9]{6}Z")
PARAMETERS = {"DTSTART": ";VALUE=DATE", "DTEND": ";VALUE=DATE", "DUE": ";VALUE=DATE",
              "REFRESH-INTERVAL": ";VALUE=DURATION"}
STATUS = {"VEVENT": "CONFIRMED", "VTODO": "NEEDS-ACTION"}
WORD = re.compile(r"[A-Za-z][A-Za-z-]*")


class Lint:
    def __init__(self, name):
        self.name = name
        self.faults = []

    def fault(self, line, what):
        self.faults.append(f"{self.name}: line {line}: {what}")

    def unfold(self, data):
        """The content lines with the number of the line each starts on."""
        if data.startswith(b"\xef\xbb\xbf"):
            self.fault(1, "a byte order mark")
        if not data.endswith(b"\r\n"):
            self.fault(0, "the file does not end in CR LF")
        content = []
        lines = data.split(b"\r\n")[:-1] if data.endswith(b"\r\n") else data.split(b"\r\n")
        for number, line in enumerate(lines, 1):
            self.check_physical(number, line)
            if line[:1] in (b" ", b"\t") and content:
                before = content[-1][1]
                backslashes = len(before) - len(before.rstrip(b"\\"))
                if backslashes % 2 == 1:
                    self.fault(number, "folded between a backslash and its letter")
                content[-1] = (content[-1][0], before + line[1:])
            else:
                content.append((number, line))
        return content

    def check_physical(self, number, line):
        if len(line) > 75:
            self.fault(number, f"{len(line)} octets, more than 75")
        if line.strip(b" \t") == b"":
            self.fault(number, "an empty line, or one of blanks only")
        elif line[-1:] in (b" ", b"\t"):
            self.fault(number, "ends in a blank")
        for byte in line:
            if (byte < 0x20 and byte != 0x09) or byte == 0x7F:
                self.fault(number, f"control character {byte:#04x}")
                break
        try:
            line.decode("utf-8")
        except UnicodeDecodeError:
            self.fault(number, "not UTF-8 by itself: a sequence is split or malformed")

    def split(self, number, raw):
        """Name, parameters with their semicolon, value."""
        line = raw.decode("utf-8", "replace")
        match = re.match(r'([A-Za-z0-9-]+)((?:;[A-Za-z0-9-]+=(?:"[^"]*"|[^";:,]*))*):(.*)\Z',
                         line, re.S)
        if match is None:
            self.fault(number, f"no content line: {line[:40]!r}")
            return None
        return match.groups()

    def check_text(self, number, name, value):
        if re.search(r"\\(?![\\;,nN])", re.sub(r"\\\\", "", value)):
            self.fault(number, f"{name}: a backslash before something that needs none")
        if re.search(r"[,;]", re.sub(r"\\.", "", value)):
            self.fault(number, f"{name}: a comma or semicolon without its backslash")
        if re.search("[\x80-\x9f\u2028\u2029]", value):
            self.fault(number, f"{name}: a control character or separator of Unicode")

    def check_value(self, number, name, parameters, value, above):
        wanted = PARAMETERS.get(name, "")
        if name == "TRIGGER" and "VTODO" in above:
            wanted = ";RELATED=END"
        if parameters != wanted:
            self.fault(number, f"{name}: parameters {parameters!r}")
        if name in FIXED and value != FIXED[name]:
            self.fault(number, f"{name}: {value!r} is not {FIXED[name]}")
        if name in TEXTS:
            self.check_text(number, name, value)
        if name in ("NAME", "X-WR-CALNAME") and re.search(r"[,;]", value):
            self.fault(number, f"{name}: a comma or semicolon in the calendar's name")
        if name == "CATEGORIES" and not WORD.fullmatch(value):
            self.fault(number, f"CATEGORIES: {value!r} is not one word")
        if name == "STATUS" and value != STATUS[above[-1]]:
            self.fault(number, f"STATUS: {value!r}")
        if name in ("UID", "RELATED-TO") and not UUID.fullmatch(value):
            self.fault(number, f"{name}: {value!r} is no version 8 UUID")
        if name == "SEQUENCE" and not re.fullmatch(r"0|[1-9][0-9]*", value):
            self.fault(number, f"SEQUENCE: {value!r}")
        if name in ("DTSTAMP", "LAST-MODIFIED") and not STAMP.fullmatch(value):
            self.fault(number, f"{name}: {value!r} is no UTC time")

    def check_event(self, number, event):
        names = [name for name, _ in event]
        if names != [name for name in EVENT if name != "DESCRIPTION" or name in names]:
            self.fault(number, f"properties or their order: {' '.join(names)}")
            return
        values = dict(event)
        if values["DTSTAMP"] != values["LAST-MODIFIED"]:
            self.fault(number, "DTSTAMP and LAST-MODIFIED differ")
        if values.get("DESCRIPTION") == "" or values["SUMMARY"] == "":
            self.fault(number, "an empty text")
        try:
            start, end = (datetime.datetime.strptime(values[name], "%Y%m%d").date()
                          for name in ("DTSTART", "DTEND"))
        except ValueError:
            self.fault(number, "DTSTART or DTEND is no date")
            return
        if end - start != datetime.timedelta(days=1):
            self.fault(number, f"DTEND {end} is not the day after DTSTART {start}")

    def check_todo(self, number, todo):
        names = [name for name, _ in todo]
        wanted = [name for name in TODO if name not in ("DESCRIPTION", "RELATED-TO") or name in names]
        if names != wanted:
            self.fault(number, f"properties or their order: {' '.join(names)}")
            return
        values = dict(todo)
        if values["DTSTAMP"] != values["LAST-MODIFIED"]:
            self.fault(number, "DTSTAMP and LAST-MODIFIED differ")
        try:
            datetime.datetime.strptime(values["DUE"], "%Y%m%d")
        except ValueError:
            self.fault(number, "DUE is no date")

    def check(self, data):
        stack = []  # names of open components, each with its line, properties and alarms
        uids = set()
        for number, raw in self.unfold(data):
            parts = self.split(number, raw)
            if parts is None:
                continue
            name, parameters, value = parts
            if name == "BEGIN":
                self.begin(number, value, stack)
            elif name == "END":
                self.end(number, value, stack, uids)
            elif not stack:
                self.fault(number, f"{name} outside of the calendar")
            else:
                if stack[-1]["alarms"]:
                    self.fault(number, f"{name} after an alarm")
                if stack[-1]["name"] == "VCALENDAR" and stack[-1]["events"]:
                    self.fault(number, f"{name} after an event")
                stack[-1]["properties"].append((name, value))
                above = [entry["name"] for entry in stack]
                self.check_value(number, name, parameters, value, above)
        if stack:
            self.fault(0, f"{stack[-1]['name']} is not closed")
        return self.faults

    def begin(self, number, name, stack):
        above = [entry["name"] for entry in stack]
        wanted = {"VCALENDAR": [[]], "VEVENT": [["VCALENDAR"]], "VTODO": [["VCALENDAR"]],
                  "VALARM": [["VCALENDAR", "VEVENT"], ["VCALENDAR", "VTODO"]]}
        if above not in wanted.get(name, []):
            self.fault(number, f"{name} inside of {above}")
        if name in TRIGGERS and stack:
            if not stack[-1]["events"]:
                self.check_head(number, stack[-1])
            stack[-1]["events"] += 1
        stack.append({"name": name, "line": number, "properties": [], "alarms": [],
                      "events": 0})

    def check_head(self, number, calendar):
        names = [name for name, _ in calendar["properties"]]
        values = dict(calendar["properties"])
        if names not in (HEAD, FEED_HEAD):
            self.fault(number, f"calendar head: {' '.join(names)}")
        elif values["NAME"] != values["X-WR-CALNAME"]:
            self.fault(number, "NAME and X-WR-CALNAME differ")

    def end(self, number, name, stack, uids):
        if not stack or stack[-1]["name"] != name:
            self.fault(number, f"END:{name} closes nothing")
            return
        entry = stack.pop()
        if name == "VCALENDAR" and not entry["events"]:
            self.check_head(number, entry)
        elif name == "VALARM":
            if [key for key, _ in entry["properties"]] != ALARM:
                self.fault(entry["line"], "alarm: properties or their order")
            if stack:
                stack[-1]["alarms"].append(dict(entry["properties"]).get("TRIGGER"))
        elif name in TRIGGERS:
            check = self.check_event if name == "VEVENT" else self.check_todo
            check(entry["line"], entry["properties"])
            last = dict(entry["properties"]).get("SUMMARY", "").startswith("Last day to hand in ")
            if entry["alarms"] != (LAST_DAY if last and name == "VEVENT" else TRIGGERS[name]):
                self.fault(entry["line"], f"alarms: {entry['alarms']}")
            uid = dict(entry["properties"]).get("UID")
            if uid in uids:
                self.fault(entry["line"], f"UID {uid} twice")
            uids.add(uid)


def main(paths):
    if not paths:
        print(__doc__, file=sys.stderr)
        return 2
    found = False
    for path in paths:
        try:
            with open(path, "rb") as file:
                data = file.read()
        except OSError as error:
            print(error, file=sys.stderr)
            return 2
        for fault in Lint(path).check(data):
            found = True
            print(fault)
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
