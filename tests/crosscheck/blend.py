"""Holds blends against the linear programmes that scipy solves (method highs).

    cargo build --release -p hodful-soils --example blends
    python tests/crosscheck/blend.py PATH_TO_EXAMPLE

Makes 1,000 random cases with a fixed seed, hands them to the example, and works each out again from the
description of the case: two to eight materials, with and without amounts, supplies, prices, limits. Compared
are the verdict and the optimum (to one part in a million); when there is a blend, also that it meets the case;
when there is none, the irreducible conflict, how far the materials reach, the nearest blend, and the amount
that would be within the supplies.

The widest margin is no linear programme when a ratio is asked for: here it is bracketed by halving, one
programme at a time.

A case is at the edge when whether it can be met turns on a change of every bound by a millionth; such cases are
counted, and their verdict may differ. Exit 0 when all is well, 1 when not. Not here: how the case is written
(see the example), timing.
"""

import math
import random
import subprocess
import sys

import numpy as np
from scipy.optimize import linprog

CASES = 1000
SEED = 20261125
RELATIVE = 1e-6
"""Of the optimum, as asked."""
EDGE = 1e-6
"""Share of the blend by which every bound is moved to see whether a case is at the edge."""
MET = 2e-6
"""A found blend may miss a bound by a millionth of itself, and printing and adding up takes a little."""

COST, BOUGHT, MARGIN = 0, 1, 2

LARGEST = {}
"""The largest difference seen, by what was compared."""

RETRIED = []
"""What scipy said when it did not vouch for an answer."""


def material(rng, sieves, buying):
    kind = rng.choice(["soil", "soil", "sand", "clay", "premix"])
    dirichlet = {
        "soil": (2.0, 3.0, 3.0, 0.7),
        "sand": (0.15, 0.3, 8.0, 0.5),
        "clay": (6.0, 3.0, 0.3, 0.05),
        "premix": (1.5, 2.0, 9.0, 1.5),
    }[kind]
    grains = [rng.gammavariate(a, 1.0) for a in dirichlet]
    grains = [g / sum(grains) for g in grains]
    passing = sorted(min(1.0, max(0.0, 1.0 - grains[3] + rng.uniform(-0.5, 0.2))) for _ in sieves)
    can_buy = rng.random() < buying
    stock = rng.choice([0.0, rng.uniform(10, 4000), rng.uniform(10, 4000)])
    loose = {"soil": (1000, 1400), "sand": (1300, 1700), "clay": (350, 1100), "premix": (1200, 1700)}[kind]
    return {
        "loose": rng.uniform(*loose),
        "grain": rng.uniform(2450, 2800),
        "grains": grains,
        "is_sand": kind == "sand",
        "price": 10 ** rng.uniform(-2.5, 0.8),
        "yard": stock,
        "can_buy": can_buy,
        "passing": passing,
    }


def around(rng, value, spread, top=None):
    """A range that holds `value` or lies beside it."""
    low = value * (1 + rng.uniform(-spread, 0.25 * spread))
    high = low + value * rng.uniform(0, spread) + 1e-4
    if top is not None:
        low, high = min(low, top), min(high, top)
    what = rng.random()
    if what < 0.2:
        return (None, high)
    if what < 0.4:
        return (low, None)
    if what < 0.45:
        return (value if top is None else min(value, top),) * 2
    return (low, high)


def make(rng):
    sieves = sorted(rng.sample([0.063, 0.25, 0.5, 1.0, 2.0, 4.0], rng.choice([0, 0, 1, 2, 3])))
    buying = rng.choice([0.0, 0.4, 0.7, 1.0])
    materials = [material(rng, sieves, buying) for _ in range(rng.randint(2, 8))]
    if all(not m["can_buy"] and m["yard"] == 0 for m in materials):
        materials[0]["yard"] = rng.uniform(10, 4000)
    # Ranges lie around the figures of some blend of the materials, so that about half can be met.
    mix = np.array([rng.gammavariate(0.6, 1.0) + 1e-6 for _ in materials])
    mix /= mix.sum()
    spread = rng.choice([0.15, 0.5, 1.0])
    case = {
        "aim": rng.randrange(3),
        "amount": rng.choice([None, rng.uniform(100, 6000)]),
        "materials": materials,
        "sieves": sieves,
        "ranges": {},
    }
    chances = {"clay": 0.6, "silt": 0.25, "sand/clay": 0.35, "sand/rest": 0.35}
    for i in range(len(sieves)):
        chances[f"sieve:{i}"] = 0.9
    for i in range(len(materials)):
        chances[f"share:{i}"] = 0.12
    for name, chance in chances.items():
        over, under = figure(case, name)
        a, b = over @ mix, under @ mix
        if rng.random() < chance and b > 0 and a / b < 1e4:
            top = None if "/" in name else 1.0
            case["ranges"][name] = around(rng, a / b, spread, top)
    return case


def figure(case, name):
    """Over and under of the figure, as coefficients of dry mass shares."""
    materials = case["materials"]
    take = lambda f: np.array([f(m) for m in materials], dtype=float)
    if name == "clay":
        return take(lambda m: m["grains"][0]), np.ones(len(materials))
    if name == "silt":
        return take(lambda m: m["grains"][1]), np.ones(len(materials))
    if name == "sand/clay":
        return take(lambda m: 1e3 * m["grains"][2] / m["grain"]), take(lambda m: 1e3 * m["grains"][0] / m["grain"])
    if name == "sand/rest":
        return take(lambda m: 1e3 * m["is_sand"] / m["loose"]), take(lambda m: 1e3 * (not m["is_sand"]) / m["loose"])
    kind, index = name.split(":")
    index = int(index)
    if kind == "sieve":
        return take(lambda m: m["passing"][index]), np.ones(len(materials))
    loose = take(lambda m: 1e3 / m["loose"])
    return loose * (np.arange(len(materials)) == index), loose


def caps(case):
    """Share of the blend that the yard holds of each material; infinite where nothing limits it."""
    out = []
    for m in case["materials"]:
        if case["amount"] is None:
            out.append(math.inf if m["yard"] > 0 else 0.0)
        else:
            out.append(m["yard"] / case["amount"])
    return np.array(out)


def limits(case):
    """Every limit by name, as coefficients whose sum must be at least 0, in shares of the blend."""
    out = {}
    for name, (low, high) in case["ranges"].items():
        over, under = figure(case, name)
        for word, bound, sign in (("least", low, 1.0), ("most", high, -1.0)):
            if bound is not None:
                scale = 1.0 + bound if "/" in name else 1.0
                out[f"{word}:{name}"] = sign * (over - bound * under) / scale
    return out


def bounds(case, without=()):
    n = len(case["materials"])
    cap = caps(case)
    yard, bought = [], []
    for i, m in enumerate(case["materials"]):
        limited = m["can_buy"] or f"supply:{i}" not in without
        yard.append((0, cap[i] if limited and math.isfinite(cap[i]) else None))
        bought.append((0, None if m["can_buy"] else 0))
    assert len(yard) == n
    return yard + bought


def solve(cost, rows, numbers, variables, extra=0):
    """Least cost with rows @ x >= numbers and the materials' shares adding up to 1."""
    n = len(variables) - extra
    whole = np.concatenate([np.ones(n), np.zeros(extra)])
    rows = np.array(rows, dtype=float).reshape(-1, len(variables))
    # Now and then the solver does not vouch for its answer at the finest tolerance: then at its usual one.
    fine = {"primal_feasibility_tolerance": 1e-9, "dual_feasibility_tolerance": 1e-9}
    for method, options in (("highs", fine), ("highs", {}), ("highs-ipm", {})):
        result = linprog(
            cost,
            A_ub=-rows if len(rows) else None,
            b_ub=-np.array(numbers) if len(rows) else None,
            A_eq=[whole],
            b_eq=[1.0],
            bounds=variables,
            method=method,
            options=options,
        )
        if result.status in (0, 2):
            return result if result.status == 0 else None
        RETRIED.append(result.message)
    raise RuntimeError(result.message)


def can(case, slack=0.0, without=()):
    """Whether the case can be met when every bound gives way by `slack` and some limits are left out."""
    rows = [np.tile(row, 2) for name, row in limits(case).items() if name not in without]
    n = len(case["materials"])
    return solve(np.zeros(2 * n), rows, [-slack] * len(rows), bounds(case, without)) is not None


def width(low, high):
    if low is not None and high is not None:
        return high - low
    return low if low is not None else high


def widest(case):
    """The widest margin by halving; None when no range has a width."""
    ends = [
        (name, bound, way * width(low, high))
        for name, (low, high) in case["ranges"].items()
        for bound, way in ((low, 1), (high, -1))
        if bound is not None and width(low, high) > 0
    ]
    if not ends:
        return None
    base = [np.append(np.tile(row, 2), 0.0) for row in limits(case).values()]
    n = len(case["materials"])

    def holds(margin):
        """Whether every bound can be kept when moved by the margin: as much to spare as can be is sought."""
        rows = list(base)
        for name, bound, inwards in ends:
            over, under = figure(case, name)
            moved = bound + margin * inwards
            row = math.copysign(1.0, inwards) * (over - moved * under)
            rows.append(np.append(np.tile(row / abs(inwards), 2), -1.0))
        cost = np.append(np.zeros(2 * n), -1.0)
        spare = solve(cost, rows, [0.0] * len(rows), bounds(case) + [(None, None)], 1)
        if spare is None:
            raise RuntimeError("a case that can be met cannot be met")
        return spare.fun <= 0.0

    low, high = 0.0, 1000.0
    if holds(high):
        return high
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low


def reach(case, name):
    """Least and most of a figure over what can be had, by the transformation of Charnes and Cooper (1962)."""
    over, under = figure(case, name)
    n = len(over)
    ratio = "/" in name
    whole = over + under if ratio else under
    # Variables: shares times the scale, then the scale; the whole is held at 1.
    if whole.max() <= 0:
        return (None, None)
    cap = np.array([math.inf if m["can_buy"] else c for m, c in zip(case["materials"], caps(case))])
    if cap.sum() < 1:
        cap = cap / cap.sum()
    rows, zero = [], []
    for i in range(n):
        if math.isfinite(cap[i]):
            row = np.zeros(n + 1)
            row[i], row[n] = 1.0, -cap[i]
            rows.append(row)
            zero.append(0.0)
    ends = []
    for sign in (1.0, -1.0):
        result = linprog(
            np.append(sign * over, 0.0),
            A_ub=rows or None,
            b_ub=zero or None,
            A_eq=[np.append(whole, 0.0), np.append(np.ones(n), -1.0)],
            b_eq=[1.0, 0.0],
            bounds=[(0, None)] * (n + 1),
            method="highs",
        )
        if result.status == 2:
            return (None, None)
        if result.status != 0:
            raise RuntimeError(result.message)
        share = sign * result.fun
        if ratio:
            share = math.inf if share > 1 - 1e-9 else share / (1 - share)
        ends.append(share)
    return tuple(ends)


def fewest_missed(case):
    """Least sum of misses over what can be had, volumes on the scale of the lightest material."""
    n = len(case["materials"])
    variables = bounds(case)
    total = sum(math.inf if high is None else high for _, high in variables)
    if total < 1:
        variables = [(0, high / total) for _, high in variables]
    rows = [np.tile(row * scale(case, name), 2) for name, row in limits(case).items()]
    wide = [np.concatenate([row, np.eye(len(rows))[i]]) for i, row in enumerate(rows)]
    cost = np.concatenate([np.zeros(2 * n), np.ones(len(rows))])
    result = solve(cost, wide, [0.0] * len(rows), variables + [(0, None)] * len(rows), len(rows))
    return result.fun


def scale(case, limit):
    """Volumes are counted so that one of the lightest material counts as its mass."""
    name = limit.split(":", 1)[1]
    if name == "sand/clay":
        return min(m["grain"] for m in case["materials"]) / 1e3
    if name == "sand/rest" or name.startswith("share"):
        return min(m["loose"] for m in case["materials"]) / 1e3
    return 1.0


def within(case):
    """The most that can be made, share of what is wanted."""
    n = len(case["materials"])
    rows = [np.tile(row, 2) for row in limits(case).values()] + [-np.ones(2 * n)]
    numbers = [0.0] * (len(rows) - 1) + [-1.0]
    upper, most = -np.array(rows), -np.array(numbers)
    result = linprog(-np.ones(2 * n), A_ub=upper, b_ub=most, bounds=bounds(case), method="highs")
    return -result.fun


def written(case):
    out = [case["aim"], case["amount"], len(case["materials"]), len(case["sieves"])]
    for m in case["materials"]:
        out += [m["loose"], m["grain"], *m["grains"], int(m["is_sand"]), m["price"], m["yard"], int(m["can_buy"])]
        out += m["passing"]
    ranges = case["ranges"]
    for name in ("clay", "silt", "sand/clay", "sand/rest"):
        out += ranges.get(name, (None, None))
    for i, size in enumerate(case["sieves"]):
        out += [size, *ranges.get(f"sieve:{i}", (None, None))]
    for i in range(len(case["materials"])):
        out += ranges.get(f"share:{i}", (None, None))
    return " ".join("-" if v is None else repr(v) if isinstance(v, int) else repr(float(v)) for v in out)


def fields(line):
    words = line.split()
    verdict, rest = words[0], words[1:]
    out = {"verdict": verdict, "line": line}
    if verdict == "fault":
        return out
    at = rest.index("shares")
    out["shares"] = np.array([float(w) for w in rest[at + 1 :]])
    out.update(zip(rest[:at:2], rest[1:at:2]))
    return out


def close(a, b, relative=RELATIVE, absolute=1e-9):
    if math.isinf(a) or math.isinf(b):
        return a == b
    return abs(a - b) <= relative * max(abs(a), abs(b)) + absolute


def note(what, ours, theirs, unit):
    """Keeps the largest difference of each kind, to be printed."""
    if unit > 1e-6:
        LARGEST[what] = max(LARGEST.get(what, 0.0), abs(ours - theirs) / unit)


def check_found(case, answer):
    n = len(case["materials"])
    shares = answer["shares"]
    yield "adds up to 1", close(shares.sum(), 1.0)
    yield "no share below 0", shares.min() >= 0
    for name, row in limits(case).items():
        yield f"{name} kept", row @ shares >= -MET / min(1.0, scale(case, name))
    most = np.array([math.inf if m["can_buy"] else c for m, c in zip(case["materials"], caps(case))])
    yield "supplies kept", bool((shares <= most + MET).all())
    price = np.array([m["price"] for m in case["materials"]])
    bought = np.maximum(shares - caps(case), 0.0)
    # Traces are not bought: a ten-millionth of the blend for each material.
    yield "cost of the shares", close(float(answer["cost"]), price @ bought, absolute=1e-6)
    yield "bought of the shares", close(float(answer["bought"]), bought.sum(), absolute=1e-6)
    rows = [np.tile(row, 2) for row in limits(case).values()]
    zero = [0.0] * len(rows)
    if case["aim"] == COST:
        best = solve(np.concatenate([np.zeros(n), price]), rows, zero, bounds(case)).fun
        yield f"least cost {best} against {answer['cost']}", close(float(answer["cost"]), best)
        note("cost, of itself", float(answer["cost"]), best, best)
    elif case["aim"] == BOUGHT:
        best = solve(np.concatenate([np.zeros(n), np.ones(n)]), rows, zero, bounds(case)).fun
        yield f"least bought {best} against {answer['bought']}", close(float(answer["bought"]), best)
        note("bought, of itself", float(answer["bought"]), best, best)
    else:
        best = widest(case)
        if best is None:
            yield "no margin", answer["margin"] == "-"
        elif best < 1000.0:
            ours = float(answer["margin"])
            # To a millionth of a width: a small margin is no better known for being small.
            yield f"widest margin {best} against {ours}", close(ours, best, absolute=RELATIVE)
            note("margin, in widths", ours, best, 1.0)
            note("margin, of itself", ours, best, best)
        else:
            yield "boundless margin", answer["margin"] == "-" or float(answer["margin"]) >= 999.99
    if answer["rounded"] != "-":
        steps = np.array([float(s) for s in answer["rounded"].split(":")])
        mass = steps * np.array([m["loose"] for m in case["materials"]])
        mass /= mass.sum()
        for name, row in limits(case).items():
            yield f"{name} kept by {answer['rounded']}", row @ mass >= -MET / min(1.0, scale(case, name))
        yield f"supplies kept by {answer['rounded']}", bool((mass <= most + MET).all())


def check_impossible(case, answer):
    conflict = set(answer["conflict"].split(","))
    every = set(limits(case)) | {f"supply:{i}" for i in range(len(case["materials"]))}
    others = every - conflict
    # A conflict within the solvers' own slack is let pass; every part of it must matter by more than that.
    yield "the conflict is one", not can(case, without=others) or not can(case, -EDGE, others)
    for part in conflict:
        yield f"without {part} there is none", can(case, EDGE, others | {part})
    reaches = dict(item.split("=", 1) for item in answer["reach"].split(",")) if case["ranges"] else {}
    for name in case["ranges"]:
        ours = [None if word == "-" else float(word) for word in reaches[name].split("=")]
        theirs = reach(case, name)
        for a, b in zip(ours, theirs):
            same = a is b or (a is not None and b is not None and (close(a, b) or min(a, b) > 1e6))
            yield f"reach of {name}: {theirs} against {ours}", same
    shares = answer["shares"]
    best = fewest_missed(case)
    ours = sum(max(0.0, -(row @ shares) * scale(case, name)) for name, row in limits(case).items())
    yield f"nearest {best} against {ours}", close(ours, best, absolute=1e-7)
    yield "nearest adds up to 1", close(shares.sum(), 1.0)
    if answer["within"] != "-":
        share = within(case)
        yield f"within {share}", close(float(answer["within"]) / case["amount"], share)
    elif any(part.startswith("supply") for part in conflict) and case["amount"] is not None:
        yield "nothing within", within(case) < 2e-3
    total = sum(math.inf if m["can_buy"] else m["yard"] for m in case["materials"])
    if case["amount"] is not None and total < case["amount"]:
        yield "all there is", close(float(answer["all"]), total)
    else:
        yield "there is enough", answer["all"] == "-"


def main():
    rng = random.Random(SEED)
    cases = [make(rng) for _ in range(CASES)]
    lines = "".join(written(case) + "\n" for case in cases)
    run = subprocess.run([sys.argv[1]], input=lines, capture_output=True, text=True, check=True)
    answers = [fields(line) for line in run.stdout.splitlines()]
    assert len(answers) == len(cases)
    counts = {"found": 0, "impossible": 0, "edge": 0, "rounded": 0, "checks": 0, "verdict differs at the edge": 0}
    failed = 0
    for number, (case, answer) in enumerate(zip(cases, answers), 1):
        feasible = can(case)
        edge = can(case, EDGE) != can(case, -EDGE)
        # A range without width has no inside: it cannot be met any tighter, and is no edge for that.
        if edge and any(low == high for low, high in case["ranges"].values()):
            edge = can(case, EDGE) != feasible
        counts["edge"] += edge
        ours = {"found": True, "impossible": False}.get(answer["verdict"])
        if ours is None or (ours != feasible and not edge):
            print(f"case {number}: scipy says {'found' if feasible else 'impossible'}: {answer['line']}")
            failed += 1
            continue
        if ours != feasible:
            counts["verdict differs at the edge"] += 1
            continue
        counts[answer["verdict"]] += 1
        counts["rounded"] += answer.get("rounded", "-") != "-"
        check = check_found if ours else check_impossible
        for what, holds in check(case, answer):
            counts["checks"] += 1
            if not holds:
                print(f"case {number} (aim {case['aim']}): {what}: {answer['line']}")
                failed += 1
    print(", ".join(f"{name} {count}" for name, count in counts.items()))
    print("largest differences: " + ", ".join(f"{what} {value:.1e}" for what, value in LARGEST.items()))
    print(f"scipy tried again {len(RETRIED)} times")
    print(f"{failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
