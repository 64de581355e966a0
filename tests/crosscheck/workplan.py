"""Holds plans of work against networkx and the constraint solver of OR-Tools.

Reads on standard input what the program's own example writes, one JSON object a line:

    cargo run --release -p hodful-workplan --example plans | python tests/crosscheck/workplan.py

- Networks with hands for all: half of them in one long day, where the end is the longest path of networkx and the
  chain that is told is such a path; the others in random working hours with waits, where the earliest ends are worked
  out in networkx's order of the tasks, on a list of the quarters of an hour that are worked.
- Small sites with few hands and one mixer: the best end by CP-SAT, with whole people, litres an hour and no face over
  night. No plan may end before it, and what is told as a bound may not be after it. How much later plans end is told,
  and is no reason to fail.

Exit 0 when all is well, 1 when not. Not here: whether a plan can be done, which the program's own tests ask.
"""

import bisect
import datetime as dt
import json
import math
import sys
from collections import Counter
from fractions import Fraction

import networkx as nx
from ortools.sat.python import cp_model

EXPECTED = {"network": 200, "small": 60}
STEP = dt.timedelta(minutes=15)
SECONDS = 5
"""For one small site. Where that is too little, the best that was proved unreachable is compared with instead."""

ratios = []
unproved = []


def moment(text):
    return dt.datetime.fromisoformat(text)


def quarters(case, days):
    """Begins of the quarters of an hour that are worked."""
    breaks = [[dt.time.fromisoformat(t) for t in pair] for pair in case["breaks"]]
    first = dt.date.fromisoformat(case["begins"])
    off = {dt.date.fromisoformat(day) for day in case["days_off"]}
    for number in range(days):
        day = first + dt.timedelta(days=number)
        if day.weekday() not in case["weekdays"] or day in off:
            continue
        now = dt.datetime.combine(day, dt.time.fromisoformat(case["from"]))
        end = dt.datetime.combine(day, dt.time.fromisoformat(case["to"]))
        while now + STEP <= end:
            if not any(from_ <= now.time() < to for from_, to in breaks):
                yield now
            now += STEP


def graph(case):
    found = nx.DiGraph()
    for number, task in enumerate(case["tasks"]):
        found.add_node(number, steps=round(task["hours"] * 4))
        for before, hours in task["after"]:
            found.add_edge(before, number, wait=hours)
    return found


def network(case):
    net = graph(case)
    tasks = case["tasks"]
    axis = list(quarters(case, 1000))
    if case["bare"]:
        # Each job's length on the arrows that leave it, and one end for all.
        paths = nx.DiGraph()
        for number, data in net.nodes(data=True):
            paths.add_edge(number, "end", weight=data["steps"])
            for after in net.successors(number):
                paths.add_edge(number, after, weight=data["steps"])
        longest = nx.dag_longest_path_length(paths)
        yield "longest path", moment(case["end"]) == axis[0] + longest * STEP
        yield "chain is a path", nx.is_path(net, case["chain"])
        yield "chain is longest", sum(net.nodes[n]["steps"] for n in case["chain"]) == longest
    ends = {}
    for number in nx.topological_sort(net):
        may = [ends[b] + dt.timedelta(hours=net.edges[b, number]["wait"]) for b in net.predecessors(number)]
        at = bisect.bisect_left(axis, max(may, default=axis[0]))
        steps = net.nodes[number]["steps"]
        while axis[at].date() != axis[at + steps - 1].date():
            at += 1
        ends[number] = axis[at + steps - 1] + STEP
        yield f"begin of {number}", moment(tasks[number]["begin"]) == axis[at]
        yield f"end of {number}", moment(tasks[number]["end"]) == ends[number]
    last = max(ends.values())
    yield "end", moment(case["end"]) == last
    yield "bound", moment(case["bounds"]["chain"]) == last


def optimum(case, days):
    """The fewest steps to the end by CP-SAT, each day being as many steps as are worked."""
    a_day = len({q for q in quarters(case, 1)})
    begin = 4 * int(case["from"][:2])
    horizon = days * a_day
    model = cp_model.CpModel()
    people, most_mix = case["people"], math.floor(Fraction(case["litres_per_hour"]) * 250)
    ends, hands, mix = [], ([], []), ([], [])
    end_of_all = model.new_int_var(1, horizon, "end")
    for number, task in enumerate(case["tasks"]):
        start = model.new_int_var(0, horizon, f"start {number}")
        end = model.new_int_var(0, horizon, f"end {number}")
        chosen = []
        for steps in range(1, a_day + 1):
            hours = Fraction(task["m2"]) / Fraction(case["placing"])
            need = math.ceil(hours * 4 / steps)
            flow = math.ceil(math.ceil(Fraction(task["litres"]) * 1000) / Fraction(steps))
            if need > min(people, task["most"] or people) or flow > most_mix:
                continue
            this = model.new_bool_var(f"{number} in {steps}")
            spans = [[d * a_day, d * a_day + a_day - steps] for d in range(days)]
            own = model.new_int_var_from_domain(cp_model.Domain.from_intervals(spans), f"{number} at {steps}")
            model.add(start == own).only_enforce_if(this)
            interval = model.new_optional_interval_var(own, steps, end, this, f"{number} for {steps}")
            for (intervals, demands), demand in ((hands, need), (mix, flow)):
                intervals.append(interval)
                demands.append(demand)
            chosen.append(this)
        model.add_exactly_one(chosen)
        for before, wait in task["after"]:
            # The first step that may be begun with, for each step that may end.
            may = [0]
            for step in range(1, horizon + 1):
                day, rest = divmod(step - 1, a_day)
                at = day * 96 + begin + rest + 1 + round(wait * 4)
                day, rest = divmod(at, 96)
                rest -= begin
                may.append((day + (rest >= a_day)) * a_day + (0 if rest >= a_day else max(rest, 0)))
            first = model.new_int_var(0, max(may), f"first {number}")
            model.add_element(ends[before], may, first)
            model.add(start >= first)
        model.add(end <= end_of_all)
        ends.append(end)
    model.add_cumulative(*hands, people)
    model.add_cumulative(*mix, most_mix)
    model.minimize(end_of_all)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = SECONDS
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return None
    return math.ceil(solver.best_objective_bound), status == cp_model.OPTIMAL


def small(case):
    axis = list(quarters(case, 60))
    days = (moment(case["end"]).date() - axis[0].date()).days + 1
    found = optimum(case, days)
    yield "a plan in these days", found is not None
    if found is None:
        return
    best, proved = found
    theirs = axis[best - 1] + STEP
    ours = moment(case["end"])
    yield "not before the best", ours >= theirs
    if not proved:
        unproved.append(case["seed"])
        return
    for name, bound in case["bounds"].items():
        yield f"bound of {name}", moment(bound) <= theirs
    ratios.append(bisect.bisect_left(axis, ours) / best)


CHECKS = {"network": network, "small": small}


def main():
    cases, compared, failed = Counter(), Counter(), []
    for line in sys.stdin:
        case = json.loads(line)
        kind = case["kind"]
        cases[kind] += 1
        for what, holds in CHECKS[kind](case):
            compared[kind] += 1
            if not holds:
                failed.append(f"{kind} {case['seed']}: {what}")
    for kind, count in cases.items():
        print(f"{kind}: {count} cases, {compared[kind]} comparisons")
    if ratios:
        best = sum(ratio == 1 for ratio in ratios)
        mean = sum(ratios) / len(ratios)
        print(f"working time over the best: {mean:.4f} in the mean, {max(ratios):.3f} at most, {best} of {len(ratios)} the best, {len(unproved)} not proved")
    for line in failed[:20]:
        print(f"    FAILED {line}")
    if cases != EXPECTED:
        sys.exit(f"{dict(cases)}, not {EXPECTED}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
