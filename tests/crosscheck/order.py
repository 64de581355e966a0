"""Holds the order of every demo project against the same arithmetic in exact fractions with pint.

    python tests/crosscheck/order.py path/to/hodful

The program is asked for `measure` and `order` of each project as JSON. Its areas are first held against
surfaces.py; then coats, recipes, deliveries and packages are worked out from those areas and from what was
typed, and compared to 1e-9 relative. What measure does not print (how the surface grows with the offset, coves)
comes from surfaces.py.

Sources: layers by Steiner's formula for parallel surfaces; yield by absolute volumes, with the rule for paste
and sand of Gillette and Hill, Concrete Construction Methods and Costs, 1908 (sand swells 1.1 times, paste fills
0.9 of its voids); bulking of sand as in Central Public Works Department (India), Specifications, app. D.

Exit 0 when all is well, 1 when not. Not here: prices of other ways to order, and payment by measurement rules.
"""

import itertools
import json
import math
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

from surfaces import Face
from typed import exact, faces, load, number, read, value

ROOT = Path(__file__).resolve().parents[2]
LARKFIELD = ROOT / "crates/project-file/tests/files/larkfield.hodful.json"

LIMIT = 1e-9
AREAS = {"closed": 1e-9, "polygons": 1e-7, "arcs": 1e-6}

GRAINS = Fraction(2650)
"""Of mineral soil when none is given, kg/m³ (from memory: the usual value of soil mechanics)."""
WATER = Fraction(1000)
"""kg/m³ (from memory)."""
SWELL, USABLE = Fraction(11, 10), Fraction(9, 10)
SHRINKAGE = Fraction(2, 100)
"""Of thickness, when none is given: the limit of DIN 18947, as a data sheet quotes it."""
SLACK = Fraction(1, 10**9)
"""Share of one more package or load that rounding is forgiven."""

DENSITY, VOLUME, MASS = "kg/m**3", "m**3", "kg"


class Checks:
    def __init__(self):
        self.count, self.worst, self.missed = 0, 0.0, []

    def equal(self, place, ours, reference, limit=LIMIT):
        self.count += 1
        if ours is None or reference is None or isinstance(reference, str):
            if ours != reference:
                self.missed.append(f"{place} is {ours!r}, not {reference!r}")
            return
        ours, reference = Fraction(ours), Fraction(reference)
        if reference == 0:
            difference = 0.0 if abs(ours) < SLACK else math.inf
        else:
            difference = float(abs(ours - reference) / abs(reference))
        self.worst = max(self.worst, difference if limit == LIMIT else 0.0)
        if not difference <= limit:
            self.missed.append(
                f"{place} is {float(ours)!r}, not {float(reference)!r} ({difference:.1e})"
            )


def ask(program, command, path):
    ran = subprocess.run(
        [program, command, path, "--format", "json"], capture_output=True, text=True, check=True
    )
    return json.loads(ran.stdout)


# --- Ground: what the faces bring to the coats --------------------------------------------------------

ROWS = {
    "outline_m2": "outline",
    "openings_m2": "openings",
    "field_m2": "field",
    "reveals_m2": "reveals",
    "edges_m2": "edges",
    "lath_m2": "lath",
    "edge_length_m": "edge_length",
}


def grounds(project, measured, checks):
    """Area, growth and first-coat extras of every build-up, in m, m² and m³."""
    backgrounds = project["backgrounds"]
    key = next((b for b in backgrounds.values() if b["kind"] == "metal lath"), {})
    key_depth = value(key.get("dubbing_out"), "m", Fraction(0))
    sums = {name: dict(area=0, growth=0, first=0) for name in project["build_ups"]}
    expected = list(faces(project))
    checks.equal("number of faces", len(measured["faces"]), len(expected))
    for row, (wall, side, made, typed) in zip(measured["faces"], expected):
        place = f"wall {wall['id']} {side}"
        checks.equal(f"{place}: wall", row["wall"], wall["id"])
        checks.equal(f"{place}: face", row["face"], side)
        count = wall.get("count", 1)
        checks.equal(f"{place}: count", row["count"], count)
        known = Face(made)
        if not known.growth_known():
            checks.missed.append(f"{place}: the growth of its surface is not known here")
        sums_here = known.measure()
        trimmed = known.outline.kind == "polygon" and known.outline.trimmed
        limit = AREAS["polygons" if trimmed and known.way() == "closed" else known.way()]
        for ours, reference in ROWS.items():
            scale = 1000 if ours.endswith("_m") else 1_000_000
            checks.equal(f"{place}: {ours}", row[ours], sums_here[reference] / scale, limit)
        true_surface = sum(Fraction(row[k]) for k in ("field_m2", "reveals_m2", "edges_m2"))
        checks.equal(f"{place}: true_surface_m2", row["true_surface_m2"], true_surface)

        ground = sums[typed["build_up"]]
        dubbing = value(backgrounds[typed["background"]].get("dubbing_out"), "m", Fraction(0))
        ground["area"] += count * Fraction(row["true_surface_m2"])
        ground["growth"] += count * Fraction(sums_here["growth"]) / 1000
        extra = dubbing * Fraction(row["field_m2"]) + key_depth * Fraction(row["lath_m2"])
        extra += Fraction(sums_here["coves"]) / 10**9
        for pocket in wall.get("pockets", []):
            if pocket["face"] == side:
                size = (value(pocket[k], "m") for k in ("width", "height", "depth"))
                extra += math.prod(size) * pocket.get("count", 1)
        ground["first"] += count * extra
    return sums


# --- Mixes ---------------------------------------------------------------------------------------------


class Mix:
    """A mix per cubic metre of dry loose minerals."""

    def __init__(self, typed, materials):
        self.typed, self.materials = typed, materials
        parts = {name: number(p) for name, p in typed["parts"].items()}
        self.total = sum(parts.values())
        self.share = {name: p / self.total for name, p in parts.items() if p > 0}
        self.mass = {name: s * self.density(name) for name, s in self.share.items()}
        self.dry_mass = sum(self.mass.values())
        self.water = value(typed["water"], "dimensionless") * self.dry_mass
        self.mixed = self.yielded()

    def property(self, name, key, unit, default=None):
        return value(self.materials[name].get(key), unit, default)

    def density(self, name):
        return self.property(name, "loose_density", DENSITY)

    def grains(self, name):
        return self.property(name, "particle_density", DENSITY, GRAINS)

    def yielded(self):
        """Mixed volume: by a trial batch, else by absolute volumes."""
        trial = self.typed.get("trial_batch")
        if trial is None:
            return self.absolute()
        loose = read(trial["loose"])
        if loose.check("[mass]"):
            loose = exact(loose, MASS) / self.dry_mass
        else:
            loose = exact(loose, VOLUME)
        return value(trial["mixed"], VOLUME) / loose

    def absolute(self):
        solids = {name: m / self.grains(name) for name, m in self.mass.items()}
        water = self.water / WATER
        filled = sum(solids.values()) + water
        lost = value(self.typed.get("air"), "dimensionless", Fraction(0))
        for dose in self.additives():
            own = self.property(dose["material"], "particle_density", DENSITY)
            if own is not None:
                if per_mixed(dose):
                    lost += value(dose["dose"], DENSITY) / own
                else:
                    filled += self.dosed(dose, Fraction(1)) / own
        whole = filled / (1 - lost)
        sands = [name for name in self.share if self.materials[name]["kind"] == "sand"]
        sand = sum(self.share[name] for name in sands)
        voids = 0
        for name in sands:
            empty = 1 - self.density(name) / self.grains(name)
            voids += self.share[name] * self.property(
                name, "void_fraction", "dimensionless", empty
            )
        paste = sum(solids.values()) - sum(solids[name] for name in sands) + water
        return whole if paste >= USABLE * voids else max(whole, SWELL * sand)

    def additives(self):
        return [self.typed[key] for key in ("fibre", "binder") if key in self.typed]

    def dosed(self, dose, loose):
        """Mass of an additive for a loose volume of minerals; None where parts have no density."""
        if "parts" in dose:
            density = self.density(dose["material"])
            return None if density is None else loose * number(dose["parts"]) / self.total * density
        amount = value(dose["dose"], DENSITY)
        return amount * (loose * self.mixed if per_mixed(dose) else loose)

    def needs(self, mixed):
        """Dry loose volume and mass of each material for a mixed volume: (material, m³, kg)."""
        loose = mixed / self.mixed
        damp = Fraction(0)
        for name, share in self.share.items():
            yield name, loose * share, loose * self.mass[name]
            moisture = self.property(name, "moisture", "dimensionless", Fraction(0))
            damp += loose * self.mass[name] * moisture
        for dose in self.additives():
            mass = self.dosed(dose, loose)
            density = self.density(dose["material"])
            yield dose["material"], mass / density if density else None, mass
        water = next((n for n, m in self.materials.items() if m["kind"] == "water"), None)
        if water is not None:
            to_add = max(loose * self.water - damp, 0)
            yield water, to_add / WATER, to_add


def per_mixed(dose):
    return "parts" not in dose and dose.get("per", "mixed") == "mixed"


# --- Deliveries and packages ---------------------------------------------------------------------------


def held(text, packages, density):
    """Loose volume and mass of what a package holds, or of a stock."""
    named = {p["name"]: p["holds"] for p in packages}
    count, _, name = text.partition(" ")
    if name in named:
        volume, mass = held(named[name], (), density)
        return tuple(None if x is None else x * number(count) for x in (volume, mass))
    quantity = read(text)
    if quantity.check("[mass]"):
        mass = exact(quantity, MASS)
        return (mass / density if density else None), mass
    volume = exact(quantity, VOLUME)
    return volume, (volume * density if density else None)


def up(exact_count):
    return math.ceil(exact_count * (1 - SLACK))


def cheapest(need, offers):
    """Counts of packages: one kind alone, or whole ones of one kind and the rest in another.

    `need` is (m³, kg); an offer is (size, measure, price), measure 0 for m³ and 1 for kg. The cheapest, then the
    fewest, then the least over; without every price the first kind alone. None where nothing fits the need.
    """
    sizes = [(i, o) for i, o in enumerate(offers) if need[o[1]] is not None]
    if not sizes:
        return None
    if any(offer[2] is None for _, offer in sizes):
        sizes = sizes[:1]
    ways = []
    for i, (size, measure, _) in sizes:
        ways.append({i: up(need[measure] / size)})
    for (i, a), (j, b) in itertools.permutations(sizes, 2):
        whole = math.floor(need[a[1]] / a[0] * (1 + SLACK))
        left = 1 - whole * a[0] / need[a[1]]
        rest = up(left * need[b[1]] / b[0])
        if whole > 0 and rest > 0:
            ways.append({i: whole, j: rest})

    def judged(way):
        prices = [offers[i][2] * n for i, n in way.items() if offers[i][2] is not None]
        over = sum(n * offers[i][0] / need[offers[i][1]] for i, n in way.items())
        return sum(prices), sum(way.values()), over

    return min(ways, key=judged)


def money(text):
    return None if text is None else Fraction(text.replace(",", ""))


def reject(typed):
    """What a screen holds back: by its trial, held over thrown, else as typed."""
    test = typed.get("screen_test")
    if test is None:
        return value(typed.get("reject"), "dimensionless", Fraction(0))
    held_back, thrown = read(test["held"]), read(test["raw"])
    return exact(held_back / thrown, "dimensionless")


def bulking(typed):
    """Damp over dry, less one: by the jar, since flooded sand stands as dry sand does, else as typed."""
    test = typed.get("bulking_test")
    if test is None:
        return value(typed.get("bulking"), "dimensionless", Fraction(0))
    return value(test["damp"], "m") / value(test["flooded"], "m") - 1


def shrinkage(coat, mix):
    """What a coat loses of its thickness: as the last panel of its mix did, else as typed, else as usual."""
    for panel in reversed(mix.get("test_panels", [])):
        wet, dry = panel.get("wet_thickness"), panel.get("dry_thickness")
        if wet is not None and dry is not None:
            return 1 - value(dry, "m") / value(wet, "m")
    return value(coat.get("shrinkage"), "dimensionless", SHRINKAGE)


def material(name, typed, uses, row, checks):
    """Compares the row of one material, and gives its price."""
    place = f"material {name}"

    def share(key):
        return value(typed.get(key), "dimensionless", Fraction(0))

    def total(of):
        return None if any(x is None for x in of) else sum(of)

    raw = 1 / (1 - reject(typed)) / (1 - share("keeping_loss"))
    bulked = 1 + bulking(typed)
    volume, mass = (total(column) for column in zip(*uses))
    volume = None if volume is None else volume * raw * bulked
    mass = None if mass is None else mass * raw * (1 + share("moisture"))
    checks.equal(f"{place}: loose_m3", row["loose_m3"], volume)
    checks.equal(f"{place}: mass_kg", row["mass_kg"], mass)

    density = WATER if typed["kind"] == "water" else value(typed.get("loose_density"), DENSITY)
    if density is not None:
        density *= (1 + share("moisture")) / bulked
    packages = typed.get("packages", [])
    stock = (Fraction(0), Fraction(0))
    if "stock" in typed:
        stock = held(typed["stock"], packages, density)
    checks.equal(f"{place}: stock_m3", row["stock_m3"], stock[0])
    checks.equal(f"{place}: stock_kg", row["stock_kg"], stock[1])

    need = tuple(
        None if a is None or b is None else max(a - b, Fraction(0))
        for a, b in zip((volume, mass), stock)
    )
    offers = []
    for package in packages:
        measure = 1 if read(package["holds"]).check("[mass]") else 0
        size = held(package["holds"], (), None)[measure]
        offers.append((size, measure, money(package.get("price"))))
    nothing = any(n is not None and n <= 0 for n in need)
    way = {} if nothing else cheapest(need, offers) or {}
    got = {order["package"]: order for order in row["order"]}
    checks.equal(f"{place}: kinds of package", len(got), len(way))
    price = Fraction(0)
    for i, count in way.items():
        order = got.get(packages[i]["name"], {"count": None, "price": None})
        checks.equal(f"{place}: {packages[i]['name']}", order["count"], count)
        each = offers[i][2]
        checks.equal(f"{place}: price of {packages[i]['name']}", order["price"], each and each * count)
        price += (each or 0) * count
    times = sum(n * offers[i][0] / need[offers[i][1]] for i, n in way.items())
    for key, there, buy, used in zip(("spare_m3", "spare_kg"), stock, need, (volume, mass)):
        spare = None if buy is None else max(there + buy * times - used, Fraction(0))
        # What is over is a difference: held to the need, not to itself.
        if spare is not None and row[key] is not None:
            checks.equal(f"{place}: {key}", row[key] + float(used), spare + used)
        else:
            checks.equal(f"{place}: {key}", row[key], spare)
    return price


def project_checks(program, path, checks):
    project = load(path)
    measured, order = ask(program, "measure", path), ask(program, "order", path)
    ground = grounds(project, measured, checks)
    mixes = {name: Mix(typed, project["materials"]) for name, typed in project["mixes"].items()}
    working = value(project.get("mixer", {}).get("working_volume"), VOLUME)
    uses = {name: [] for name in project["materials"]}
    rows = iter(order["coats"])
    for build_up, coats in project["build_ups"].items():
        here, start, first = ground[build_up], Fraction(0), ground[build_up]["first"]
        for coat in coats:
            row = next(rows)
            place = f"build-up {build_up}, coat {coat['coat']}"
            for key, text in (("build_up", build_up), ("coat", coat["coat"]), ("mix", coat["mix"])):
                checks.equal(f"{place}: {key}", row[key], text)
            thick = value(coat["thickness"], "m")
            placed = first + thick * (here["area"] + here["growth"] * (2 * start + thick) / 2)
            wet = placed / (1 - shrinkage(coat, project["mixes"][coat["mix"]]))
            mixed = wet / (1 - value(coat.get("loss"), "dimensionless", Fraction(0)))
            checks.equal(f"{place}: area_m2", row["area_m2"], here["area"])
            checks.equal(f"{place}: placed_m3", row["placed_m3"], placed)
            checks.equal(f"{place}: wet_m3", row["wet_m3"], wet)
            checks.equal(f"{place}: mixed_m3", row["mixed_m3"], mixed)
            checks.equal(f"{place}: batches", row["batches"], working and mixed / working)
            for name, loose, mass in mixes[coat["mix"]].needs(mixed):
                uses[name].append((loose, mass))
            start, first = start + thick, Fraction(0)
    checks.equal("rows of coats left", len(list(rows)), 0)

    used = {name: amounts for name, amounts in uses.items() if amounts}
    listed = [row["material"] for row in order["materials"]]
    checks.equal("materials", ", ".join(listed), ", ".join(used))
    price = Fraction(0)
    for row in order["materials"]:
        name = row["material"]
        if name in used:
            price += material(name, project["materials"][name], used[name], row, checks)
    checks.equal("price", order["price"], price)
    return len(measured["faces"]), len(order["coats"]), len(listed)


def main():
    program = sys.argv[1]
    missed = compared = 0
    for path in [LARKFIELD, *sorted((ROOT / "demo-projects").glob("*.hodful.json"))]:
        checks = Checks()
        counts = project_checks(program, path, checks)
        for text in checks.missed[:10]:
            print(f"{path.name}: {text}")
        print(
            f"{path.name}: {counts[0]} faces, {counts[1]} coats, {counts[2]} materials,"
            f" {checks.count} figures, worst {checks.worst:.1e}, {len(checks.missed)} missed"
        )
        compared += checks.count
        missed += len(checks.missed)
    print(f"order: {compared} figures compared, {missed} missed")
    return 1 if missed or not compared else 0


if __name__ == "__main__":
    sys.exit(main())
