"""Optima of larger squads, by a general solver of mixed integer programmes.

Makes twenty squads, writes each as a mixed integer programme and solves it for the first end there can be.
Writes cases.json beside this file. Uses nothing of the planner.
"""

import itertools
import json
import math
import pathlib
import random

import numpy as np
import scipy
from scipy.optimize import Bounds, LinearConstraint, linprog, milp
from scipy.sparse import coo_matrix

FOLLOW_M, STAND_S = 10.0, 10.0

# Between two spans that may not be, less than this is nothing that anybody could start in.
MOMENT_S = 1e-3


def root(rising, value, low, high):
    """Where a rising function of the difference of starts takes a value."""
    if rising(low) >= value:
        return low
    if rising(high) <= value:
        return high
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if rising(middle) < value else (low, middle)
    return (low + high) / 2


def crossings(one, other, distance, lap):
    """Differences of starts at which a runner is too close to another, or in the way of one."""
    one_v, other_v = distance / one, distance / other

    def lead(difference, time):
        return one_v * time - other_v * (time - difference)

    def first(difference):
        return lead(difference, max(0.0, difference))

    def last(difference):
        return lead(difference, min(one, difference + other))

    intervals = []
    shortest, longest = lap
    laps = math.ceil((distance + FOLLOW_M) / shortest)
    for k in range(-laps, laps + 1):
        low = min(k * shortest, k * longest) - FOLLOW_M
        high = max(k * shortest, k * longest) + FOLLOW_M
        # From where the larger lead is over the low one, to where the smaller is under the high one.
        begins = root(lambda d: max(first(d), last(d)), low, -other, one)
        ends = root(lambda d: min(first(d), last(d)), high, -other, one)
        intervals.append((begins, ends))
    for k in range(1, laps + 1):
        if k * shortest <= distance:
            intervals.append((k * shortest / one_v, min(k * longest, distance) / one_v + STAND_S))
            intervals.append((-min(k * longest, distance) / other_v - STAND_S, -k * shortest / other_v))
    return intervals


def union(intervals):
    joined = []
    for low, high in sorted(i for i in intervals if i[0] < i[1] - 1e-9):
        if joined and low < joined[-1][1] + MOMENT_S:
            joined[-1] = (joined[-1][0], max(high, joined[-1][1]))
        else:
            joined.append((low, high))
    return joined


def waves_of(case_set):
    """Every way to cut the runners, in order of target, into the fewest waves."""
    runners = sorted(case_set["runners"])
    count, most = len(runners), case_set["most"]
    waves = -(-count // most)
    for sizes in itertools.product(range(1, most + 1), repeat=waves):
        if sum(sizes) == count:
            ends = list(itertools.accumulate(sizes))
            yield [runners[end - size:end] for end, size in zip(ends, sizes)]


class Programme:
    def __init__(self):
        self.columns, self.rows, self.least = [], [], []

    def column(self, low, high, whole=False):
        self.columns.append((low, high, whole))
        return len(self.columns) - 1

    def row(self, terms, least):
        self.rows.append(terms)
        self.least.append(least)

    def solve(self, least):
        entries = [(r, c, v) for r, terms in enumerate(self.rows) for c, v in terms]
        matrix = coo_matrix(([v for *_, v in entries], ([r for r, *_ in entries], [c for _, c, _ in entries])),
                            shape=(len(self.rows), len(self.columns))).tocsr()
        low, high = (np.array([c[i] for c in self.columns], dtype=float) for i in (0, 1))
        objective = np.zeros(len(self.columns))
        objective[least] = 1.0
        whole = np.array([c[2] for c in self.columns])
        result = milp(objective, integrality=whole.astype(int), bounds=Bounds(low, high),
                      constraints=LinearConstraint(matrix, np.array(self.least), np.inf),
                      options={"mip_rel_gap": 0.0, "time_limit": 120})
        assert result.status == 0, result.message
        # Once more with the choices held, so that no large number blurs the times.
        low[whole] = high[whole] = np.round(result.x[whole])
        exact = linprog(objective, A_ub=-matrix, b_ub=-np.array(self.least), bounds=list(zip(low, high)))
        assert exact.status == 0, exact.message
        assert abs(exact.fun - result.fun) < 0.01, (exact.fun, result.fun)
        return exact.fun


def solve(sets, rules, cut):
    """The first end there can be for one cut of each set."""
    gap, start_gap, timers = rules["timing_gap"], rules["start_gap"], rules["timers"]
    # One wave after the other, each once all before have rested.
    horizon = sum(len(waves) * s["reps"] * (max(t + r for w in waves for t, r in w) + start_gap + gap + STAND_S)
                  for s, waves in zip(sets, cut))
    p = Programme()
    end = p.column(0, horizon)
    events = []
    for index, (s, waves) in enumerate(zip(sets, cut)):
        for w, wave in enumerate(waves):
            period = max(t + r for t, r in wave)
            for rep in range(s["reps"]):
                slowest = max(t for t, _ in wave)
                low = rep * period
                high = horizon - slowest - (s["reps"] - 1 - rep) * period
                start = p.column(low, high)
                p.row([(end, 1), (start, -1)], slowest)
                if rep:
                    p.row([(start, 1), (start_before, -1)], period)
                start_before = start
                events.append((index, w, rep, start, wave, low, high))
    timer = {e[3]: p.column(0, 1, True) for e in events} if timers == 2 else {}
    before = {}
    for index, waves in enumerate(cut):
        for a, b in itertools.combinations(range(len(waves)), 2):
            before[index, a, b] = p.column(0, 1, True)
    for a, b in itertools.combinations(events, 2):
        same_set = a[0] == b[0]
        if same_set and a[1] == b[1]:
            continue
        least_d, most_d = b[5] - a[6], b[6] - a[5]
        if same_set:
            if a[2] == b[2]:
                # The order of the waves is one for all repetitions.
                first = before[a[0], min(a[1], b[1]), max(a[1], b[1])]
                assert a[1] < b[1]
                p.row([(b[3], 1), (a[3], -1), (first, least_d - start_gap)], least_d)
                p.row([(a[3], 1), (b[3], -1), (first, most_d + start_gap)], start_gap)
            elif a[2] < b[2]:
                rounds = b[2] - a[2] - 1
                least_d = max(least_d, start_gap + rounds * max(t + r for t, r in a[4]))
                p.row([(b[3], 1), (a[3], -1)], start_gap)
            else:
                rounds = a[2] - b[2] - 1
                most_d = min(most_d, -start_gap - rounds * max(t + r for t, r in b[4]))
                p.row([(a[3], 1), (b[3], -1)], start_gap)
        apart = [(-start_gap, start_gap)]
        if same_set and sets[a[0]]["shares"]:
            for one, _ in a[4]:
                for other, _ in b[4]:
                    apart += crossings(one, other, sets[a[0]]["distance"], sets[a[0]]["lap"])
        a_window, b_window = ((min(t for t, _ in e[4]), max(t for t, _ in e[4])) for e in (a, b))
        window = (a_window[0] - b_window[1] - gap, a_window[1] - b_window[0] + gap)
        if timers == 1:
            apart.append(window)
        either = [(interval, None) for interval in union(apart)]
        if timers == 2:
            # Whether both fall to one who times.
            both = p.column(0, 1, True)
            p.row([(both, 1), (timer[a[3]], -1), (timer[b[3]], -1)], -1)
            p.row([(both, 1), (timer[a[3]], 1), (timer[b[3]], 1)], 1)
            either.append((window, both))
        for (low, high), both in either:
            if low >= most_d - 1e-9 or high <= least_d + 1e-9:
                continue
            late = p.column(0, 1, True)
            # late = 1: b - a >= high; late = 0: b - a <= low; neither where two time.
            held = [] if both is None else [(both, least_d - high)]
            held_early = [] if both is None else [(both, low - most_d)]
            free = 0 if both is None else least_d - high
            free_early = 0 if both is None else low - most_d
            p.row([(b[3], 1), (a[3], -1), (late, least_d - high)] + held, least_d + free)
            p.row([(b[3], -1), (a[3], 1), (late, most_d - low)] + held_early, -low + free_early)
    return p.solve(end)


def optimum(sets, rules):
    return min(solve(sets, rules, cut) for cut in itertools.product(*(list(waves_of(s)) for s in sets)))


def runners(dice, count, low, high, rest):
    return [[float(dice.randint(low, high)), float(rest + dice.choice((0, 0, 15)))] for _ in range(count)]


def cases():
    dice = random.Random(20)
    for number in range(20):
        rules = {"timing_gap": dice.choice((3.0, 5.0, 8.0)), "start_gap": 10.0, "timers": (1, 1, 0, 2)[number % 4]}
        if number < 8:
            # One athlete to a lane: four to six waves, with or without laps.
            distance, low, high = ((200, 28, 36), (300, 44, 56), (600, 100, 125), (400, 62, 75))[number // 2]
            lanes = 3 + number % 2
            waves = 4 + number % 3
            sets = [{"reps": 6 - number % 3, "distance": float(distance), "lap": [400.0, 400.0 + 7.0 * (lanes - 1)],
                     "lanes": lanes, "mode": "one", "most": lanes, "shares": True,
                     "runners": runners(dice, waves * lanes - number % 2, low, high, dice.choice((30, 60, 120)))}]
        elif number < 14:
            # Pace groups: a lane to each, or all in the only lane.
            shares = number % 2 == 1
            waves = 4 + number % 2
            sets = [{"reps": 4, "distance": 1000.0, "lap": [400.0, 400.0] if shares else [400.0, 440.0],
                     "lanes": 1 if shares else 6, "mode": "group", "most": 4, "shares": shares,
                     "runners": runners(dice, waves * 4 - number % 2, 185, 240, dice.choice((30, 60, 90)))}]
        else:
            # Two sets at once, the lanes shared out.
            sets = [{"reps": 4 + number % 2, "distance": 200.0, "lap": [400.0, 414.0], "lanes": 3, "mode": "one",
                     "most": 3, "shares": True, "runners": runners(dice, 9 - number % 2, 28, 38, 60)},
                    {"reps": 3, "distance": 800.0, "lap": [421.0, 435.0], "lanes": 3, "mode": "group",
                     "most": 4, "shares": False, "runners": runners(dice, 8, 150, 185, 90)}]
        yield {"number": number, "rules": rules, "sets": sets}


def main():
    print("scipy", scipy.__version__, "numpy", np.__version__)
    solved = []
    for case in cases():
        case["end"] = optimum(case["sets"], case["rules"])
        print(case["number"], round(case["end"], 3), flush=True)
        solved.append(case)
    text = ",\n".join(json.dumps(case) for case in solved)
    pathlib.Path(__file__).with_name("cases.json").write_text(f"[\n{text}\n]\n")


if __name__ == "__main__":
    main()
