"""Random years ahead for the solver's checks and benchmarks, told twice: as the layered
graphs our solver reads, made winter by winter; and as a mixed-integer model for GLPK, made of
jumps from one visit to the next. The two are written from the same few figures, and share no
other line.

A piece of gear is served every `often` winters, from its age `aged` on every `late` winters;
it lives `life` winters and is then renewed, or sooner where that is cheaper. Its service costs
more with age. Some stations may serve it, each at its own price; a trip to one is paid once a
winter, whoever goes along."""
import random


class Gear:
    def __init__(self, chance, stations):
        self.often = chance.choice((1, 2, 2, 3, 3, 4))
        self.late = max(1, self.often - chance.randint(0, 2))
        self.aged = chance.randint(3, 9)
        self.life = self.aged + chance.randint(0, 6)
        self.age = chance.randint(0, self.life - 1)
        self.since = chance.randint(1, self.often)
        self.renew = chance.choice((40, 80, 150, 300, 900)) * 100
        self.dearer = chance.choice((0, 0, 250, 500))
        self.prices = {s: chance.randint(8, 60) * 250
                       for s in chance.sample(range(stations), chance.randint(1, min(3, stations)))}

    def good(self, age, since):
        """Is it in date in a season at this age, so many winters after its last service?"""
        return age < self.life and since < (self.late if age >= self.aged else self.often)

    def price(self, station, age):
        return self.prices[station] + self.dearer * age


class Problem:
    def __init__(self, seed, items, winters, stations):
        chance = random.Random(seed)
        self.winters, self.stations = winters, stations
        self.trips = [chance.randint(4, 40) * 500 for _ in range(stations)]
        self.gear = [Gear(chance, stations) for _ in range(items)]

    def course(self, gear):
        """One item's layered graph: a node is (age, winters since service)."""
        layer, arcs, nodes = {(gear.age, gear.since): 0}, [], 1
        for winter in range(self.winters):
            following = {}
            for (age, since), node in layer.items():
                ways = [(age, since, -1, 0), (0, 0, -1, gear.renew)]
                ways += [(age, 0, s, gear.price(s, age)) for s in sorted(gear.prices)]
                for new_age, new_since, station, minor in ways:
                    if not gear.good(new_age, new_since):
                        continue
                    state = (new_age + 1, new_since + 1)
                    if state not in following:
                        following[state] = nodes
                        nodes += 1
                    arcs.append((winter, node, following[state], station, minor))
            layer = following
        return nodes, arcs

    def as_text(self):
        words = [self.winters, self.stations, *self.trips, len(self.gear)]
        for gear in self.gear:
            nodes, arcs = self.course(gear)
            words += [nodes, len(arcs)] + [figure for arc in arcs for figure in arc]
        return " ".join(map(str, words)) + "\n"

    def jumps(self, gear):
        """From (winter of the last visit, winter it was new in) to the next visit or to the
        end, where every season in between is in date: (from, to, station, price)."""
        start = (-gear.since, -gear.age)
        seen, todo, jumps = {start}, [start], []
        while todo:
            visit, new = here = todo.pop()
            for winter in range(max(visit + 1, 0), self.winters + 1):
                if any(not gear.good(t - new, t - visit) for t in range(max(visit, 0), winter)):
                    break
                if winter == self.winters:
                    jumps.append((here, "end", None, 0))
                    break
                ways = [((winter, winter), None, gear.renew)]
                if winter - new < gear.life:
                    ways += [((winter, new), s, gear.price(s, winter - new)) for s in gear.prices]
                for there, station, minor in ways:
                    jumps.append((here, there, station, minor))
                    if there not in seen:
                        seen.add(there)
                        todo.append(there)
        return start, jumps

    def as_lp(self):
        """The model in the LP format: one unit flows from the start of every item to its end;
        nobody goes on a trip that is not made."""
        cost, rules, binary = [], [], []
        for s, minor in enumerate(self.trips):
            for t in range(self.winters):
                cost.append(f"+ {minor} y{s}_{t}")
                binary.append(f"y{s}_{t}")
        for i, gear in enumerate(self.gear):
            start, jumps = self.jumps(gear)
            balance, going = {}, {}
            for j, (here, there, station, minor) in enumerate(jumps):
                name = f"x{i}_{j}"
                binary.append(name)
                cost.append(f"+ {minor} {name}")
                balance.setdefault(here, []).append(f"- {name}")
                if there != "end":
                    balance.setdefault(there, []).append(f"+ {name}")
                if station is not None:
                    going.setdefault((station, there[0]), []).append(f"+ {name}")
            for node, terms in balance.items():
                rules.append(" ".join(terms) + f" = {-1 if node == start else 0}")
            for (s, t), terms in going.items():
                rules.append(" ".join(terms) + f" - y{s}_{t} <= 0")
        wrap = "\n".join
        return ("Minimize\n obj: " + wrap(cost) + "\nSubject To\n"
                + wrap(f" r{n}: {rule}" for n, rule in enumerate(rules))
                + "\nBinary\n" + wrap(binary) + "\nEnd\n")
