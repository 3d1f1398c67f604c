"""Compares our solver with PHREEQC: with our constants in it, and with its Pitzer model.

Reads the baths that the `mixtures` binary writes, in moles per kilogram of water.

1. Same constants: the same species with the same equilibrium constants and the same SIT
   coefficients in a PHREEQC database of their own (no ion pairs, uncharged species ideal but
   for CO2). Checks the solving. The Debye-Hueckel slope is PHREEQC's own; it is printed beside
   ours.
2. Pitzer: sodium carbonate, bicarbonate, hydroxide, chloride and sulfate together, in
   `pitzer.dat` as PHREEQC has it. Checks the constants and the activity model, and is what
   `equilibrium::model_error` was taken from.

Needs `phreeqpython` from PyPI.
"""

import json
import math
import statistics
import sys
import tempfile
import time
from pathlib import Path

import phreeqpython

# pH, with our constants: the worst of this many baths or more.
ALLOWED = 0.01
FEWEST = 500
# pH, with pitzer.dat: 95 % of the mixtures of this ionic strength (mol/kg) or more, and the
# worst of this many or more.
PITZER_FROM = 0.1
PITZER_ALLOWED = 0.12
PITZER_WORST = 0.2
PITZER_FEWEST = 60
# The part of all mixtures that is to be within `equilibrium::model_error`.
WITHIN_MODEL_ERROR = 0.95
# Ionic strengths between which the differences from pitzer.dat are told apart, mol/kg.
PITZER_BANDS = (0.0, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 1.5)

DATABASE = """
SOLUTION_MASTER_SPECIES
H     H+     -1  H    1.008
H(0)  H2      0  H
H(1)  H+     -1  0
E     e-      0  0    0
O     H2O     0  O    15.999
O(0)  O2      0  O
O(-2) H2O     0  0
Na    Na+     0  Na   22.990
Cl    Cl-     0  Cl   35.453
C     CO3-2   2  C    12.011
S     SO4-2   0  SO4  32.06
Hyc   HycO-   1  Hyc  35.453
Pox   H2Pox   0  Pox  32.0
Acet  Acet-   1  Acet 59.0
Citr  Citr-3  1  Citr 189.0
SOLUTION_SPECIES
H+ = H+
e- = e-
H2O = H2O
2 H2O = O2 + 4 H+ + 4 e-
    log_k -86.08
2 H+ + 2 e- = H2
    log_k -3.15
H2O = OH- + H+
    log_k {water}
Na+ = Na+
Cl- = Cl-
SO4-2 = SO4-2
CO3-2 = CO3-2
CO3-2 + H+ = HCO3-
    log_k {bicarbonate}
CO3-2 + 2 H+ = CO2 + H2O
    log_k {carbon_dioxide}
HycO- = HycO-
HycO- + H+ = HHycO
    log_k {hypochlorous}
HycO- + Cl- + 2 H+ = HycCl + H2O
    log_k {chlorine}
H2Pox = H2Pox
H2Pox = HPox- + H+
    log_k {peroxide}
Acet- = Acet-
Acet- + H+ = HAcet
    log_k {acetic}
Citr-3 = Citr-3
Citr-3 + H+ = HCitr-2
    log_k {citric_3}
Citr-3 + 2 H+ = H2Citr-
    log_k {citric_23}
Citr-3 + 3 H+ = H3Citr
    log_k {citric_123}
PHASES
CO2(g)
    CO2 = CO2
    log_k {carbon_dioxide_henry}
SIT
-epsilon
    OH-       Na+  {epsilon[hydroxide]}
    HCO3-     Na+  {epsilon[bicarbonate]}
    CO3-2     Na+  {epsilon[carbonate]}
    HycO-     Na+  {epsilon[hypochlorite]}
    Cl-       Na+  {epsilon[chloride]}
    HPox-     Na+  {epsilon[perhydroxyl]}
    Acet-     Na+  {epsilon[acetate]}
    H2Citr-   Na+  {epsilon[citrate][0]}
    HCitr-2   Na+  {epsilon[citrate][1]}
    Citr-3    Na+  {epsilon[citrate][2]}
    H+        Cl-  {epsilon[hydrogen_chloride]}
    CO2       Na+  {epsilon[carbon_dioxide]}
END
"""

SELECTED = (
    "SELECTED_OUTPUT\n -reset false\n -pH true\n -ionic_strength true\n -high_precision true\n"
    "USER_PUNCH\n -headings A\n 10 PUNCH DH_A\nEND\n"
)


def database(constants, epsilon):
    k = constants
    one, two, three = k["citric"]
    return DATABASE.format(
        epsilon=epsilon,
        water=k["water"],
        bicarbonate=-k["carbonic_2"],
        carbon_dioxide=-k["carbonic_1"] - k["carbonic_2"],
        hypochlorous=-k["hypochlorous"],
        chlorine=-k["hypochlorous"] - k["chlorine_hydrolysis"],
        peroxide=k["peroxide"],
        acetic=-k["acetic"],
        citric_3=-three,
        citric_23=-three - two,
        citric_123=-three - two - one,
        carbon_dioxide_henry=k["carbon_dioxide_henry"],
    )


def solution(number, celsius, amounts):
    a = amounts
    carbonate = a["soda_ash"] + a["baking_soda"] + a["carbon_dioxide"]
    totals = {
        "Na": a["hypochlorite"] + a["salt"] + a["lye"] + 2 * a["soda_ash"]
        + a["baking_soda"] + 2 * a["sulfate"],
        "Cl": a["salt"],
        "C": carbonate,
        "S": a["sulfate"],
        "Hyc": a["hypochlorite"],
        "Pox": a["peroxide"],
        "Acet": a["acetic_acid"],
        "Citr": a["citric_acid"],
    }
    lines = [f"SOLUTION {number}", f"  temp {celsius!r}", "  units mol/kgw", "  pH 8 charge"]
    lines += [f"  {name} {amount!r}" for name, amount in totals.items() if amount > 0]
    if a.get("open_pco2", 0) > 0:
        lines.append(f"  C 1e-4 CO2(g) {math.log10(a['open_pco2'])!r}")
    return "\n".join(lines) + "\nEND\n"


def solve(phreeqc, celsius, baths):
    """PHREEQC's answers (pH, ionic strength, slope) to the baths, and the seconds taken."""
    phreeqc.ip.run_string(SELECTED)
    text = "".join(solution(number, celsius, bath["amounts"]) for number, bath in enumerate(baths, 1))
    start = time.perf_counter()
    phreeqc.ip.run_string(text)
    spent = time.perf_counter() - start
    head, *answers = phreeqc.ip.get_selected_output_array()
    if len(answers) != len(baths):
        sys.exit(f"PHREEQC answered {len(answers)} of {len(baths)} at {celsius}")
    columns = [head.index(name) for name in ("pH", "mu", "A")]
    return [[answer[column] for column in columns] for answer in answers], spent


def print_worst(rows, count=5):
    """Sorts rows of (difference, bath, PHREEQC's answer, celsius), largest first; prints some."""
    rows.sort(key=lambda row: abs(row[0]), reverse=True)
    print("largest differences in pH:")
    for off, bath, (ph, strength, _), celsius in rows[:count]:
        parts = ((name, amount) for name, amount in bath["amounts"].items() if amount > 0)
        print(
            f"  {off:+.5f}  ours {bath['ph']:.4f}, PHREEQC {ph:.4f}, {celsius:.0f} C, "
            f"I {bath['ionic_strength']:.3f} and {strength:.3f}: "
            + ", ".join(f"{name} {amount:.3g}" for name, amount in parts)
        )


def compare_same_constants(report):
    """Whether all baths agree; PHREEQC's solves a second."""
    rows, slopes, spent = [], [], 0.0
    with tempfile.TemporaryDirectory() as folder:
        for group in report["groups"]:
            constants = group["constants"]
            celsius = constants["celsius"]
            Path(folder, "ours.dat").write_text(database(constants, report["epsilon"]))
            phreeqc = phreeqpython.PhreeqPython(database="ours.dat", database_directory=Path(folder))
            answers, seconds = solve(phreeqc, celsius, group["baths"])
            spent += seconds
            slopes.append((celsius, constants["debye_slope"], answers[0][2]))
            for bath, answer in zip(group["baths"], answers):
                rows.append((bath["ph"] - answer[0], bath, answer, celsius))
    print("== the same constants and SIT coefficients")
    print("Debye-Hueckel slope, ours and PHREEQC's:")
    for celsius, ours, theirs in slopes[:: len(slopes) // 5]:
        print(f"  {celsius:5.1f} C  {ours:.4f}  {theirs:.4f}")
    print_worst(rows)
    median = statistics.median(abs(row[0]) for row in rows)
    worst = abs(rows[0][0])
    print(f"{len(rows)} baths: median difference {median:.6f} pH, worst {worst:.6f} pH")
    good = len(rows) >= FEWEST and worst <= ALLOWED
    if not good:
        print(f"not within {ALLOWED} pH on {FEWEST} baths or more")
    return good, len(rows) / spent


def share(differences, part):
    """The difference that this part of them does not exceed."""
    ordered = sorted(differences)
    return ordered[max(0, math.ceil(part * len(ordered)) - 1)]


def compare_pitzer(report):
    """Whether our pH is near that of pitzer.dat."""
    phreeqc = phreeqpython.PhreeqPython(database="pitzer.dat")
    rows = []
    for bath in report["pitzer"]:
        (answer,), _ = solve(phreeqc, bath["celsius"], [bath])
        rows.append((bath["ph"] - answer[0], bath, answer, bath["celsius"]))
    print("== pitzer.dat")
    print_worst(rows)
    for low, high in zip(PITZER_BANDS, PITZER_BANDS[1:]):
        band = [abs(row[0]) for row in rows if low <= row[1]["ionic_strength"] < high]
        if band:
            print(
                f"  I {low} to {high}: {len(band)} mixtures, median {statistics.median(band):.3f}, "
                f"95 % within {share(band, 0.95):.3f}, worst {max(band):.3f}"
            )
    within = sum(abs(row[0]) <= row[1]["model_error"] for row in rows)
    print(f"{within} of {len(rows)} within the model error that we state")
    differences = [abs(row[0]) for row in rows if row[1]["ionic_strength"] >= PITZER_FROM]
    most, worst = share(differences, 0.95), max(differences)
    print(
        f"{len(differences)} mixtures from I {PITZER_FROM}: median difference {statistics.median(differences):.3f} pH, "
        f"95 % within {most:.3f} pH, worst {worst:.3f} pH"
    )
    good = (
        len(differences) >= PITZER_FEWEST
        and most <= PITZER_ALLOWED
        and worst <= PITZER_WORST
        and within >= WITHIN_MODEL_ERROR * len(rows)
    )
    if not good:
        print(f"not 95 % within {PITZER_ALLOWED} pH and all within {PITZER_WORST} pH, or past the stated error")
    return good


def main():
    report = json.load(sys.stdin)
    same, theirs = compare_same_constants(report)
    pitzer = compare_pitzer(report)
    ours = report["solves_per_second"]
    print(f"solves a second: ours {ours:,.0f}, PHREEQC in batches {theirs:,.0f}, ratio {ours / theirs:,.0f}")
    if not (same and pitzer):
        sys.exit(1)


main()
