"""The same rounds in NumPy, thousands of balls at once, by the tables of holes the program has solved.

    python engine/benches/rounds.py [FOLDER]

Without FOLDER the tables are written first, by `cargo bench --bench speed`. The rules of the loop are those of
engine/round/play.rs and finish.rs. It plays the same shots with other random numbers: the mean scores must agree
within their standard errors. A drop is weighed against playing again by what is expected from the middles of squares,
not between them; nothing else is simplified. Nothing but strokes is counted.
"""

import json
import os
import pathlib
import subprocess
import sys
import tempfile
import time

import numpy as np

TEE, FAIRWAY, ROUGH, SAND, TREES, GREEN, WATER, OUT = range(8)
LAYER = np.array([0, 0, 1, 2, 3, 0, 0, 0])
NORMAL, MISHITS, MOST_PUTTS, MOST_STROKES = 128, 64, 6, 40
STEP_YD, TREES_RUN, EASED, SHORT_GAME_YD = 3.0, 0.4, 0.9, 30.0
CAPTURE_YD2 = (4.25 / 36) * (4 / 3)
F32 = np.float32


def length(step):
    return np.sqrt(step[:, 0] ** 2 + step[:, 1] ** 2)


def unit(step):
    size = length(step)[:, None]
    return np.where(size > 0, step / np.where(size > 0, size, 1), F32([0, 1]))


def turned(step, ahead):
    """A displacement given in the frame that looks along `ahead`, in the hole's."""
    return np.stack([step[:, 1] * ahead[:, 0] + step[:, 0] * ahead[:, 1],
                     step[:, 1] * ahead[:, 1] - step[:, 0] * ahead[:, 0]], axis=1)


class Hole:
    def __init__(self, folder, told):
        def read(name, kind):
            return np.fromfile(folder / f"{told['number']}-{name}", kind)

        self.columns = int(read("columns.i32", "<i4")[0])
        # A rim stands for everything beyond the grid.
        rim = [(1, 1), (1, 1)]
        self.lies = np.pad(read("lies.i32", "<i4").reshape(-1, self.columns), rim, constant_values=OUT)
        self.clear = np.pad(read("clear.i32", "<i4").reshape(-1, self.columns), rim).astype(F32)
        self.to_green = np.pad(read("to-green.f32", "<f4").reshape(-1, self.columns), rim, constant_values=np.inf)
        self.corner = read("corner.f32", "<f4")
        self.played, self.targets = read("played.i32", "<i4"), read("targets.f32", "<f4").reshape(-1, 2)
        self.expected = read("expected.f32", "<f4")
        self.shots = read("shots.f32", "<f4").reshape(-1, 8)
        self.heads = read("heads.f32", "<f4").reshape(-1, 3)
        self.putts = read("putts.f32", "<f4").reshape(-1, MOST_PUTTS)
        self.tee, self.pin = F32(told["tee"]), F32(told["pin"])
        self.first, self.square_yd = F32(told["first_square"]), F32(told["square_yd"])
        self.squares, self.across = told["squares"], told["squares_across"]

    def cell(self, at):
        last = [self.lies.shape[1] - 1, self.lies.shape[0] - 1]
        place = np.clip(np.floor(at - self.corner), -1, F32(last) - 1).astype(np.int32) + 1
        return place[:, 1], place[:, 0]

    def lie(self, at):
        return self.lies[self.cell(at)]

    def place(self, at, lie):
        """Where what is played and expected from a spot stands in the tables; the tee has the last place."""
        last = F32([self.across - 1, self.squares // self.across - 1])
        square = np.clip(np.floor((at - self.first) / self.square_yd + 0.5), 0, last).astype(np.int32)
        place = LAYER[lie] * self.squares + square[:, 1] * self.across + square[:, 0]
        on_tee = (lie == TEE) & (at == self.tee).all(axis=1)
        return np.where(on_tee, 4 * self.squares, place)

    def within(self, at):
        """Chances of at most 1, 2, ... putts."""
        node = np.minimum(np.sqrt(length(self.pin - at) * 3) * F32(384 / 20), 384)
        before = np.minimum(node.astype(np.int32), 383)
        share = (node - before)[:, None]
        return self.putts[before] + (self.putts[before + 1] - self.putts[before]) * share

    def strokes_from(self, at, lie):
        on_green = 1 + (1 - self.within(at)[:, :-1]).sum(axis=1)
        return np.where(lie == GREEN, on_green, self.expected[self.place(at, lie)])


class Ends:
    """What became of shots: where the next are played from, penalty strokes, and which are played again."""

    def __init__(self, at, lie):
        self.at, self.lie = at.copy(), lie.copy()
        self.penalty, self.again = np.zeros(len(at), int), np.zeros(len(at), bool)

    def play_again(self, which, start):
        self.at[which], self.lie[which] = start.at[which], start.lie[which]
        self.penalty[which], self.again[which] = 1, True

    def put(self, which, at, lie):
        self.at[which], self.lie[which] = at, lie


def drop(hole, ends, start, which, wet, back_to):
    """Back along the ball's way to dry ground, and a yard more."""
    ends.penalty[which] = 1
    way = back_to - wet
    far, back = length(way), unit(way)
    gone, active = np.full(len(which), 0.5, F32), np.arange(len(which))
    while active.size:
        short = gone[active] < far[active]
        dry_up = active[~short]
        none = (back_to[dry_up] == start.at[which[dry_up]]).all(axis=1)
        ends.play_again(which[dry_up[none]], start)
        rest = dry_up[~none]
        ends.put(which[rest], back_to[rest], hole.lie(back_to[rest]))
        active = active[short]
        at = wet[active] + back[active] * gone[active, None]
        cell = hole.cell(at)
        lie = hole.lies[cell]
        dry = lie != WATER
        on = active[dry]
        behind = wet[on] + back[on] * np.minimum(gone[on] + 1, far[on])[:, None]
        lie_behind = hole.lie(behind)
        is_wet = (lie_behind == WATER)[:, None]
        ends.put(which[on], np.where(is_wet, at[dry], behind), np.where(is_wet[:, 0], lie[dry], lie_behind))
        ends.play_again(which[on[lie_behind == OUT]], start)
        gone[active] += np.maximum(hole.clear[cell], 0.5)
        active = active[~dry]


def runs(shots, lie):
    """Displacements of the run on a lie, in the frame of the aim."""
    along = np.select([(lie == FAIRWAY) | (lie == TEE), lie == ROUGH, lie == TREES],
                      [shots[:, 4], shots[:, 5], shots[:, 5] * F32(TREES_RUN)], 0).astype(F32)
    return np.where((lie == GREEN)[:, None], shots[:, 6:8], shots[:, 2:4] * along[:, None])


def finish(hole, start, ahead, eased, shots):
    """Pitches and runs of full shots, to their ends."""
    pitch = start.at + turned(shots[:, :2], ahead) * eased[:, None]
    cell = hole.cell(pitch)
    lie = hole.lies[cell]
    ends = Ends(pitch, lie)
    ends.play_again(np.flatnonzero(lie == OUT), start)
    wet = np.flatnonzero(lie == WATER)
    drop(hole, ends, start, wet, pitch[wet], start.at[wet])
    rolls = np.flatnonzero((lie != OUT) & (lie != WATER) & (lie != SAND))
    run = turned(runs(shots[rolls], lie[rolls]), ahead[rolls])
    clear = hole.clear[cell][rolls]
    near = length(run) <= clear
    ends.at[rolls] += run
    roll_out(hole, ends, start, rolls[~near], pitch[rolls[~near]], run[~near], clear[~near], shots)
    dropped = np.flatnonzero((ends.penalty > 0) & ~ends.again)
    worse = hole.strokes_from(ends.at[dropped], ends.lie[dropped]) > hole.strokes_from(
        start.at[dropped], start.lie[dropped])
    ends.play_again(dropped[worse], start)
    return ends


def roll_out(hole, ends, start, which, at, run, clear, shots):
    """Runs over changing lies: each uses up the ball's way at its own rate."""
    ahead, reach = unit(run), length(run)
    lie, left = ends.lie[which], np.ones(len(which), F32)
    gone, way = np.maximum(clear, F32(STEP_YD)), reach.copy()
    active = np.arange(len(which))
    while active.size:
        here = np.minimum(gone[active], way[active])
        to = at[active] + ahead[active] * here[:, None]
        then = hole.lie(to)
        same = then == lie[active]
        over = same & (gone[active] >= way[active])
        ends.put(which[active[over]], to[over], then[over])
        gone[active[same]] += F32(STEP_YD)
        new = ~same
        ends.play_again(which[active[new & (then == OUT)]], start)
        wet = new & (then == WATER)
        back = at[active] + ahead[active] * np.maximum(here - F32(STEP_YD), 0)[:, None]
        drop(hole, ends, start, which[active[wet]], to[wet], back[wet])
        sand = new & (then == SAND)
        ends.put(which[active[sand]], to[sand], then[sand])
        on = new & (then < GREEN + 1) & (then != SAND)
        moved = active[on]
        at[moved], lie[moved] = to[on], then[on]
        left[moved] -= here[on] / reach[moved]
        reach[moved] = length(runs(shots[which[moved]], then[on]))
        way[moved], gone[moved] = reach[moved] * left[moved], STEP_YD
        stopped = on & ~((left[active] > 1e-4) & (reach[active] > 0))
        ends.put(which[active[stopped]], to[stopped], then[stopped])
        active = active[(same & ~over) | (on & ~stopped)]


def full_shots(hole, start, random):
    place = hole.place(start.at, start.lie)
    number, way = hole.played[place], hole.targets[place] - start.at
    # No club reaches out of some lies: the ball goes back to the tee.
    stuck = np.flatnonzero(number < 0)
    head = hole.heads[number]
    centre = head[:, 1:3]
    bias, aim = unit(centre), unit(way)
    ahead = np.stack([aim[:, 0] * bias[:, 1] - aim[:, 1] * bias[:, 0],
                      aim[:, 1] * bias[:, 1] + aim[:, 0] * bias[:, 0]], axis=1)
    eased = np.clip(length(way) / np.maximum(length(centre), 0.1), EASED, 1).astype(F32)
    mishit = random.random(len(place), F32) < head[:, 0]
    pick = random.random(len(place), F32)
    pick = np.where(mishit, NORMAL + pick * MISHITS, pick * NORMAL).astype(np.int32)
    ends = finish(hole, start, ahead, eased, hole.shots[number * (NORMAL + MISHITS) + pick])
    ends.at[stuck], ends.lie[stuck], ends.penalty[stuck] = hole.tee, TEE, 0
    return ends


def touch_shots(hole, start, touch, random):
    """Chips, pitches and bunker shots; which of them are holed."""
    sand = start.lie == SAND

    def figure(name):
        return np.where(sand, touch["sand"][name], touch["grass"][name]).astype(F32)

    factor = F32(touch["factors"])[LAYER[start.lie]]
    way = hole.pin - start.at
    far, ahead = length(way), unit(way)
    along = factor * (figure("base_ft") / 3 + figure("along_pct") / 100 * far)
    across = factor * (figure("base_ft") / 3 + figure("across_pct") / 100 * far)
    chance = np.minimum(CAPTURE_YD2 / np.maximum(2 * np.pi * along * across, 1e-6), 0.6)
    mishit = random.random(len(far), F32) < np.minimum(figure("mishit_pct") / 100 * factor, 1)
    holed = ~mishit & (random.random(len(far), F32) < chance)
    pick = random.random(len(far), F32)
    normal, duffs = F32(touch["normal"]), F32(touch["mishits"])
    error = normal[(pick * len(normal)).astype(int)]
    good = hole.pin + turned(np.stack([error[:, 1] * across, error[:, 0] * along], axis=1), ahead)
    index = (pick * len(duffs)).astype(int)
    reach = index // 2
    step = (reach // 2 + 0.5) / (len(duffs) / 4)
    reach = np.where(reach % 2 == 0, 0.15 + 0.5 * step, 1.3 + 0.9 * step).astype(F32)
    off = np.stack([2 * duffs[index, 1] * across, np.zeros_like(across)], axis=1)
    at = np.where(mishit[:, None], start.at + way * reach[:, None] + turned(off, ahead), good)
    ends = Ends(at, hole.lie(at))
    ends.play_again(np.flatnonzero(ends.lie == OUT), start)
    wet = np.flatnonzero(ends.lie == WATER)
    drop(hole, ends, start, wet, at[wet], start.at[wet])
    return ends, holed


def play(hole, touch, balls, random):
    """Strokes of so many balls on a hole."""
    strokes = np.zeros(balls, int)
    at, lie = np.tile(hole.tee, (balls, 1)), np.full(balls, TEE)
    active = np.arange(balls)
    while active.size:
        on_green = lie[active] == GREEN
        putting = active[on_green]
        more = random.random(len(putting), F32)[:, None] >= hole.within(at[putting])[:, :-1]
        strokes[putting] += 1 + more.sum(axis=1)
        active = active[~on_green]
        near = hole.to_green[hole.cell(at[active])] <= SHORT_GAME_YD
        near &= ~((lie[active] == TEE) & (at[active] == hole.tee).all(axis=1))
        over = np.zeros(len(active), bool)
        for which, is_touch in ((near, True), (~near, False)):
            balls_here = active[which]
            start = Ends(at[balls_here], lie[balls_here])
            if is_touch:
                ends, over[which] = touch_shots(hole, start, touch, random)
                ends.penalty[over[which]] = 0
            else:
                ends = full_shots(hole, start, random)
            at[balls_here], lie[balls_here] = ends.at, ends.lie
            strokes[balls_here] += 1 + ends.penalty
        active = active[~over & (strokes[active] < MOST_STROKES)]
    return strokes


def tables(folder):
    subprocess.run(["cargo", "bench", "--bench", "speed"], check=True,
                   env={**os.environ, "COSTCARD_TABLES": str(folder)})


def compare(folder, rounds=20_000, at_once=5000):
    told = json.loads((folder / "course.json").read_text())
    holes = [Hole(folder, hole) for hole in told["holes"]]
    random, scores, best = np.random.default_rng(1), [], np.inf
    for _ in range(rounds // at_once):
        start = time.process_time()
        scores.append(sum(play(hole, told["touch"], at_once, random) for hole in holes))
        best = min(best, time.process_time() - start)
    scores = np.concatenate(scores)
    error = np.hypot(scores.std() / rounds**0.5, told["score_sd"] / told["rounds"] ** 0.5)
    print(f"mean score: program {told['score_mean']:.3f}, NumPy {scores.mean():.3f}, "
          f"{abs(scores.mean() - told['score_mean']) / error:.1f} standard errors apart")
    speed = at_once / best
    print(f"rounds a second on one core: program {told['rounds_per_second']:.0f}, NumPy {speed:.0f}, "
          f"{told['rounds_per_second'] / speed:.0f} times")
    print(f"flights a second on one core, program: {told['flights_per_second']:.0f}")


def main():
    if len(sys.argv) > 1:
        compare(pathlib.Path(sys.argv[1]))
        return
    with tempfile.TemporaryDirectory() as folder:
        tables(pathlib.Path(folder))
        compare(pathlib.Path(folder))


if __name__ == "__main__":
    main()
