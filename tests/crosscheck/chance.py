"""Holds samples, learnt means and drawn figures against numpy, scipy and uncertainties.

Reads on standard input what the program's own example writes, one JSON object a line:

    cargo run --release -p hodful-chance --example chances | python tests/crosscheck/chance.py

- Samples: mean, deviation, quantiles, chances and the counts of histograms, against numpy on the same values.
- Learnt means: prior density times likelihoods, integrated numerically by scipy; nothing of the closed form.
- Figures of a wall: the deviation of 200 000 draws against the linear propagation of uncertainties with the
  second-order terms of the variance added, within three standard errors of a deviation, sd / √(2n); the mean
  against the value at the means with its own second-order term, within three of its standard errors.
- Random words: SplitMix64 and PCG XSL RR 128/64 (MCG) written down a second time in whole numbers.

Exit 0 when all is well, 1 when not. Not here: how inputs of a project come to their spreads.
"""

import itertools
import json
import math
import sys
from collections import Counter

import numpy as np
from scipy import integrate, stats
from uncertainties import ufloat

EXPECTED = {"sample": 20, "learnt": 20, "figure": 10, "words": 12}

CLOSE = 1e-12
"""Relative to the largest value: the same formulas, summed in another order."""

INTEGRATED = 1e-7
"""Relative: what the adaptive integration is asked for, with room for differences of moments."""

MOST_BINS = 60
"""Of a histogram when nobody asks for a number."""


def sample(case):
    values = np.array(case["values"])
    scale = CLOSE * np.abs(values).max()
    n = len(values)
    sd = np.std(values, ddof=1)
    yield "mean", abs(case["mean"] - values.mean()) <= scale
    # A deviation far below the values themselves keeps fewer of their digits.
    yield "sd", abs(case["sd"] - sd) <= scale
    yield "standard error", abs(case["standard_error"] - sd / math.sqrt(n)) <= scale
    for share, value in case["quantiles"]:
        yield f"quantile {share}", abs(value - np.quantile(values, share)) <= scale
    x, chance = case["over"]
    yield "chance over", abs(chance - np.mean(values > x)) <= CLOSE
    for chance, least in case["least"]:
        enough = [v for v in np.sort(values) if np.mean(values > v) <= chance + 1e-9]
        yield f"least for {chance}", least == enough[0]
        # Shares that binary numbers hold: numpy forgives no hair.
        if chance in (0.25, 0.5, 0.75):
            of_numpy = np.quantile(values, 1 - chance, method="inverted_cdf")
            yield f"least for {chance} by numpy", least == of_numpy
    equal = np.subtract(*np.percentile(values, [75, 25])) == 0
    edges = np.histogram_bin_edges(values, "sturges" if equal else "fd")
    bins = min(len(edges) - 1, MOST_BINS)
    yield "bins", case["bins"] == bins
    yield "usual histogram", case["usual"] == np.histogram(values, bins)[0].tolist()
    yield "histogram of 7", case["seven"] == np.histogram(values, 7)[0].tolist()


def log_density(x, mean, sd):
    """Of the normal distribution; written out, since one point at a time is slow through scipy.stats."""
    return -(((x - mean) / sd) ** 2) / 2 - math.log(sd * math.sqrt(2 * math.pi))


def learnt(case):
    mean, sd = case["prior"]
    parts = [(mean, sd), *case["seen"]]
    narrowest = min(s for _, s in parts)
    # The product is found where it is greatest, among points a tenth of the narrowest part of it apart.
    low, high = min(m for m, _ in parts), max(m for m, _ in parts)
    line = np.arange(low - narrowest, high + narrowest, narrowest / 10)
    log = sum(log_density(line, m, s) for m, s in parts)
    top, peak = line[log.argmax()], log.max()
    reach = 12 * narrowest

    def density(x):
        return math.exp(sum(log_density(x, m, s) for m, s in parts) - peak)

    def integral(f):
        found, _ = integrate.quad(f, top - reach, top + reach, epsabs=0, epsrel=1e-10, limit=200, points=[top])
        return found

    whole = integral(density)
    centre = integral(lambda x: x * density(x)) / whole
    variance = integral(lambda x: (x - centre) ** 2 * density(x)) / whole
    yield "mean", math.isclose(case["mean"], centre, rel_tol=INTEGRATED)
    yield "sd", math.isclose(case["sd"], math.sqrt(variance), rel_tol=INTEGRATED)
    # What the prior keeps of its precision in the whole is its weight.
    yield "weight", abs(case["weight"] - (1 - variance / sd**2)) <= INTEGRATED
    # The next value: its density about every mean that may be, at the middle and one and two deviations off.
    for off in (0, 1, -2):
        y = case["mean"] + off * case["next"]
        next_one = integral(lambda x: density(x) * math.exp(log_density(y, x, case["own"]))) / whole
        theirs = stats.norm.pdf(y, case["mean"], case["next"])
        yield f"next, {off} deviations off", math.isclose(next_one, theirs, rel_tol=INTEGRATED)


FORMULAS = {
    "mixed": lambda area, t, shrinkage, loss: area * t / (1 - shrinkage) / (1 - loss),
    "loose": lambda volume, produce, parts: volume / produce * parts / (parts + 1),
    "two coats of one gauge": lambda t, one, other: t * one + t * other,
    "net area": lambda length, height, w, h: length * height - 3 * w * h,
    "damp mass": lambda volume, density, moisture: volume * density * (1 + moisture),
    "bulked and screened": lambda volume, bulking, reject: volume * (1 + bulking) / (1 - reject),
    "dubbed out": lambda area, t, depth: area * (t + depth),
    "batches": lambda volume, mixer, fill: volume / (mixer * fill),
    "price": lambda area, t, produce, each: area * t / produce * each + 160,
    "share of clay": lambda clay, stones, sand: clay * (1 - stones) / (clay * (1 - stones) + sand),
}


def distribution(numbers):
    if len(numbers) == 2:
        return stats.norm(*numbers)
    low, likely, high = numbers
    return stats.triang((likely - low) / (high - low), low, high - low)


def second_order(f, inputs):
    """What the second-order Taylor terms of independent inputs add to the mean and to the variance.

    With f_i, f_ij, f_ijj the derivatives and m2, m3, m4 the central moments of each input:
    mean += Σ f_ii m2_i / 2;
    variance += Σ f_i f_ii m3_i + Σ f_ii² (m4_i − m2_i²) / 4 + Σ f_i f_iii m4_i / 3
                + Σ_{i<j} f_ij² m2_i m2_j + Σ_{i≠j} f_i f_ijj m2_i m2_j.
    The derivatives are central differences over one deviation, which is exact enough for so small a term.
    """
    spreads = [distribution(numbers) for numbers in inputs]
    means = [s.mean() for s in spreads]
    h = [s.std() for s in spreads]
    m2 = [s.var() for s in spreads]
    m3 = [s.stats("s") * s.std() ** 3 for s in spreads]
    m4 = [(s.stats("k") + 3) * s.var() ** 2 for s in spreads]

    def shifted(**steps):
        return f(*(m + steps.get(f"x{i}", 0) * h[i] for i, m in enumerate(means)))

    def d(*which):
        """A derivative by the inputs named, one central difference for each."""
        total = 0.0
        for signs in itertools.product((1, -1), repeat=len(which)):
            steps = Counter()
            for sign, i in zip(signs, which):
                steps[f"x{i}"] += sign / 2
            total += math.prod(signs) * shifted(**steps)
        return total / math.prod(h[i] for i in which)

    every = range(len(inputs))
    to_mean = sum(d(i, i) * m2[i] / 2 for i in every)
    to_variance = sum(
        d(i) * d(i, i) * m3[i] + d(i, i) ** 2 * (m4[i] - m2[i] ** 2) / 4 + d(i) * d(i, i, i) * m4[i] / 3
        for i in every
    )
    to_variance += sum(d(i, j) ** 2 * m2[i] * m2[j] for i, j in itertools.combinations(every, 2))
    to_variance += sum(d(i) * d(i, j, j) * m2[i] * m2[j] for i, j in itertools.permutations(every, 2))
    return to_mean, to_variance


def figure(case):
    f, inputs, n = FORMULAS[case["name"]], case["inputs"], case["draws"]
    spreads = [distribution(numbers) for numbers in inputs]
    linear = f(*(ufloat(s.mean(), s.std()) for s in spreads))
    to_mean, to_variance = second_order(f, inputs)
    # sqrt(v + dv) - sqrt(v)
    to_sd = math.sqrt(linear.s**2 + to_variance) - linear.s
    error = linear.s / math.sqrt(2 * n)
    off = case["sd"] - linear.s
    print(
        f"    {case['name']}: {linear:.4u}, drawn {case['mean']:.6g} and {case['sd']:.5g}; "
        f"sd off by {off / error:+.2f} standard errors, second order {to_sd / error:+.2f}"
    )
    yield "sd", abs(off - to_sd) <= 3 * error
    yield "mean", abs(case["mean"] - linear.n - to_mean) <= 3 * linear.s / math.sqrt(n)
    # The check must be able to fail: the second order is a small part of the deviation.
    yield "small spreads", abs(to_sd) <= 0.01 * linear.s


MASK = 2**64 - 1


def split_mix(seed, at):
    z = (seed + (at + 1) * 0x9E3779B97F4A7C15) & MASK
    z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & MASK
    z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & MASK
    return z ^ (z >> 31)


def pcg(state):
    """PCG XSL RR 128/64 with a multiplicative step: O'Neill (2014), the constants of `pcg64_fast`."""
    state |= 1
    while True:
        state = state * 0x2360ED051FC65DA44385DF649FCCF645 % 2**128
        folded, turn = (state >> 64 ^ state) & MASK, state >> 122
        yield (folded >> turn | folded << (64 - turn)) & MASK


def words(case):
    seed, number = case["seed"], case["number"]
    state = split_mix(seed, 2 * number) << 64 | split_mix(seed, 2 * number + 1)
    theirs = list(itertools.islice(pcg(state), len(case["words"])))
    yield "words", case["words"] == theirs
    triangle = distribution([8.0, 10.0, 15.0])
    uniform = [(word >> 11) / 2**53 for word in theirs]
    yield "triangles", np.allclose(case["triangles"], triangle.ppf(uniform), rtol=CLOSE * 10, atol=0)


CHECKS = {"sample": sample, "learnt": learnt, "figure": figure, "words": words}


def main():
    cases, compared, failed = Counter(), Counter(), []
    for line in sys.stdin:
        case = json.loads(line)
        kind = case["kind"]
        cases[kind] += 1
        for what, holds in CHECKS[kind](case):
            compared[kind] += 1
            if not holds:
                failed.append(f"{kind} {case.get('name', case.get('seed'))}: {what}")
    for kind, count in cases.items():
        print(f"{kind}: {count} cases, {compared[kind]} comparisons")
    for line in failed[:20]:
        print(f"    FAILED {line}")
    if cases != EXPECTED:
        sys.exit(f"{dict(cases)}, not {EXPECTED}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
