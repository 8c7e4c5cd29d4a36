"""What the pages show is what `--json` says, for the demonstration: two faces, one desk."""
import collections
import datetime
import re
import sys
import urllib.parse
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import Book, check, demonstration, end, same, scratch  # noqa: E402
from pages import Pages, send_parts  # noqa: E402

MONTHS = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()


def words(day):
    """A day as the pages have it: "5 Dec 2026"."""
    date = datetime.date.fromisoformat(day)
    return f"{date.day} {MONTHS[date.month - 1]} {date.year}"


def first_due(tasks):
    """Of a piece's tasks the one that falls due first: what is not in date before the rest. What
    can't fall due is none."""
    tasks = [t for t in tasks if not t["routine"] and
             (t["state"] != "in-date" or t["due"] is not None)]
    return min(tasks, key=lambda t: (t["state"] == "in-date", t["due"] or ""), default=None)


def check_locker(book, pages, boat):
    """Every piece in use stands there once, with its first task, state and day."""
    address = "/locker" if boat is None else f"/locker?boat={boat}"
    shown = {row.one("a", class_="tag").text(): row.one("div", class_="w").text()
             for row in pages.get(address).all("li", class_="row")}
    of_boat = ("--vessel", boat) if boat else ()
    gear = {item["tag"]: item for item in book.ask("list", *of_boat)}
    tasks = {}
    for row in book.ask("due", "--all", *of_boat):
        tasks.setdefault(row["tag"], []).append(row)
    same(f"the locker of {boat or 'her'} has what list --json has", sorted(gear), sorted(shown))
    wrong = []
    for tag, item in gear.items():
        first = first_due(tasks.get(tag, []))
        if item["state"] == "reserve":
            wanted = ["an extra, never counted"]
        elif first is None:
            wanted = ["no day set by any rule"]
        else:
            wanted = [first["task"]] + ([words(first["due"])] if first["due"] else [])
            if first["state"] != "in-date":
                wanted.append({"date-unknown": "date unknown"}.get(first["state"], first["state"]))
        wrong += [f"{tag}: {part!r} in {shown.get(tag)!r}" for part in wanted
                  if part not in shown.get(tag, "")]
    check(f"the locker of {boat or 'her'} says of each what due --json says", not wrong,
          "\n".join(wrong))


def check_card(book, pages, tag):
    """A card has the facts of show --json and a lane for each task of why --json that falls due."""
    card = pages.get(f"/locker/{tag}").one("div", class_="card")
    own = re.findall(r".{20}(?:\(column |\(option |of sheet |\w_\w|minor units).{20}", card.text())
    check(f"{tag}: its card has no word of the program's own", not own, own)
    shown = book.ask("show", tag)
    facts = " ".join(node.text() for node in card.all("dd"))
    known = [shown[key] for key in ("serial", "place", "make") if shown.get(key)]
    check(f"the card of {tag} has its facts", all(fact in facts for fact in known), facts)
    lanes = " ".join(node.text() for node in card.all("li", class_="clock"))
    routine = {row["task"] for row in book.ask("due", "--all", "--routine")
               if row["tag"] == tag and row["routine"]}
    due = [words(task["due"]) for task in book.ask("why", tag)["tasks"]
           if task["due"] and task["task"] not in routine]
    check(f"the card of {tag} draws its clocks", all(day in lanes for day in due),
          f"{due}\n{lanes}")
    records = [row.one("th").text() for row in card.one("table").all("tr")
               if row.one("th", scope="row")] if card.one("table") else []
    check(f"the card of {tag} has its records",
          all(words(record["on"]) in records for record in shown["records"]
              if len(record["on"]) == 10), records)


def check_not_working(book, pages):
    """A jacket whose firing head is gone is in date and does not work: why --json says so, and the
    page wherever it shows the jacket; what is to be bought for it is gone, not expired."""
    book.must("withdraw", "LJ-2-FH", "--because", "used")
    same("why says what it lacks", {"part": "LJ-2-FH", "because": "gone"},
         book.ask("why", "LJ-2")["not_working"])
    for address in ("/locker", "/locker?by=wrong"):
        rows = {row.one("a", class_="tag").text(): row.text()
                for row in pages.get(address).all("li", class_="row")}
        check(f"{address} says that it does not work",
              "does not work: LJ-2-FH is gone" in rows.get("LJ-2", ""), rows.get("LJ-2"))
        check(f"{address} says so of no other", sum("does not work" in row for row in rows.values()) == 1)
    card = pages.get("/locker/LJ-2").one("div", class_="card").text()
    check("its card says so", "It does not work and is not counted: its part LJ-2-FH" in card, card)
    bought = [row.text() for row in pages.get("/winter").one("ul", id="buy").all("li")
              if "LJ-2-FH" in row.text()]
    check("what is gone is to be bought, and not as expired",
          len(bought) == 1 and "gone" in bought[0] and "expired" not in bought[0], bought)
    book.must("withdraw", "LJ-2", "--because", "condemned")
    check("what is gone for good is not among what is not in date",
          "LJ-2" not in [row.one("a", class_="tag").text()
                         for row in pages.get("/locker?by=wrong").all("li", class_="row")])


def check_list_without_kinds(pages):
    """What a list lacks is said with what to choose on the page, not in an option's words."""
    form = next(form for form in pages.get("/list").all("form")
                if form.attributes.get("enctype") == "multipart/form-data")
    status, page = send_parts(pages, form, ("list", "list.csv", "text/csv",
                                            b"Tag,Description,Made\nXX-1,Raft,2021\n"))
    said = page.one("main").text()
    check("a list without kinds is told what to choose", status == 400 and
          'choose "what it is" for it below' in said and "HEADER" not in said,
          f"{status} {said}")


def check_papers(book, pages):
    """A picture comes bit for bit as a picture; a file that is no picture is to be saved."""
    picture = bytes.fromhex(
        "89504e470d0a1a0a0000000d49484452000000010000000108000000003a7e9b55"
        "0000000a49444154789c63600000000200015d0b2ab40000000049454e44ae426082")
    (book.folder / "label.png").write_bytes(picture)
    (book.folder / "paper.pdf").write_bytes(b"%PDF-1.4\n%%EOF\n")
    book.must("attach", "LR-1", "label.png", "paper.pdf")
    numbers = [paper["number"] for paper in book.ask("show", "LR-1")["papers"]]
    card = pages.get("/locker/LR-1").one("div", class_="card")
    same("the card shows the picture", [f"/paper/{numbers[0]}"],
         [node.attributes["src"] for node in card.all("img")])
    answer, body = pages.ask("GET", f"/paper/{numbers[0]}")
    same("a picture is served as it is", (200, "image/png", picture),
         (answer.status, answer.getheader("Content-Type"), body))
    answer, body = pages.ask("GET", f"/paper/{numbers[1]}")
    check("what is no picture is to be saved", answer.getheader("Content-Type") ==
          "application/pdf" and
          answer.getheader("Content-Disposition", "").startswith("attachment"))
    answer, body = pages.ask("GET", "/paper/99999")
    same("a paper that is not there is none", 400, answer.status)


def check_find(book, pages):
    """Words find what `where` finds."""
    for asked in ("raft", "LJ-1", "QF60417", "hand flare"):
        found = sorted(row["tag"] for row in book.ask("where", asked))
        page = pages.get("/locker?q=" + asked.replace(" ", "+"))
        same(f"{asked} finds on the page what where --json finds", found,
             sorted(node.text() for node in page.all("a", class_="tag")))


def check_saturday(book, pages):
    """The counter's day: who goes out and may sail as `muster --bookings` has it, and each cell of
    the table as `muster --on` has it."""
    day = "2027-04-03"
    for boat, last, persons in (("Brindlewing", "2027-04-17", 8), ("Dunelark", "2027-04-10", 6),
                                ("Foxmere", "2027-04-10", 10), ("Kestrelvane", "2027-04-10", 6)):
        book.must("booking", boat, "--from", day, "--to", last, "--persons", persons)
    raft = next(item["tag"] for item in book.ask("list", "--vessel", "Icequill")
                if item["kind"].startswith("liferaft-c") or item["kind"] == "liferaft-valise")
    book.must("move", raft, "--spares", "Cape Lorne")
    page = pages.get(f"/saturday?on={day}")
    going = {b["vessel"]: b for b in book.ask("muster", "--bookings", "--from", day, "--to", day)
             ["bookings"]}
    rows = {row.one("b", class_="big").text(): row.text() for row in page.all("li", class_="row")
            if row.one("span", class_="verdict")}
    same("the boats that go out are those with a booking from that day",
         sorted(going), sorted(rows))
    wrong = [f"{boat}: {going[boat]['answer']}, shown {words}" for boat, words in rows.items()
             if ("may sail" in words) != (going[boat]["answer"] == "fine") or
             (going[boat]["answer"] == "cured") != ("Cure it" in words)]
    check("who may sail is who has an answer that is fine", not wrong, "\n".join(wrong))
    moves = {f"/move/{move['tag']}?to={boat.replace(' ', '%20')}"
             for boat, one in going.items() for move in (one["muster"].get("spares") or
                                                         {"moves": []})["moves"]}
    same("the buttons move what cures it", moves,
         {a.attributes["href"].split("&")[0] for a in page.all("a", class_="button")
          if a.attributes["href"].startswith("/move/")})
    check("there is such a cure", len(moves) > 0)
    cells, wanted = {}, {}
    for link in page.one("table", class_="muster").all("a"):
        cells[link.one("span", class_="vh").text()] = link.one("span").text()
    for one in book.ask("muster", "--on", day)["vessels"]:
        for line in one["lines"]:
            words = f"{one['vessel']}, {line['title']}: {line['have']} of {line['need']}"
            if line["short"]:
                words += f", short of {line['short']}"
            elif line["remarks"]:
                words += ", counted though past common practice"
            wanted[words] = f"{line['have']}/{line['need']}"
    same("each cell is what muster --json has", wanted, cells)
    line = next(line for one in book.ask("muster", "--on", day)["vessels"]
                if one["vessel"] == "Amberjay" for line in one["lines"] if line["short"])
    why = pages.get(f"/saturday?on={day}&boat=Amberjay&line={line['line']}").one(
        "section", id="why")
    same("a cell that is pressed names the pieces that why --line has",
         [piece["tag"] for piece in book.ask("why", "--line", line["line"], "--vessel", "Amberjay",
                                             "--on", day)["pieces"]],
         [a.text() for a in why.all("a", class_="tag")])
    at_base = pages.get(f"/saturday?on={day}&base=Cape+Lorne")
    of_base = {words: count for words, count in wanted.items() if words.split(",")[0] in
               {one["vessel"] for one in book.ask("muster", "--on", day, "--base", "Cape Lorne")["vessels"]}}
    same("of one base the same cells are there, and no others", of_base,
         {link.one("span", class_="vh").text(): link.one("span").text()
          for link in at_base.one("table", class_="muster").all("a")})
    check("it is fewer than all", 0 < len(of_base) < len(wanted))
    check("a reason asked for there stays at that base", all(
        "&base=Cape%20Lorne#why" in link.attributes["href"]
        for link in at_base.one("table", class_="muster").all("a")))
    same("its boats go out as of all", {boat: row.split("back")[0] for boat, row in rows.items()
                                        if "Kestrelvane" in boat},
         {row.one("b", class_="big").text(): row.text().split("back")[0]
          for row in at_base.all("li", class_="row") if row.one("span", class_="verdict")})
    page = pages.get(f"/saturday?on={day}&was={day}&first=2027-03-27&ahead=14")
    check("the slider moves the day", "Saturday 10 Apr 2027" in page.text())
    page = pages.get("/saturday?on=31+Feb")
    check("a day that is none is told at its field",
          page.one("input", name="on").attributes.get("aria-invalid") == "true")
    # 25 November 2026 is a Wednesday
    check("and the Saturday that is looked at in its place is named",
          "Day looked at: Saturday 28 Nov 2026" in page.text())


def hand_ins(lists):
    """What is handed in, all boats together: day and station, with the boats."""
    found = {}
    for one in lists:
        for trip in one["hand_in"]:
            key = (trip["hand_in"], trip["station"] or "An approved station")
            found.setdefault(key, set()).add(one["vessel"])
    return found


def check_fleet_winter(book, pages):
    """The winter of all boats together is what `winter --json` has of each."""
    lists = book.ask("winter")
    page = pages.get("/winter")
    wanted = hand_ins(lists)
    shown = {}
    for row in page.all("li", class_="row"):
        if row.one("button"):
            boats = row.one("span").text().split(" of ", 1)[1].split("collect")[0]
            key = (row.one("time").attributes["datetime"], list(row.all("b"))[1].text())
            shown[key] = {name.strip() for name in boats.split(",")}
    same("each hand-in of the fleet stands once, with its boats", wanted, shown)
    minor = sum(one["cost"]["minor"] for one in lists)
    check("the money is that of all lists", f"{minor // 100}.{minor % 100:02d}" in page.text(), minor)
    of_base = pages.get("/winter?base=Cape+Lorne")
    same("of one base its own boats stand there",
         sorted(one["vessel"] for one in book.ask("winter", "--base", "Cape Lorne")),
         sorted(a.text() for a in of_base.all("a")
                if a.attributes["href"].startswith("/winter?vessel=")))
    # the Saturday before the week of 4 Dec 2026
    saturday = pages.get("/saturday?on=2026-11-28")
    week = {station for (day, station), _ in wanted.items() if "2026-11-28" < day <= "2026-12-05"}
    text = saturday.text().split("To hand in next")[-1]
    check("Saturday says what is handed in in the week after it",
          len(week) > 0 and all(station in text for station in week), text)
    check("and nothing of a later one", "To hand in next" not in
          pages.get("/saturday?on=2026-12-12").text())


def money(minor):
    """Minor units of the demonstration's currency, which has a hundred to the main one."""
    return f"{minor // 100}.{minor % 100:02d}"


def table_of(node):
    """The cells of a table's rows under their heads."""
    return {row.one("th", scope="row").text(): [cell.text() for cell in row.all("td")]
            for row in node.all("tr") if row.one("th", scope="row")}


def check_years(book, pages):
    """The money of each winter, and of two plans beside each other, is what `years --json` has."""
    page = pages.get("/years")
    answer = book.ask("years", 8)
    rows = table_of(page.one("table", class_="money"))
    same("each winter's money is what years --json has",
         {**{str(w["winter"]): money(w["minor"]) for w in answer["winters"]},
          "all": money(answer["minor"])}, {head: cells[-1] for head, cells in rows.items()})
    same("each winter's trips, too",
         {str(w["winter"]): money(sum(t["minor"] for t in w["trips"])) for w in answer["winters"]},
         {head: cells[0] for head, cells in rows.items() if head != "all"})
    say = page.one("p", class_="say").text()
    check("the sentence has the sum, and that it is proven", money(answer["minor"]) in say and
          ("No plan costs less," in say) == answer["proven"], say)
    shown = {row.one("b").text(): {node.text() for node in row.all("span", class_="nb")}
             for row in page.all("li", class_="row")}
    wanted = {f"winter {w['winter']}": {item["tag"] for item in w["items"]
                                        if item["task"] == "renew" or item["doer"] == "station"}
              for w in answer["winters"]}
    same("each winter names what is renewed and what goes to stations", wanted, shown)
    both = book.ask("years", 8, "--renew-now", "EB-1", "--compare")
    rows = table_of(pages.get("/years?renew=EB-1").one("div", id="else"))
    same("what if: both plans' sums, and the difference",
         [money(both["as_is"]["minor"]), money(both["changed"]["minor"])], rows["all"][:2])
    check("with its sign", rows["all"][2].lstrip("+−") == money(abs(both["difference"])) and
          rows["all"][2].startswith("+") == (both["difference"] > 0), rows["all"])


def check_reminders(book, pages):
    """The reminders, with their days, are those of `remind --json`; looking writes nothing."""
    before = book.ask("book", "journal")
    page = pages.get("/reminders")
    shown = [(row.one("time").attributes["datetime"], row.one("b").text())
             for row in page.all("li", class_="row")]
    same("the reminders are those of remind --json",
         sorted((one["day"], one["summary"]) for one in book.ask("remind")), sorted(shown))
    same("they stand by day", sorted(day for day, _ in shown), [day for day, _ in shown])
    same("looking at them writes nothing", before, book.ask("book", "journal"))


def rows_of(page):
    """The reminders of a page: identity, day and words. The last day of a hand-in has no way to
    another."""
    rows = []
    for row in page.all("li", class_="row"):
        link = row.one("a", class_="go")
        rows.append((link.attributes["href"].split("?")[0] if link else "", row.text()))
    return rows


def check_base_reminders(book, pages):
    """What is reckoned of a base's boats alone is what is reckoned of all boats, each on one of the
    pages."""
    whole = pages.get("/reminders")
    bases = [option.attributes["value"] for option in whole.one("select", name="base").all("option")][1:]
    check("there are several bases", len(bases) > 1)
    of_bases = {base: rows_of(pages.get(f"/reminders?base={urllib.parse.quote(base)}")) for base in bases}
    same("the reminders of all bases are those of each", sorted(rows_of(whole)),
         sorted(row for rows in of_bases.values() for row in rows))
    same("and those of all of remind --json", len(book.ask("remind")), len(rows_of(whole)))
    check("each base has some", all(of_bases.values()))


def check_large_reminders(book, pages):
    """Of a large fleet each reminder stands on one page; another day for it is tried and kept of
    those boats."""
    choices = ["Cove", "Quay", "none-1", "none-201"]
    of_pages = {choice: pages.get(f"/reminders?base={choice}") for choice in choices}
    same("/reminders: each stands on one of them", sorted(one["summary"] for one in book.ask("remind")),
         sorted(row.one("b").text() for page in of_pages.values() for row in page.all("li", class_="row")))
    link = of_pages["none-201"].one("a", class_="go")
    check("another day for it is asked of the same boats", link.attributes["href"].endswith("?base=none-201"))
    _, page, _ = pages.send(form_of(pages.get(link.attributes["href"]), "look"), act="look", on="3 Jan 2027")
    check("what that changes is told", "3 Jan 2027 in place of" in page.one("div", class_="change").text().replace(
        "\u00a0", " "), page.one("div", class_="change").text())
    status, _, to = pages.send(form_of(page, "save"), act="save")
    same("it is kept, and the same boats are shown", (303, "/reminders?base=none-201"), (status, to))
    check("on that day", "2027-01-03" in [row.one("time").attributes["datetime"] for row in
                                          pages.get(to).all("li", class_="row")])
    choose = pages.get("/reminders/choices?base=Cove")
    _, page, _ = pages.send(form_of(choose, "look"), act="look", weekday="Tuesday")
    check("a choice tells whose changes are told", "of the boats of Cove" in page.one(
        "div", class_="change").text())
    status, _, to = pages.send(form_of(page, "save"), act="save")
    same("a choice leads back to the same boats", (303, "/reminders?base=Cove"), (status, to))


def form_of(page, act):
    """The page's form that tries something, or, once that is told, keeps it."""
    return next(form for form in page.all("form") if form.attributes.get("method") == "post" and
                any(node.attributes.get("name") == "act" and node.attributes.get("value") == act
                    for node in form.all()))


def counted(summary, first):
    """How many pieces a summary of the calendar speaks of; `first` tells how many a tag's lot
    holds."""
    more = re.search(r" and (\d+) more,", summary)
    lot = re.match(r"Hand in (\d+) x ", summary)
    return int(more[1]) + first if more else int(lot[1]) if lot else 1


def check_counts(book, pages, boats):
    """Docket, shore list, calendar and the page's winter count the pieces of a hand-in alike."""
    lots = {item["tag"]: item["quantity"] for item in book.ask("list")}
    listed, firsts, drawn = {}, {}, collections.Counter()
    winters = book.ask("winter")
    for boat in winters:
        for trip in boat["hand_in"]:
            key = trip["hand_in"], trip["station"]
            listed.setdefault(key, set()).update(row["tag"] for row in trip["items"])
            firsts.setdefault(key, lots[trip["items"][0]["tag"]])
    listed = {key: sum(lots[tag] for tag in tags) for key, tags in listed.items()}
    dockets = {(one["hand_in"], one["station"]): one["count"] for one in book.ask("shore-papers")
               if not one["landed"]}
    # what is given out later only is in the list, not yet on paper
    same("list and dockets count alike", {key: listed.get(key) for key in dockets}, dockets)
    heads = re.findall(r"^(\d+) pieces? of \d+ vessels?(?:, (\d+)\s+inside\s+others)?:\s+hand",
                       book.must("shore-papers", "--docket"), re.M)
    same("the docket's head says so", [one["count"] for one in book.ask("shore-papers")
                                       if not one["landed"]], [int(head[0]) for head in heads])
    # a boat in use all year goes to a station without a winter's docket
    all_year = tuple(f"({boat['vessel']})" for boat in winters if boat["winter"] is None)
    told = {}
    for one in book.ask("remind"):
        if one["summary"].endswith(all_year):
            continue
        for key in dockets:
            if one["summary"].startswith("Hand in") and one["day"] == key[0] and \
                    f", {key[1] or 'an approved station'}" in one["summary"]:
                told[key] = counted(one["summary"], firsts[key])
    same("the calendar counts alike, for what it has", {key: dockets[key] for key in told}, told)
    check("and it has some", told, dockets)
    for boat in boats:
        for lane in pages.get("/winter" + (f"?vessel={boat}" if boat else "")).all("p", class_="name"):
            found = re.fullmatch(r"(.+?) (\d+) pieces?(, \d+ inside)?", lane.text())
            if found:
                drawn[found[1].removeprefix("An ").removeprefix("an ")] += int(found[2])
    stations = collections.Counter()
    for boat in book.ask("winter"):
        for trip in boat["hand_in"]:
            if boats == [None] or boat["vessel"] in boats:
                tags = {row["tag"] for row in trip["items"]}
                stations[trip["station"] or "approved station"] += sum(lots[tag] for tag in tags)
    same("the page's winter counts alike", dict(stations), dict(drawn))


def check_large(folder):
    """A fleet too large to be looked at at once is looked at base by base, and its boats without a
    base so many at a time: each boat stands on one of these pages, and on one alone."""
    book = Book(folder / "large.db")
    names = [f"Boat {number:03}" for number in range(214)]
    (folder / "large.csv").write_text("vessel,tag,kind,expires\n" + "".join(
        f"{name},F-{number},flare-red-hand,2027-06\n" for number, name in enumerate(names)))
    book.must("import", folder / "large.csv")
    for name in names[:3]:
        book.must("vessel", name, "--base", "Cove")
    book.must("vessel", names[3], "--base", "Quay")
    book.must("vessel", names[3], "--base", "Roads", "--from", "2027-05-01")  # in summer only
    pages = Pages(book)
    for address in ("/saturday", "/winter"):
        choices = [option.attributes["value"] for option in
                   pages.get(address).one("select", name="base").all("option")]
        same(f"{address}: the bases, and in pieces the boats without one",
             ["Cove", "Quay", "Roads", "none-1", "none-201"], choices)
        shown = []
        for choice in choices:
            page = pages.get(f"{address}?base={choice}")
            same(f"{address}: {choice} is what is shown", [choice], [
                option.attributes["value"] for option in page.one("select", name="base").all("option")
                if "selected" in option.attributes])
            shown += [name for name in names if name in page.text()]
        same(f"{address}: each boat stands on one of them", names, sorted(shown))
    check_large_reminders(book, pages)
    pages.close()


def check_sheet(book, pages, name):
    """A sheet's page has of each rule and line what `sheet show --json` has, and names a piece
    under no rule that `why --json` does not give it."""
    page, sheet = pages.get(f"/sheet/{name}"), book.ask("sheet", "show", name)
    same(f"{name}: its title", sheet["title"], page.one("h1").text())
    wrong, given = [], {}
    for tag in (item["tag"] for item in book.ask("list") if sheet["rules"]):
        for task in book.ask("why", tag)["tasks"]:
            for clock in task["clocks"]:
                if clock["state"] != "not-in-force":
                    given.setdefault(clock["rule"], set()).add(tag)
    for of, entries in (("rule", sheet["rules"]), ("line", sheet["carriage"])):
        for one in entries:
            row = page.one("li", id=f"{of}.{one[of]}")
            told = row.text() if row else ""
            wrong += [f"{one}: {part!r} in {told!r}" for part in
                      (one["source"], one.get("grade", ""), one.get("what", ""), one.get("title", ""))
                      if part and re.sub(r"\s+", " ", part) not in told]
            tags = {a.text() for a in row.all("a", class_="tag")} if row else set()
            wrong += [f"{one}: {tags}"] if tags - given.get(one[of], set()) else []
    check(f"{name}: each rule and line has its figures, source and grade, and no piece that why does not give it",
          not wrong, "\n".join(wrong[:5]))
    return page


def check_sheets(book, pages):
    """A raft of June 2018 on a private boat: the private rule holds for it, the one from an age of
    120 months (June 2028) not yet, the commercial one not at all. Its card leads to the rule."""
    page = check_sheet(book, pages, "practice")
    same("the rules of a raft hold for it as its age and her use say", [["LR-1"], [], []], [
        [a.text() for a in page.one("li", id=f"rule.raft-service-{which}").all("a", class_="tag")]
        for which in ("private", "private-aged", "commercial")])
    check("its card leads to the rule in its sheet", any(
        a.attributes["href"] == "/sheet/practice#rule.raft-service-private"
        for a in pages.get("/locker/LR-1").all("a")))
    names = [one["sheet"] for one in book.ask("sheet", "list")]
    same("all sheets are listed", [f"/sheet/{name}" for name in names],
         [a.attributes["href"] for a in pages.get("/sheets").one("ul", class_="rows").all("a")])


with scratch() as folder:
    owner, fleet = demonstration(folder)
    pages = Pages(owner)
    check_locker(owner, pages, None)
    for piece in ("LR-1", "LJ-1", "LJ-5", "FE-1", "EB-1", "FL-4"):
        check_card(owner, pages, piece)
    check_find(owner, pages)
    check_years(owner, pages)
    check_reminders(owner, pages)
    check_counts(owner, pages, [None])
    check_papers(owner, pages)
    check_sheets(owner, pages)
    check_list_without_kinds(pages)
    check_not_working(owner, pages)
    pages.close()
    pages = Pages(fleet)
    check_locker(fleet, pages, "Amberjay")
    check_fleet_winter(fleet, pages)
    check_saturday(fleet, pages)
    check_sheet(fleet, pages, "port-marrin")
    check_base_reminders(fleet, pages)
    check_counts(fleet, pages, ["Amberjay", "Harrowgull", "Junipersail"])
    pages.close()
    check_large(Path(folder))
end()
