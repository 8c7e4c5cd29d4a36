"""Random winters of a base for the checks and benchmarks of the choice of trips: told as the
ways our solver reads, and as a mixed-integer model for GLPK made of days and weeks counted
apart. The two are written from the same few figures, and share no other line.

Boats of a base lie up on one of a few days and want their gear back by another; some gear may
not be handed in before a day of its own. Stations have open weekdays, a turn-round in days,
a price a kind, the price of a trip, and most of them a limit of pieces a week."""
import random

START = 20760  # 2026-11-03, a Tuesday; days are counted from 1970-01-01, a Thursday


class Station:
    def __init__(self, chance, weekly, trip):
        self.turn_round = chance.choice((5, 7, 10, 14))
        self.weekdays = chance.choice((31, 31, 63, 30))  # Monday is 1
        self.weekly, self.trip = weekly, trip

    def is_open(self, day):
        return self.weekdays >> (day + 3) % 7 & 1 == 1

    def ready(self, day):
        day += self.turn_round
        while not self.is_open(day):
            day += 1
        return day


class Problem:
    """`weeks` long; a station takes weekly[s] pieces a week (0: any number)."""

    def __init__(self, seed, things, weekly, weeks, lots=0.0, kinds=6):
        chance = random.Random(seed)
        self.stations = [Station(chance, limit, chance.randrange(20, 90) * 100)
                         for limit in weekly]
        prices = [[chance.randrange(20, 60) * 100 for _ in self.stations] for _ in range(kinds)]
        reach = [chance.sample(range(len(weekly)), chance.randint(1, len(weekly)))
                 for _ in range(kinds)]
        boats = [(START + chance.choice((0, 0, 7, 14)),
                  START + weeks * 7 - chance.choice((0, 0, 5, 7, 14)))
                 for _ in range(max(1, things // 10))]
        self.things = []  # pieces, {station: (first, back by, price)}
        for _ in range(things):
            kind, (first, back) = chance.randrange(kinds), chance.choice(boats)
            if chance.random() < 0.4:
                first += chance.randrange(max(1, weeks // 3)) * 7
            pieces = chance.randint(2, 5) if chance.random() < lots else 1
            self.things.append((pieces, {s: (first, back, prices[kind][s] * pieces)
                                         for s in sorted(reach[kind])}))

    def as_text(self):
        words = [len(self.stations)]
        for station in self.stations:
            words += [station.turn_round, station.trip, station.weekly, station.weekdays, 0]
        words.append(len(self.things))
        for pieces, ways in self.things:
            words += [pieces, len(ways)]
            for s, (first, back, price) in ways.items():
                words += [s, first, back, price, 0]
        return " ".join(map(str, words)) + "\n"

    def days(self, s, first, back):
        station = self.stations[s]
        return [day for day in range(first, back + 1)
                if station.is_open(day) and station.ready(day) <= back]

    def unserved(self):
        """The pieces that no day serves, limits or not."""
        return sum(pieces for pieces, ways in self.things
                   if not any(self.days(s, first, back) for s, (first, back, _) in ways.items()))

    def as_lp(self, nowhere=10 ** 7):
        """The model in the LP format. Like things are one variable a station and day; what goes
        nowhere costs `nowhere` a piece; the number of errands counts as a hundredth."""
        like = {}
        for pieces, ways in self.things:
            key = pieces, tuple(sorted(ways.items()))
            like[key] = like.get(key, 0) + 1
        cost, rules, bounds, whole, days, weeks = [], [], [], [], set(), {}
        for j, ((pieces, ways), count) in enumerate(like.items()):
            terms = []
            for s, (first, back, price) in ways:
                for day in self.days(s, first, back):
                    name = f"x{j}_{s}_{day}"
                    terms.append(f"+ {name}")
                    cost.append(f"+ {price} {name}")
                    rules.append(f"{name} - {count} y{s}_{day} <= 0")
                    days.add((s, day))
                    weeks.setdefault((s, (day + 3) // 7), []).append(f"+ {pieces} {name}")
            if not terms:
                continue  # no day serves it; that is no question of limits
            terms.append(f"+ z{j}")
            cost.append(f"+ {nowhere * pieces} z{j}")
            rules.append(" ".join(terms) + f" = {count}")
            whole += [term[2:] for term in terms]
            bounds += [f"0 <= {term[2:]} <= {count}" for term in terms]
        for s, day in sorted(days):
            cost.append(f"+ {self.stations[s].trip}.01 y{s}_{day}")
        for (s, _), terms in weeks.items():
            if self.stations[s].weekly > 0:
                rules.append(" ".join(terms) + f" <= {self.stations[s].weekly}")
        wrap = "\n".join
        return ("Minimize\n obj: " + wrap(cost) + "\nSubject To\n"
                + wrap(f" r{n}: {rule}" for n, rule in enumerate(rules))
                + "\nBounds\n" + wrap(bounds) + "\nGeneral\n" + wrap(whole)
                + "\nBinary\n" + wrap(f"y{s}_{day}" for s, day in sorted(days)) + "\nEnd\n")
