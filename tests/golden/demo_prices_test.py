#!/usr/bin/env python3
"""What the demonstration books cost, and what planning saves, against demo/derivation.md.

    demo_prices_test.py BECKET

Every figure is that of the derivation's section Money, in minor units."""
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "support"))
from harness import demonstration, end, same, scratch  # noqa: E402


def winter(owner):
    """The trips of the coming winter and all that it costs."""
    answer = owner.ask("winter")[0]
    same("the winter costs what was added up", 188970, answer["cost"]["minor"])
    saved = {trip["station"]: trip["chosen"]["saves_minor"]
             for trip in answer["hand_in"] if trip["chosen"]}
    same("both stations are chosen for 17.00 less",
         {"Holm Quay Safety Service": 1700, "Varne Sound Raft Loft": 1700}, saved)


def years(owner):
    """Three winters at least cost."""
    answer = owner.ask("years", "3")
    same("each winter costs what was added up", [185670, 75850, 103200],
         [winter["minor"] for winter in answer["winters"]])
    same("a raft of ten years goes where age costs nothing, and takes the jackets along",
         ["Holm Quay Safety Service", "Sandle Reach Inflatables"],
         [trip["station"] for trip in answer["winters"][2]["trips"]])
    same("over five winters a raft that ages is bought new, and each answer names the other",
         (["LJ-1", "LR-1"], ["LJ-1", "LR-1"]),
         ([item["tag"] for item in owner.ask("years", "5")["shore_list"]],
          [item["tag"] for item in owner.ask("winter")[0]["years"]]))
    same("planning saves 105.00, proven", (364720, 375220, True),
         (answer["minor"], answer["when_due"], answer["proven"]))


def fleet_years(fleet):
    """Eight boats alone, and as one."""
    alone = {plan["name"]: plan["minor"] for plan in fleet.ask("years", "3")["plans"]}
    bases = {vessel["vessel"]: vessel["base"] for vessel in fleet.ask("vessel")}
    together = fleet.ask("years", "3", "--base", "Port Marrin")["minor"]
    same("sharing trips saves 1680.00", 168000,
         sum(minor for name, minor in alone.items() if bases[name] == "Port Marrin") - together)


def each_names_the_other(fleet):
    """What the years buy new and the shore lists have serviced, boat by boat and of a base."""
    listed = {boat["vessel"]: sorted(item["tag"] for item in boat["years"])
              for boat in fleet.ask("winter")}
    planned = {plan["name"]: sorted(item["tag"] for item in plan["shore_list"])
               for plan in fleet.ask("years", "8")["plans"]}
    same("each boat's list and years name the same gear", listed, planned)
    same("most boats have some", True, sum(bool(tags) for tags in listed.values()) > 6)
    alone = fleet.ask("winter", "--vessel", "Amberjay")[0]["years"]
    same("asked about alone a boat's list says the same", listed["Amberjay"],
         sorted(item["tag"] for item in alone))


def main():
    with scratch() as folder:
        owner, fleet = demonstration(folder)
        winter(owner)
        years(owner)
        fleet_years(fleet)
        each_names_the_other(fleet)
    end()


main()
