"""Books told as plain data, for the second reckoning and for the program alike.

A book here is a dict: `today`, `sheets` (of one's own, by name), `vessels` and `items`. `stories`
makes the second reckoning's items of it; `write` enters it with the program's own commands, and
`ask` reads what the program says is due.
"""
import csv
import io
import json
import os
import re
import subprocess

import yaml

from second_reckoning import Event, Extension, Item, Maker, Mark, Record, Vessel, day_of

DATES = ("made", "packed", "bought", "fitted")
FACTS = ("use", "area", "persons", "season-months", "above-freezing", "dry-storage", "sheets")
ACT_ORDER = 1000  # what is told by an act is entered after what the CSV carries


class Refused(Exception):
    """The program refused what it was told."""


# --- For the second reckoning --------------------------------------------------------------------


def mark_of(expires):
    return Mark(expires[0], expires[1]) if expires else None


def thing_of(told):
    thing = {name: told[name] for name in DATES if told.get(name)}
    if told.get("expires"):
        thing["expires"] = mark_of(told["expires"])
    return thing


def vessel_of(told):
    facts = {}
    for name in FACTS:
        facts[name] = [(day_of(since) if since else 0, value) for since, value in told.get(name, [])]
    facts = {name: values for name, values in facts.items() if values}
    return Vessel(told["name"], facts, told.get("length"), told.get("built"))


def item_of(told, vessel):
    item = Item(told["tag"], told["kind"], vessel, thing_of(told), rating=told.get("rating"))
    for order, record in enumerate(told.get("records", [])):
        after = day_of(record["next"]) if record.get("next") else None
        item.records.append(Record(record["task"], day_of(record["day"]), after, order))
    for order, act in enumerate(told.get("acts", []), ACT_ORDER):
        if act["what"] == "renew":
            item.records.append(
                Record("renew", day_of(act["day"]), None, order, thing_of(act), act.get("refit", False))
            )
        else:
            item.events.append(Event(act["what"], day_of(act["day"]), order))
    for paper in told.get("extensions", []):
        item.extensions.append(
            Extension(paper["task"], day_of(paper["until"]), day_of(paper["given"]))
        )
    for paper in told.get("makers", []):
        item.makers.append(
            Maker(paper["task"], paper["months"], paper.get("first"), paper["since"], day_of(paper["on"]))
        )
    return item


def without(book, refused):
    """The book as it would be had what was refused never been told."""
    items = []
    for told in book["items"]:
        gone = [(name, paper) for tag, name, paper in refused if tag == told["tag"]]
        left = {
            name: [paper for paper in told.get(name, []) if (name, paper) not in gone]
            for name in ("extensions", "makers")
        }
        items.append({**told, **left})
    return {**book, "items": items}


def stories(book):
    """The book's items by tag, parts with their parents."""
    vessels = {told["name"]: vessel_of(told) for told in book["vessels"]}
    items = {told["tag"]: item_of(told, vessels[told["vessel"]]) for told in book["items"]}
    for told in book["items"]:
        if told.get("part_of"):
            items[told["part_of"]].parts.append(items[told["tag"]])
    return items


# --- For the program -----------------------------------------------------------------------------


def sheet_text(sheet):
    """A sheet as YAML, with yes and no where YAML's own writer says true and false."""
    text = yaml.safe_dump(sheet, sort_keys=False, width=1000)
    text = re.sub(r"\btrue\b", "yes", re.sub(r"\bfalse\b", "no", text))
    return re.sub(r"'(\d{4}-\d\d-\d\d)'", r"\1", text)


def worded(expires):
    return f"{expires[1]} {expires[0]}".strip() if expires else ""


class Written:
    """A book in a folder, written by the program."""

    def __init__(self, program, folder, book):
        self.program, self.folder, self.book = program, folder, book
        self.refused = []  # (tag, list, paper): what was not taken, since it would move nothing
        os.makedirs(os.path.join(folder, "sheets"), exist_ok=True)
        for name, sheet in book.get("sheets", {}).items():
            with open(os.path.join(folder, "sheets", name + ".yaml"), "w", encoding="utf-8") as file:
                file.write(sheet_text(sheet))
        for vessel in book["vessels"]:
            self.write_vessel(vessel)
        self.write_rows()
        self.dated_extensions = "--on" in self.run("extend", "--help")
        self.write_acts()
        self.write_papers()

    def run(self, *words, today=None, fine=(0,), text=None):
        where = ["--book", os.path.join(self.folder, "book.db"), "--today", today or self.book["today"]]
        done = subprocess.run(
            [self.program, *words, *where], input=text, capture_output=True, text=True, check=False
        )
        if done.returncode not in fine:
            raise Refused(f"{' '.join(words)}: {done.stderr.strip()}")
        return done.stdout

    def fact_words(self, name, value):
        if name == "sheets":
            return [word for sheet in value for word in ("--sheet", sheet)]
        if isinstance(value, bool):
            value = "yes" if value else "no"
        return ["--" + name, str(value)]

    def write_vessel(self, told):
        first, later = [], {}
        for name in FACTS:
            for since, value in told.get(name, []):
                if since is None:
                    first += self.fact_words(name, value)
                else:
                    later.setdefault(since, []).extend(self.fact_words(name, value))
        for name in ("length", "built"):
            if told.get(name):
                first += ["--" + name, str(told[name])]
        self.run("vessel", told["name"], "--lay-up", "none", *first)
        for since, words in sorted(later.items()):
            self.run("vessel", told["name"], *words, "--from", since)

    def write_rows(self):
        """Everything a CSV can carry: one record an item in each round."""
        rounds = max((len(item.get("records", [])) for item in self.book["items"]), default=0)
        for turn in range(max(rounds, 1)):
            rows = [self.row(item, turn) for item in self.book["items"]]
            rows = [row for row in rows if row]
            out = io.StringIO()
            writer = csv.DictWriter(out, list(rows[0]))
            writer.writeheader()
            writer.writerows(rows)
            self.run("import", "-", text=out.getvalue())

    def row(self, item, turn):
        records = item.get("records", [])
        if turn > 0 and turn >= len(records):
            return None
        record = records[turn] if records else {}
        row = {"tag": item["tag"], "kind": item["kind"], "vessel": item["vessel"]}
        if turn == 0:
            row.update({name: item.get(name) or "" for name in DATES})
            row["expires"] = worded(item.get("expires"))
            row["rating"] = item.get("rating") or ""
            row["part_of"] = item.get("part_of") or ""
        row["served"] = record.get("day", "")
        row["task"] = record.get("task", "")
        row["next"] = record.get("next") or ""
        return row

    def groups(self, name):
        """What several pieces were told alike and in the same turn: [(what, tags)]."""
        found = {}
        for item in self.book["items"]:
            for place, what in enumerate(item.get(name, [])):
                key = (what.get("turn", place), json.dumps(what, sort_keys=True))
                found.setdefault(key, []).append(item["tag"])
        return [(json.loads(key[1]), tags) for key, tags in sorted(found.items())]

    def write_acts(self):
        for act, tags in self.groups("acts"):
            words = ["record", act["what"], *tags, "--on", act["day"]]
            if act["what"] == "renew":
                words.append("--refit" if act.get("refit") else "--new")
            for name in ("made", "packed"):
                if act.get(name):
                    words += ["--" + name, act[name]]
            if act.get("expires"):
                words += ["--expires", worded(act["expires"])]
            self.run(*words)

    def write_papers(self):
        for paper, tags in self.groups("makers"):
            try:
                self.write_maker(paper, tags)
            except Refused:
                for tag in tags:
                    self.write_paper("makers", paper, [tag])
        for paper, tags in self.groups("extensions"):
            for tag in tags:
                self.write_paper("extensions", paper, [tag])

    def write_paper(self, name, paper, tags):
        try:
            (self.write_extension if name == "extensions" else self.write_maker)(paper, tags)
        except Refused:
            self.refused.append((*tags, name, paper))

    def write_extension(self, paper, tags):
        words = ["extend", *tags, "--task", paper["task"], "--until", paper["until"], "--paper", "P"]
        if self.dated_extensions:
            self.run(*words, "--on", paper["given"])
        else:
            self.run(*words, today=paper["given"])

    def write_maker(self, paper, tags):
        words = ["interval", *tags, "--task", paper["task"], "--every", str(paper["months"])]
        if paper.get("first"):
            words += ["--first", str(paper["first"])]
        if paper["since"]:
            words += ["--count-from", *paper["since"]]
        self.run(*words, "--paper", "manual", "--on", paper["on"])

    def ask(self, day):
        """{(tag, task, routine): (due, state, grade, good through)} as the program has it."""
        rows = json.loads(self.run("due", "--json", "--routine", today=day))
        return {
            (row["tag"], row["task"], row["routine"]): (
                row["due"], row["state"], row["grade"], row["good_through"]
            )
            for row in rows
        }
