"""Holds damp air, wet walls, the sun and rooms against PsychroLib, pvlib and SciPy.

Reads the lines of `cargo run --release -p hodful-air --example air` from standard input.

- States of air: PsychroLib (ASHRAE Fundamentals 2017, chapter 1). A wet bulb can stand over water and over ice at once
  a little below and above 0 degrees; there it must give back the humidity ratio by PsychroLib's own equation.
- Wet walls: the heat balance written with PsychroLib's figures and solved by SciPy's root search.
- The sun: pvlib's SPA (Reda and Andreas 2004), its Erbs split and its isotropic sky.
- Rooms: SciPy's LSODA with an event for the hour at which the walls run out of water; besides, walls as they are, whose
  face warms as the air becomes damper, against the straight line that is taken for them, with one coat and with three
  that share the air, each from its hour on.
"""

import json
import sys
from itertools import pairwise

import numpy as np
import pandas as pd
import psychrolib as psy
import pvlib
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

psy.SetUnitSystem(psy.SI)

# What a figure may be off, and the worst that was found.
worst = {}
failures = []


def hold(name, off, may, where):
    off = abs(off)
    if not off <= worst.get(name, (0.0, may))[0]:
        worst[name] = (off, may)
    if not off <= may:
        failures.append(f"{name}: off by {off:.3g}, may be {may:g}: {where}")


def state(one):
    t, humidity, pressure = one["t"], one["humidity"], one["pressure"]
    ratio = psy.GetHumRatioFromRelHum(t, humidity, pressure)
    hold("saturation pressure, share", one["full"] / psy.GetSatVapPres(t) - 1, 1e-6, one)
    hold("humidity ratio, share", one["ratio"] / ratio - 1, 1e-6, one)
    hold("dew point, K", one["dew"] - psy.GetTDewPointFromRelHum(t, humidity), 0.002, one)
    hold("heat, J/kg", one["heat"] - psy.GetMoistAirEnthalpy(t, ratio), 0.1, one)
    hold("volume, share", one["volume"] / psy.GetMoistAirVolume(t, ratio, pressure) - 1, 1e-6, one)
    # Its search ends within 0.001 K.
    theirs = psy.GetTWetBulbFromHumRatio(t, ratio, pressure)
    if abs(one["wet"] - theirs) > 0.002:
        # Both roots stand: theirs on one side of 0 degrees, ours on the other.
        counted["two wet bulbs"] += 1
        hold("wet bulb of two, K across 0", max(abs(one["wet"]), abs(theirs)), 0.6, one)
        if one["wet"] * theirs > 0:
            failures.append(f"wet bulb {theirs} and not {one['wet']}: {one}")
    else:
        hold("wet bulb, K", one["wet"] - theirs, 0.002, one)
    if one["wet"] < t:
        back = psy.GetHumRatioFromTWetBulb(t, one["wet"], pressure)
        hold("humidity ratio by our wet bulb", back - max(ratio, 1e-7), 2e-8, one)
    wall(one, ratio)


def over_water(t):
    """Hyland and Wexler over water, as PsychroLib has it above 0 degrees; below, carried on."""
    if t > 0.02:
        return psy.GetSatVapPres(t)
    k = t + 273.15
    return np.exp(
        -5.8002206e3 / k + 1.3914993 - 4.8640239e-2 * k + 4.1764768e-5 * k**2 - 1.4452093e-8 * k**3 + 6.5459673 * np.log(k)
    )


def wall(one, ratio):
    """h·(T − t) + S = m·(heat of the vapour that leaves − heat of the water that came), all by enthalpies."""
    t, pressure, h, sun = one["t"], one["pressure"], one["h"], one["sun"]
    air = psy.GetMoistAirEnthalpy(t, ratio)

    def off(face):
        full = 0.621945 * over_water(face) / (pressure - over_water(face))
        # Air leaves the face full and as warm as the face; what it takes along was water of that temperature.
        leaves = 1006.0 * face + full * (2501e3 + 1860.0 * face)
        return leaves - air - 4186.0 * face * (full - ratio) - sun * 1006.0 / h

    face = brentq(off, -80, 75, xtol=1e-10)
    full = 0.621945 * over_water(face) / (pressure - over_water(face))
    rate = 3600 * h / 1006 * (full - ratio)
    hold("face of a wall, K", one["face"] - face, 1e-5, one)
    hold("rate of a wall, kg/(m²·h)", one["rate"] - max(rate, 0), 1e-6, one)


def suns(lines):
    for one in lines:
        zone = int(one["zone"])
        time = pd.DatetimeIndex([pd.Timestamp(one["time"]) - pd.Timedelta(hours=zone)], tz="UTC")
        at = pvlib.solarposition.get_solarposition(
            time, one["latitude"], one["longitude"], method="nrel_numpy", temperature=12, pressure=101325
        ).iloc[0]
        # Heights without the bending of light: the air is not for this formula to know.
        hold("height of the sun, degrees", one["altitude"] - at["elevation"], 0.03, one)
        turn = (one["azimuth"] - at["azimuth"] + 180) % 360 - 180
        hold("direction of the sun, degrees on the sky", turn * np.cos(np.radians(at["elevation"])), 0.03, one)
        beyond = pvlib.irradiance.get_extra_radiation(time, method="nrel").iloc[0]
        hold("light beyond the air, share", one["beyond"] / beyond - 1, 0.001, one)

        zenith = 90 - one["altitude"]
        if one["global"] > 0:
            erbs = pvlib.irradiance.erbs(one["global"], zenith, time)
            # Their light beyond the air is by another series, a thousandth off.
            hold("light of the sky, W/m²", one["diffuse"] - float(np.squeeze(erbs["dhi"])), 2.0, one)
            hold("beam, share of 1000 W/m²", (one["beam"] - float(np.squeeze(erbs["dni"]))) / 1000, 0.01, one)
            counted["suns above the horizon"] += 1
        total = pvlib.irradiance.get_total_irradiance(
            90, one["facing"], zenith, one["azimuth"], one["beam"], one["global"], one["diffuse"], albedo=0.2,
            model="isotropic",
        )
        hold("light on a wall, W/m²", one["wall"] - total["poa_global"], 1e-6, one)
        shaded = pvlib.irradiance.get_total_irradiance(
            90, one["facing"], zenith, one["azimuth"], 0, one["diffuse"], one["diffuse"], albedo=0.2, model="isotropic"
        )
        hold("light on a shaded wall, W/m²", one["shaded"] - shaded["poa_global"], 1e-6, one)


def room(one):
    volume, moved = one["volume"], one["area"] * one["beta"]
    y = np.array([one["start"], one["water"]])
    for hour in one["hours"]:
        def change(_, y, wet):
            given = wet * moved * (one["full"] - y[0])
            return [hour["n"] * (hour["outside"] - y[0]) + (given + one["given"]) / volume, -given]

        def dry(_, y, wet):
            return y[1]

        dry.terminal, dry.direction = True, -1
        begin, wet = 0.0, 1.0 if y[1] > 1e-9 else 0.0
        while begin < 1.0:
            done = solve_ivp(
                change, (begin, 1.0), y, args=(wet,), method="LSODA", rtol=1e-10, atol=1e-13,
                events=dry if wet else None,
            )
            y, begin = done.y[:, -1].copy(), done.t[-1]
            if done.status == 1:
                counted["rooms that ran dry"] += 1
                y[1], wet = 0.0, 0.0
        hold("vapour of a room, g/m³", 1000 * (hour["vapour"] - y[0]), 1e-4, one["volume"])
        hold("water left in walls, kg", hour["left"] - y[1], 1e-5, one["volume"])


def given_off(one):
    """What a face that stays wet gives off by the vapour of the room, as it cools to its own wet bulb."""
    t, pressure, h = one["celsius"], 101325.0, one["h"]

    def rate(vapour):
        ratio = 0.621945 * vapour / (pressure - vapour)
        wet = psy.GetTWetBulbFromHumRatio(t, ratio, pressure)
        return 3600 * h / 1006 * max(psy.GetSatHumRatio(wet, pressure) - ratio, 0.0)

    thermal = 461.52 * (t + 273.15)
    # A table of it, as the search for a wet bulb is rough to a thousandth of a degree.
    grid = np.linspace(50.0, psy.GetSatVapPres(t), 400)
    table = np.array([rate(v) for v in grid])
    return lambda vapour: np.interp(vapour * thermal, grid, table)


def rooms_with_coats(rooms):
    """Rooms whose walls cool to their own wet bulb at every moment, beside the straight line over the hour; each
    coat from its hour on."""
    for one in rooms:
        coats, wet_face = one["coats"], given_off(one)
        area = np.array([coat["area"] for coat in coats])
        critical = np.array([coat["critical"] for coat in coats])
        record = np.array([coat["record"] for coat in coats])
        starts = np.array([coat["from"] for coat in coats])
        left = np.array([coat["left"] for coat in coats])

        def change(_, y, on_wall):
            share = on_wall * np.clip(y[1:] / critical, 0.0, 1.0) / record
            given = share * wet_face(y[0])
            return [one["n"] * (one["outside"] - y[0]) + (given @ area) / one["volume"], *-given]

        y = np.array([one["start"], *(coat["free"] for coat in coats)])
        dry = np.full(len(coats), np.nan)
        for begin, end in pairwise([*sorted(set(starts)), 4000]):
            hours = np.linspace(begin, end, int(end - begin) * 2 + 1)
            done = solve_ivp(
                change, (begin, end), y, args=(starts <= begin,), method="LSODA", rtol=1e-8, atol=1e-10, t_eval=hours
            )
            y = done.y[:, -1].copy()
            for at in range(len(coats)):
                water = done.y[1 + at]
                if np.isnan(dry[at]) and starts[at] <= begin and water[-1] <= left[at]:
                    dry[at] = np.interp(left[at], water[::-1], hours[::-1])
        for at, coat in enumerate(coats):
            if coat["dry_after"] is None or np.isnan(dry[at]):
                counted["coats that did not dry"] += 1
                continue
            took, said = dry[at] - coat["from"], coat["dry_after"] - coat["from"]
            # Within an hour the speed of a coat is taken as steady: an hour is not told any closer.
            beyond = max(abs(said - took) - 1.0, 0.0)
            hold("hours until a coat in a room is dry, share beyond an hour", beyond / took, 0.02, one)


counted = {"two wet bulbs": 0, "suns above the horizon": 0, "rooms that ran dry": 0, "coats that did not dry": 0}
lines = [json.loads(line) for line in sys.stdin]
kinds = {kind: [one for one in lines if one["kind"] == kind] for kind in ("state", "sun", "room", "coat", "coats")}
for one in kinds["state"]:
    state(one)
suns(kinds["sun"])
for one in kinds["room"]:
    room(one)
for one in kinds["coat"]:
    one["coats"] = [{"from": 0, "record": 1.0} | one]
rooms_with_coats(kinds["coat"] + kinds["coats"])

for name, (off, may) in worst.items():
    print(f"  {name}: off by {off:.2g} at the most, may be {may:g}")
print("  " + ", ".join(f"{len(found)} of kind {kind}" for kind, found in kinds.items()))
print("  " + ", ".join(f"{count} {name}" for name, count in counted.items()))
for failure in failures[:20]:
    print(failure)
enough = len(kinds["state"]) >= 500 and len(kinds["sun"]) >= 200 and len(kinds["room"]) >= 50 and len(kinds["coat"]) >= 20 and len(kinds["coats"]) >= 50
if not enough or counted["rooms that ran dry"] == 0:
    print("too little was looked at")
if failures or not enough or counted["rooms that ran dry"] == 0:
    sys.exit(f"{len(failures)} figures are off")
