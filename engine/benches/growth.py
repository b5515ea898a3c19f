"""How time and memory grow with the work: rounds, holes, clubs, measured shots.

    python engine/benches/growth.py [PROGRAM] [PLOT.svg]

PROGRAM is the built program, target/release/costcard by default. Processor time is told, not the clock's: others may
use the machine. Short runs are made
twice, and the quicker told. The plot needs Matplotlib.
"""

import os
import pathlib
import random
import re
import sys
import tempfile

HERE = pathlib.Path(__file__).resolve().parent.parent.parent
PARKLAND = HERE / "profiles/courses/parkland.toml"
ROWAN = HERE / "profiles/players/rowan.toml"
# The order in which clubs come into a bag: every size has long, middle and short ones.
CLUBS = ["driver", "7 iron", "pitching wedge", "5 iron", "9 iron", "sand wedge", "3 wood",
         "6 iron", "8 iron", "gap wedge", "4 iron", "5 wood", "lob wedge"]
BALLS = {"driver": (140, 12, 2900), "3 wood": (132, 12, 3700), "5 wood": (127, 13, 4200),
         "4 iron": (118, 14, 4500), "5 iron": (114, 15, 5000), "6 iron": (110, 16, 5500),
         "7 iron": (105, 18, 6200), "8 iron": (100, 20, 6900), "9 iron": (94, 23, 7500),
         "pitching wedge": (87, 26, 8000), "gap wedge": (81, 28, 8300), "sand wedge": (74, 30, 8500),
         "lob wedge": (66, 33, 8600)}


def once(command):
    """Processor seconds and peak memory, MB, of one run."""
    silent = [(os.POSIX_SPAWN_OPEN, stream, os.devnull, os.O_WRONLY, 0) for stream in (1, 2)]
    child = os.posix_spawnp(command[0], command, os.environ, file_actions=silent)
    _, status, used = os.wait4(child, 0)
    if status:
        raise SystemExit(f"failed: {' '.join(command)}")
    return used.ru_utime + used.ru_stime, used.ru_maxrss / 1024


def measured(command):
    """The better of two runs; a long one is made once."""
    runs = [once(command)]
    if runs[0][0] < 10:
        runs.append(once(command))
    return min(time for time, _ in runs), min(memory for _, memory in runs)


def course(folder, holes):
    """The first holes of the demo course, or all of them more than once."""
    # Ratings, tees and stroke indexes are those of all eighteen.
    text = re.sub(r"(?m)^(stroke_index|tees) = .*\n", "", PARKLAND.read_text())
    head, *parts = re.split(r"(?m)^(?=\[\[holes\]\])", text)
    # Stated for any number of holes: nine or eighteen without a rating would be rated by play first.
    tees = ('[[tees]]\nname = "white"\n'
            "rating.men = { course_rating = 72, bogey_rating = 95, slope_rating = 123 }\n\n")
    head = re.sub(r"(?s)\[\[tees\]\].*?(?=\[conditions\])", tees, head)
    chosen = [parts[number % len(parts)] for number in range(holes)]
    path = folder / f"{holes}-holes.toml"
    path.write_text(head + "".join(chosen))
    return str(path)


def sheet(folder, rows, clubs):
    """Made shots, evenly among clubs."""
    drawn = random.Random(1)
    path = folder / f"{rows}-shots-{len(clubs)}-clubs.csv"
    with path.open("w") as file:
        file.write("club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm\n")
        for row in range(rows):
            club = clubs[row % len(clubs)]
            speed, launch, spin = BALLS[club]
            file.write(f"{club},{drawn.gauss(speed, 3):.1f},{drawn.gauss(launch, 1.5):.1f},"
                       f"{drawn.gauss(0, 2):.1f},{drawn.gauss(spin, 400):.0f},{drawn.gauss(0, 400):.0f}\n")
    return str(path)


def player(folder, clubs):
    """A player with these clubs and no other."""
    path = folder / f"{len(clubs)}-clubs.toml"
    shots = sheet(folder, 20 * len(clubs), clubs)
    path.write_text(f'name = "Sam Player"\nsex = "men"\nhandicap_index = 14\nstrikes = "{shots}"\nassumed_clubs = []\n')
    return str(path)


def series(program, folder):
    """By kind of work: its sizes, and the command for each."""
    play = [program, "play", "--assume", "level", "--json", "--threads", "1"]

    def rounds(number):
        return play + ["--rounds", str(number), str(ROWAN), course(folder, 1)]

    def holes(number):
        return play + ["--rounds", "2000", str(ROWAN), course(folder, number)]

    def clubs(number):
        return play + ["--rounds", "2000", player(folder, CLUBS[:number]), course(folder, 3)]

    def shots(number):
        return [program, "fit", sheet(folder, number, CLUBS), "--player", "Sam Player", "--handicap", "14",
                "--out", str(folder / f"{number}.toml"), "--force", "--threads", "1"]

    return {
        "rounds of one hole": ([20_000, 200_000, 2_000_000, 20_000_000], rounds),
        "holes": ([1, 3, 9, 18, 36], holes),
        "clubs": ([4, 7, 13], clubs),
        "measured shots": ([1000, 10_000, 100_000, 1_000_000], shots),
    }


def plot(path, found):
    """Time and memory over the size of the work, both axes logarithmic, beside straight proportion."""
    import matplotlib
    matplotlib.use("svg")
    matplotlib.rcParams["svg.fonttype"] = "none"
    matplotlib.rcParams["svg.hashsalt"] = "growth"
    from matplotlib import pyplot
    figure, axes = pyplot.subplots(2, len(found), figsize=(12, 6))
    for column, (kind, points) in zip(axes.T, found.items()):
        sizes, times, memories = zip(*points)
        column[0].loglog(sizes, times, "o-")
        column[0].loglog(sizes, [times[-1] * size / sizes[-1] for size in sizes], ":", color="grey")
        column[1].semilogx(sizes, memories, "o-", color="tab:orange")
        column[1].set_ylim(0, 1.2 * max(memories))
        column[1].set_xlabel(kind)
    axes[0][0].set_ylabel("processor time, s (dotted: in proportion)")
    axes[1][0].set_ylabel("peak memory, MB")
    figure.tight_layout()
    figure.savefig(path, metadata={"Date": None})


def main():
    program = sys.argv[1] if len(sys.argv) > 1 else "target/release/costcard"
    found = {}
    with tempfile.TemporaryDirectory() as folder:
        for kind, (sizes, command) in series(program, pathlib.Path(folder)).items():
            print(f"{kind:>20}  {'s':>8}  {'MB':>6}")
            for size in sizes:
                time, memory = measured(command(size))
                found.setdefault(kind, []).append((size, time, memory))
                print(f"{size:>20}  {time:>8.2f}  {memory:>6.0f}", flush=True)
    if len(sys.argv) > 2:
        plot(sys.argv[2], found)


if __name__ == "__main__":
    main()
