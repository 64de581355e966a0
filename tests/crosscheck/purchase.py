"""Holds lists for the suppliers against scipy's mixed-integer solver on a model of its own.

    cargo build --release -p hodful-purchase --example purchases
    python tests/crosscheck/purchase.py target/release/examples/purchases

500 made-up cases (fixed seed), each with both aims. The model here is not the one of the program: loads are
not summed, every way to fill a truck is listed and the trips of each way are counted, so that packages are
never split over two trucks. What the solver gives is rounded, checked in exact fractions and priced in
decimals; so is what the program gives. A list that is called proven must have the same price and trips to
the last decimal, one that is not may only be worse.

Exit 0 when all is well, 1 when not. Not here: packages without a price.
"""

import itertools
import math
import random
import subprocess
import sys
from collections import Counter
from decimal import Decimal
from fractions import Fraction

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

CASES = 500
SEED = 20_261_125
MOST_FILLINGS = 300
"""Ways to fill one truck past which a case is not taken: a matter of time only."""
KINDS = ("one phase", "phases", "keeps", "least order", "mass", "volume", "not covered")


def some(rng, chance, make):
    return make() if rng.random() < chance else None


def made_up(rng):
    """A case: litres, kilograms, prices with two decimals, all exact."""
    fine = rng.random() < 0.5
    phases = rng.choice([1, 1, 2, 3])
    day, days = 0, []
    for _ in range(phases):
        days.append(None if rng.random() < 0.2 else day)
        day += rng.randint(1, 20)
    suppliers = [
        dict(
            charge=Decimal(rng.choice([0, rng.randint(1, 12) * 10, rng.randint(1, 9999)])) / rng.choice([1, 100]),
            least=some(rng, 0.3, lambda: Decimal(rng.randint(1, 12) * 25)),
            mass=some(rng, 0.5, lambda: rng.choice([750, 1500, 3000, 7500])),
            volume=some(rng, 0.5, lambda: rng.choice([600, 1200, 4000, 6000])),
        )
        for _ in range(rng.randint(0, 3))
    ]
    needs, offers = [], []
    for material in range(rng.randint(1, 4)):
        density = some(rng, 0.6, lambda: Fraction(rng.choice([5, 8, 12, 16, 20]), 10))
        by_volume = density is not None or rng.random() < 0.6
        amounts = []
        for _ in range(phases):
            amount = 0 if rng.random() < 0.25 else rng.randint(1, 60) * rng.choice([10, 25, 100])
            amounts.append(Fraction(amount))
        needs.append(
            dict(
                loose=amounts if by_volume else [None] * phases,
                mass=[a * density for a in amounts]
                if density
                else [None if by_volume else a for a in amounts],
                density=density,
                keeps=some(rng, 0.35, lambda: rng.randint(0, 30)),
            )
        )
        for _ in range(rng.randint(1, 3)):
            holds = rng.choice([25, 50, 100, 250] if fine else [250, 500, 750, 1000, 1400, 2500])
            price = Decimal(round(holds * rng.uniform(4, 16))) / 100
            side = "v" if rng.random() < (0.9 if by_volume else 0.1) else "m"
            offers.append(
                dict(
                    material=material,
                    supplier=rng.choice([None, *range(len(suppliers)), *range(len(suppliers))]),
                    side=side,
                    holds=holds,
                    price=price,
                    loose=some(rng, 0.2, lambda h=holds: h + rng.randint(0, 50)),
                    mass=some(rng, 0.2, lambda h=holds: h + rng.randint(0, 50)),
                )
            )
    return dict(days=days, suppliers=suppliers, needs=needs, offers=offers)


def in_text(case, name, aim):
    def word(value):
        if value is None:
            return "-"
        return repr(float(value)) if isinstance(value, Fraction) else str(value)

    yield f"case {name} {aim}"
    for day in case["days"]:
        yield f"phase {word(day)}"
    for need in case["needs"]:
        pairs = (f"{word(a)}:{word(b)}" for a, b in zip(need["loose"], need["mass"]))
        yield f"need {word(need['keeps'])} {' '.join(pairs)}"
    for s in case["suppliers"]:
        yield f"supplier {s['charge']} {word(s['least'])} {word(s['mass'])} {word(s['volume'])}"
    for o in case["offers"]:
        yield " ".join(
            word(o[key])
            for key in ("material", "supplier", "side", "holds", "price", "loose", "mass")
        ).join(["offer ", ""])
    yield "end"


class Model:
    """The case with the packages that can be held against their need."""

    def __init__(self, case):
        self.case = case
        self.days = case["days"]
        self.phases = range(len(self.days))
        self.offers, self.too_large = {}, False
        for place, offer in enumerate(case["offers"]):
            self.add(place, offer)
        self.covered = sorted({o["material"] for o in self.offers.values()})
        self.fillings = {}
        for supplier, terms in enumerate(case["suppliers"]):
            self.fillings[supplier] = self.fill(supplier, terms)

    def add(self, place, offer):
        need = self.case["needs"][offer["material"]]
        holds, density = Fraction(offer["holds"]), need["density"]
        loose, mass = offer["loose"], offer["mass"]
        nothing = not any(any(a or 0 for a in need[side]) for side in ("loose", "mass"))
        if loose is None:
            loose = holds if offer["side"] == "v" else density and not nothing and holds / density
        if mass is None:
            mass = holds if offer["side"] == "m" else density and not nothing and holds * density
        terms = {} if offer["supplier"] is None else self.case["suppliers"][offer["supplier"]]
        takes = []
        for limit, size in ((terms.get("mass"), mass), (terms.get("volume"), loose)):
            known = limit is not None and size not in (None, False)
            takes.append(Fraction(size) / limit if known else Fraction(0))
        self.too_large |= any(t > 1 for t in takes)
        amounts = need["loose" if offer["side"] == "v" else "mass"]
        if None in amounts or nothing:
            return
        self.offers[place] = dict(offer, takes=takes, share=holds / sum(amounts))
        need["shares"] = [a / sum(amounts) for a in amounts]

    def of(self, supplier):
        return [place for place, o in self.offers.items() if o["supplier"] == supplier]

    def serves(self, material, start, end):
        keeps, days = self.case["needs"][material]["keeps"], self.days
        known = None not in (keeps, days[start], days[end])
        return start <= end and not (known and days[end] - days[start] > keeps)

    def fill(self, supplier, terms):
        """Every way to fill a truck to which nothing can be added; None without a limit to all packages."""
        places = [p for p in self.of(supplier) if any(self.offers[p]["takes"])]
        found = []

        def go(rest, filling, left):
            if len(found) > MOST_FILLINGS:
                return
            if not rest:
                if not any(fits(self.offers[p]["takes"], left) for p in places):
                    found.append(dict(filling))
                return
            takes = self.offers[rest[0]]["takes"]
            for count in range(fits(takes, left), -1, -1):
                after = [a - t * count for a, t in zip(left, takes)]
                go(rest[1:], {**filling, rest[0]: count}, after)

        if places:
            go(places, {}, [Fraction(1), Fraction(1)])
        else:
            found.append({})
        return found

    def usable(self):
        return not self.too_large and all(len(f) <= MOST_FILLINGS for f in self.fillings.values())

    # --- The programme ---------------------------------------------------------------------------------

    def solve(self, aim):
        """Least price and trips by the aim, as (price, trips)."""
        if aim == "least":
            counts, trips = self.programme("price")
        else:
            _, trips = self.programme("trips")
            fewest = sum(trips.values())
            counts, trips = self.programme("price", fewest)
            assert sum(trips.values()) == fewest
        fault = self.fault(counts)
        assert fault is None, fault
        return self.price(counts, trips), sum(trips.values())

    def programme(self, goal, most_trips=None):
        names, whole, upper, cost = [], [], [], []

        def variable(name, price, most=np.inf, integer=True):
            names.append(name)
            whole.append(integer)
            upper.append(most)
            cost.append(float(price))
            return len(names) - 1

        rows, lower, high = [], [], []

        def row(terms, low, top):
            rows.append(terms)
            lower.append(low)
            high.append(top)

        by_price = goal == "price"
        count = {
            (o, p): variable(("count", o, p), self.offers[o]["price"] if by_price else 0)
            for o in self.offers
            for p in self.phases
        }
        trip = {}
        for s, terms in enumerate(self.case["suppliers"]):
            if not self.of(s):
                continue
            for p in self.phases:
                for f, _ in enumerate(self.fillings[s]):
                    trip[s, p, f] = variable(("trip", s, p), terms["charge"] if by_price else 1)
        for s, terms in enumerate(self.case["suppliers"]):
            for p in self.phases if self.of(s) else ():
                any_trip = {trip[s, p, f]: 1 for f in range(len(self.fillings[s]))}
                most = {}
                for o in self.of(s):
                    offer = self.offers[o]
                    most[o] = math.ceil(1 / offer["share"])
                    if terms["least"]:
                        most[o] = max(most[o], math.ceil(terms["least"] / offer["price"]))
                    if any(offer["takes"]):
                        on = {trip[s, p, f]: -n.get(o, 0) for f, n in enumerate(self.fillings[s])}
                    else:
                        on = {t: -most[o] for t in any_trip}
                    row({count[o, p]: 1, **on}, -np.inf, 0)
                if terms["least"]:
                    used = variable(("used", s, p), 0, 1)
                    for o in self.of(s):
                        row({count[o, p]: 1, used: -most[o]}, -np.inf, 0)
                    goods = {count[o, p]: float(self.offers[o]["price"]) for o in self.of(s)}
                    row({**goods, used: -float(terms["least"])}, 0, np.inf)
        for m in self.covered:
            places = [o for o, offer in self.offers.items() if offer["material"] == m]
            shares = self.case["needs"][m]["shares"]
            scale = 1 / max(self.offers[o]["share"] for o in places)
            flow = {
                (a, b): variable(("flow", a, b), 0, integer=False)
                for a in self.phases
                for b in self.phases
                if self.serves(m, a, b)
            }
            for a in self.phases:
                come = {count[o, a]: -float(self.offers[o]["share"] * scale) for o in places}
                row({**come, **{v: 1 for (f, _), v in flow.items() if f == a}}, -np.inf, 0)
            for b in self.phases:
                row(
                    {v: 1 for (_, t), v in flow.items() if t == b},
                    float(shares[b] * scale) * (1 - 1e-9),
                    np.inf,
                )
        if most_trips is not None:
            row({v: 1 for v in trip.values()}, -np.inf, most_trips)
        if not names:
            return {}, Counter()
        matrix = csr_array(
            (
                [float(v) for r in rows for v in r.values()],
                (
                    [i for i, r in enumerate(rows) for _ in r],
                    [column for r in rows for column in r],
                ),
            ),
            shape=(len(rows), len(names)),
        )
        found = milp(
            np.array(cost),
            integrality=np.array(whole, dtype=int),
            bounds=Bounds(0, np.array(upper)),
            constraints=LinearConstraint(matrix, lower, high),
            options={"mip_rel_gap": 0.0},
        )
        assert found.status == 0, found.message
        counts, trips = {}, Counter()
        for name, value in zip(names, found.x):
            if name[0] == "count" and round(value):
                counts[name[1:]] = round(value)
            elif name[0] == "trip" and round(value):
                trips[name[1:]] += round(value)
        return counts, trips

    # --- A list, looked at in exact numbers -------------------------------------------------------------

    def price(self, counts, trips):
        goods = sum((self.offers[o]["price"] * n for (o, _), n in counts.items()), Decimal(0))
        suppliers = self.case["suppliers"]
        return goods + sum(suppliers[s]["charge"] * n for (s, _), n in trips.items())

    def goods(self, counts):
        return self.price(counts, {})

    def fault(self, counts):
        """Why a list does not do, in exact numbers; None when it does."""
        for m in self.covered:
            shares = self.case["needs"][m]["shares"]
            come = Counter()
            for (o, p), n in counts.items():
                if self.offers[o]["material"] == m:
                    come[p] += self.offers[o]["share"] * n
            # Hall's condition: for every set of phases, what can serve any of them is enough for all.
            for size in range(1, len(self.phases) + 1):
                for ends in itertools.combinations(self.phases, size):
                    starts = {a for a in self.phases for b in ends if self.serves(m, a, b)}
                    if sum(come[a] for a in starts) < sum(shares[b] for b in ends) * (1 - Fraction(1, 10**9)):
                        return f"material {m} lacks in {ends}"
        for s, terms in enumerate(self.case["suppliers"]):
            for p in self.phases if terms["least"] else ():
                lines = [(o, n) for (o, q), n in counts.items() if q == p and o in self.of(s)]
                goods = sum(self.offers[o]["price"] * n for o, n in lines)
                if lines and goods < terms["least"]:
                    return f"supplier {s} is below the least order in {p}"
        return None


def fits(takes, left):
    return min((int(a // t) for t, a in zip(takes, left) if t), default=0)


def main():
    program = sys.argv[1]
    rng = random.Random(SEED)
    models = []
    kinds = Counter()
    while len(models) < CASES:
        model = Model(made_up(rng))
        if not model.usable():
            continue
        case = model.case
        for kind, there in zip(
            KINDS,
            (
                len(case["days"]) == 1,
                len(case["days"]) > 1,
                any(n["keeps"] is not None for n in case["needs"]),
                any(s["least"] for s in case["suppliers"]),
                any(s["mass"] for s in case["suppliers"]),
                any(s["volume"] for s in case["suppliers"]),
                len(model.covered) < len(case["needs"]),
            ),
        ):
            kinds[kind] += there
        models.append(model)
    asked = [(i, aim) for i in range(CASES) for aim in ("least", "fewest")]
    text = (line for i, aim in asked for line in in_text(models[i].case, f"{i}", aim))
    ran = subprocess.run(
        [program], input="\n".join(text) + "\n", capture_output=True, text=True, check=True
    )
    answers = ran.stdout.splitlines()
    missed = []
    figures = Counter()
    if len(answers) != len(asked):
        missed.append(f"{len(answers)} answers to {len(asked)} cases")
    for (i, aim), answer in zip(asked, answers):
        place = f"case {i}, {aim}"
        name, *rest = answer.split()
        if name != str(i) or rest[0] in ("fault", "-"):
            missed.append(f"{place}: {answer}")
            continue
        price, trips, proven, simple, simple_trips, *lines = rest
        counts = {}
        for line in lines:
            offer, phase, count = map(int, line.split(":"))
            counts[offer, phase] = count
        fault = models[i].fault(counts)
        if fault:
            missed.append(f"{place}: {fault}")
        ours = (Decimal(price), int(trips))
        best = models[i].solve(aim)
        order = (lambda v: v[:1]) if aim == "least" else (lambda v: v[::-1])
        simply = (Decimal(simple), int(simple_trips))
        figures[proven] += 1
        figures["better than the simple list"] += order(ours) < order(simply)
        if order(ours) > order(simply):
            missed.append(f"{place}: {ours} is worse than the simple list, {simply}")
        if models[i].goods(counts) > ours[0]:
            missed.append(f"{place}: {ours} is less than the goods")
        if order(ours) < order(best) or (proven == "proven" and order(ours) != order(best)):
            missed.append(f"{place}: {proven} {ours}, not {best}")
        figures["open, and worse"] += order(ours) > order(best)
    print(f"{CASES} cases, both aims: {len(asked)} lists compared")
    print("of the cases: " + ", ".join(f"{kinds[kind]} {kind}" for kind in KINDS))
    print(", ".join(f"{figures[k]} {k}" for k in figures))
    for line in missed[:20]:
        print(line)
    if figures["proven"] == 0 or figures["better than the simple list"] == 0 or not all(kinds.values()):
        missed.append("a kind of case is missing")
        print(missed[-1])
    return 1 if missed else 0


if __name__ == "__main__":
    sys.exit(main())
