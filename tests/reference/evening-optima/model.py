"""Optima of larger evenings, by a general solver of constraint programmes.

Makes twenty evenings of two or three parties with several blocks each, writes each as a constraint programme (CP-SAT)
and solves it for the first end there can be. Writes cases.json beside this file. Uses nothing of the planner.

Times are whole tenths of a second: every number of a case is one, and what is forbidden between two starts is
rounded outwards for the end and inwards for the bound, so that the true optimum lies between the two.
"""

import itertools
import json
import math
import pathlib
import random

import ortools
from ortools.sat.python import cp_model

FOLLOW_M, STAND_S = 10.0, 10.0
TICKS = 10  # a second

# Between two spans that may not be, less than this is nothing that anybody could start in.
MOMENT_S = 1e-3


class Run:
    """A run of somebody: from its go, with the finish so far past the finish line."""

    def __init__(self, stretch, target):
        self.distance, self.finish, self.lap, self.reversed = (
            stretch["distance"], stretch["finish"], stretch["lap"], stretch["reversed"])
        self.target = target

    def at(self, time):
        """Where it is, time after its go, in metres past the finish line."""
        return self.finish + self.distance * (time / self.target - 1.0)


def spans(a, b):
    """Open spans that the go of b may not lie in, counted from the go of a, for two in one lane."""
    if a.reversed != b.reversed:
        return [(-b.target - STAND_S, a.target + STAND_S)]
    lap = a.lap or b.lap
    found = []
    # The lead of a over b at a moment is linear in the moment and rises with the difference of their goes. It is
    # followed at the two ends of the time that both run.
    def lead(difference, time):
        return a.at(time) - b.at(time - difference)

    def first(difference):
        return lead(difference, max(0.0, difference))

    def last(difference):
        return lead(difference, min(a.target, difference + b.target))

    reach = a.distance + b.distance + abs(a.finish - b.finish) + FOLLOW_M
    laps = range(-math.ceil(reach / lap), math.ceil(reach / lap) + 1) if lap else [0]
    low_d, high_d = -b.target, a.target
    for k in laps:
        low, high = (k * lap if lap else 0.0) - FOLLOW_M, (k * lap if lap else 0.0) + FOLLOW_M
        # Too close somewhere: the larger lead is over the low one, and the smaller under the high one.
        begins = root(lambda d: max(first(d), last(d)), low, low_d, high_d)
        ends = root(lambda d: min(first(d), last(d)), high, low_d, high_d)
        if begins < ends:
            found.append((begins, ends))
    for runner, stands, sign in ((a, b, 1), (b, a, -1)):
        for k in laps:
            # How far runner has come when it is on the start of the other.
            spot = stands.finish - stands.distance + (k * lap if lap else 0.0)
            come = spot - (runner.finish - runner.distance)
            if 1e-9 < come <= runner.distance + 1e-9:
                passes = come / runner.distance * runner.target
                found.append((passes, passes + STAND_S) if sign > 0 else (-passes - STAND_S, -passes))
    return found


def root(rising, value, low, high):
    """Where a rising function takes a value."""
    if rising(low) >= value:
        return low
    if rising(high) <= value:
        return high
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if rising(middle) < value else (low, middle)
    return (low + high) / 2


def union(intervals):
    joined = []
    for low, high in sorted(i for i in intervals if i[0] < i[1] - 1e-9):
        if joined and low < joined[-1][1] + MOMENT_S:
            joined[-1] = (joined[-1][0], max(high, joined[-1][1]))
        else:
            joined.append((low, high))
    return joined


def cuts(block):
    """Every way to cut the runners of a block, in order of target, into the fewest waves, and every order of these."""
    def key(runner):
        return runner["targets"][0], runner["rest"], sum(runner["targets"])

    runners = sorted(block["runners"], key=key)
    count, most = len(runners), block["most"]
    waves = -(-count // most)
    for sizes in itertools.product(range(1, most + 1), repeat=waves):
        if sum(sizes) == count:
            ends = list(itertools.accumulate(sizes))
            yield [runners[end - size:end] for end, size in zip(ends, sizes)]


class Go:
    """A wave going on a run."""

    def __init__(self, party, block, wave, run, members, lanes, stretch):
        self.party, self.block, self.wave, self.run = party, block, wave, run
        self.targets = [m["targets"][run] for m in members]
        goes_on = [m["targets"][run] + m["rest"] for m in members if run + 1 < len(m["targets"])]
        self.cycle = max(goes_on + self.targets)
        self.lanes, self.stretch = lanes, stretch
        self.window = (min(self.targets), max(self.targets))


def solve(case, cut, outwards, seconds):
    """The first end for one cut of each block, each in the order that the solver likes best, and the bound on it."""
    rules = case["rules"]
    gap, start_gap, timers = rules["timing_gap"], rules["start_gap"], rules["timers"]
    model = cp_model.CpModel()

    def up(value):
        return math.ceil(value * TICKS - 1e-7)

    def down(value):
        return math.floor(value * TICKS + 1e-7)

    horizon = up(sum(
        len(waves) * sum(max(m["targets"][min(r, len(m["targets"]) - 1)] + m["rest"] + 30 for w in waves for m in w)
                         for r in range(len(b["runs"]))) + b["after"] + 60
        for b, waves in cut) + 600)
    end = model.new_int_var(0, horizon, "end")
    goes, orders = [], {}
    for index, (block, waves) in enumerate(cut):
        party = block["party"]
        begins = block["begins"] + block["after"] if block["first"] else None
        own = []
        for w, wave in enumerate(waves):
            lanes = [block["lanes"][w % len(block["lanes"])]] if block["mode"] == "group" else block["lanes"]
            before = None
            for run, stretch in enumerate(block["runs"]):
                members = [m for m in wave if run < len(m["targets"])]
                if not members:
                    break
                go = Go(party, index, w, run, members, lanes, stretch)
                go.at = model.new_int_var(0, horizon, f"{index} {w} {run}")
                model.add(end >= go.at + up(go.window[1]))
                if before is not None:
                    model.add(go.at >= before.at + up(before.cycle))
                if begins is not None:
                    model.add(go.at >= up(begins))
                before = go
                own.append(go)
        if begins is None:
            pause = max(block["after"], STAND_S, start_gap, gap)
            for go in own:
                for earlier in goes:
                    if earlier.block == index - 1:
                        model.add(go.at >= earlier.at + up(earlier.window[1] + pause))
        for a, b in itertools.combinations(range(len(waves)), 2):
            # One order for all runs of the block. With group lanes shared in turn the lane belongs to the place, so
            # only cases are made in which all groups have one lane or one each.
            orders[index, a, b] = model.new_bool_var(f"order {index} {a} {b}")
        goes += own

    def apart(a, b, intervals, only=None):
        for low, high in intervals:
            low, high = (down(low), up(high)) if outwards else (up(low), down(high))
            if low >= high:
                continue
            late = model.new_bool_var("")
            held = [late] if only is None else [late, only]
            held_not = [late.negated()] if only is None else [late.negated(), only]
            model.add(b.at - a.at >= high).only_enforce_if(held)
            model.add(b.at - a.at <= low).only_enforce_if(held_not)

    timer = {}
    for go in goes:
        timer[id(go)] = model.new_bool_var("") if timers == 2 and go.stretch else None
    for a, b in itertools.combinations(goes, 2):
        same_block, same_wave = a.block == b.block, (a.block, a.wave) == (b.block, b.wave)
        timed = a.stretch is not None and b.stretch is not None
        least = up(start_gap) if timed else 0
        if same_block:
            if same_wave:
                if timed:
                    model.add(b.at - a.at >= least)
            elif a.run == b.run:
                first = orders[a.block, a.wave, b.wave]
                model.add(b.at - a.at >= least).only_enforce_if(first)
                model.add(a.at - b.at >= least).only_enforce_if(first.negated())
            elif a.run < b.run:
                model.add(b.at - a.at >= least)
            else:
                model.add(a.at - b.at >= least)
        if not timed or same_wave or (a.party == b.party and not same_block):
            continue
        intervals = [] if same_block else [(-start_gap, start_gap)]
        window = (a.window[0] - b.window[1] - gap, a.window[1] - b.window[0] + gap)
        if timers == 1 or timers == "each" and a.party == b.party:
            intervals.append(window)
        for lane in set(a.lanes) & set(b.lanes):
            for one in a.targets:
                for other in b.targets:
                    intervals += spans(Run(a.stretch, one), Run(b.stretch, other))
        apart(a, b, union(intervals))
    if timers == 2:
        # At most two windows overlap, so two who time can share them out: each has one at a time.
        for a, b in itertools.combinations([g for g in goes if g.stretch], 2):
            one = model.new_bool_var("")
            x, y = timer[id(a)], timer[id(b)]
            model.add_bool_or([x, y, one])
            model.add_bool_or([x.negated(), y.negated(), one])
            window = (a.window[0] - b.window[1] - gap, a.window[1] - b.window[0] + gap)
            apart(a, b, [window], one)
    model.minimize(end)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 2
    status = solver.solve(model)
    found = solver.objective_value / TICKS if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else math.inf
    return found, solver.best_objective_bound / TICKS


def optimum(case):
    """The first end that was found, and a bound that no plan beats, over every cut."""
    blocks = []
    for number, party in enumerate(case["parties"]):
        for place, block in enumerate(party["blocks"]):
            blocks.append(block | {"party": number, "first": place == 0, "begins": party["begins"]})
    best, bound = math.inf, math.inf
    for choice in itertools.product(*([(b, waves) for waves in cuts(b)] for b in blocks)):
        found, _ = solve(case, choice, True, 10)
        _, least = solve(case, choice, False, 10)
        best, bound = min(best, found), min(bound, least)
    return best, bound


def cases():
    dice = random.Random(13)
    for number in range(20):
        rules = {"timing_gap": dice.choice((3.0, 5.0, 8.0)), "start_gap": 10.0, "timers": (1, "each", 1, 0, 2)[number % 5]}
        parties = 2 + number % 2
        lanes_each = 2 if parties == 3 else 3
        shares = number % 3 == 0
        made = []
        for party in range(parties):
            first = 0 if shares else party * lanes_each
            lanes = list(range(first + 1, first + lanes_each + 1))
            runners = lanes_each * dice.choice((2, 3) if party == 0 else (1, 2)) - (party == 0 and number % 4 == 3)
            blocks = [block(dice, lanes, runners) for _ in range(2 if parties == 3 else 3)]
            made.append({"begins": dice.choice((0.0, 0.0, 0.0, 60.0)), "blocks": blocks})
        yield {"number": number, "rules": rules, "parties": made}


def block(dice, lanes, count):
    def stretch(distance, finish=0.0, turned=False, straight=False):
        return {"distance": distance, "finish": finish, "lap": 0.0 if straight else 400.0, "reversed": turned}

    form = dice.choice(("repetitions", "ladder", "ends", "laps", "timed"))
    reps = dice.choice((3, 4, 5))
    runs = {
        "repetitions": lambda: [stretch(200.0)] * reps,
        "ladder": lambda: [stretch(d) for d in (200.0, 300.0, 400.0, 300.0, 200.0)[:reps]],
        "ends": lambda: [stretch(80.0, 80.0 if r % 2 == 0 else 0.0, r % 2 == 0, True) for r in range(reps)],
        "laps": lambda: [stretch(d) for d in (800.0, 600.0, 400.0)],
        "timed": lambda: [stretch(300.0), None, stretch(300.0)],
    }[form]()
    is_group = form == "laps"
    rest = float(dice.choice((20, 30, 60)))
    runners = []
    for _ in range(count):
        pace = dice.randint(14, 20)
        targets = [60.0 if r is None else float(round(r["distance"] * pace / 100)) for r in runs]
        if dice.randint(0, 5) == 0:
            targets = targets[:dice.randint(2, len(targets))]
        runners.append({"targets": targets, "rest": rest + dice.choice((0.0, 15.0))})
    most = count if is_group else len(lanes)
    return {"after": float(dice.choice((10, 60, 120))), "runs": runs, "lanes": lanes[:1] if is_group else lanes,
            "mode": "group" if is_group else "one", "most": most, "runners": runners}


def main():
    print("ortools", ortools.__version__)
    solved = []
    for case in cases():
        case["end"], case["bound"] = optimum(case)
        print(case["number"], case["end"], case["bound"], flush=True)
        solved.append(case)
    text = ",\n".join(json.dumps(case) for case in solved)
    pathlib.Path(__file__).with_name("cases.json").write_text(f"[\n{text}\n]\n")


if __name__ == "__main__":
    main()
