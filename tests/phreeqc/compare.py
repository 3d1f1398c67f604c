"""Compares our solver with PHREEQC, with our constants in it.

Reads the baths that the `mixtures` binary writes, defines the same species with the same
constants in a PHREEQC database of their own (no ion pairs, every ion by Davies, uncharged
species ideal), solves each bath there, and compares the pH. PHREEQC works in moles per
kilogram of water, and so are the baths given. Its Debye-Hueckel slope is its own; it is
printed beside ours.

Needs `phreeqpython` from PyPI.
"""

import json
import statistics
import sys
import tempfile
import time
from pathlib import Path

import phreeqpython

ALLOWED = 0.01

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
    -gamma 1 0
HycO- = HycO-
HycO- + H+ = HHycO
    log_k {hypochlorous}
    -gamma 1 0
HycO- + Cl- + 2 H+ = HycCl + H2O
    log_k {chlorine}
    -gamma 1 0
H2Pox = H2Pox
    -gamma 1 0
H2Pox = HPox- + H+
    log_k {peroxide}
Acet- = Acet-
Acet- + H+ = HAcet
    log_k {acetic}
    -gamma 1 0
Citr-3 = Citr-3
Citr-3 + H+ = HCitr-2
    log_k {citric_3}
Citr-3 + 2 H+ = H2Citr-
    log_k {citric_23}
Citr-3 + 3 H+ = H3Citr
    log_k {citric_123}
    -gamma 1 0
PHASES
CO2(g)
    CO2 = CO2
    log_k {carbon_dioxide_henry}
END
"""


def database(constants):
    k = constants
    one, two, three = k["citric"]
    return DATABASE.format(
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
    if a["open_pco2"] > 0:
        import math

        lines.append(f"  C 1e-4 CO2(g) {math.log10(a['open_pco2'])!r}")
    return "\n".join(lines) + "\nEND\n"


def main():
    report = json.load(sys.stdin)
    differences, slopes, spent, baths = [], [], 0.0, 0
    with tempfile.TemporaryDirectory() as folder:
        for group in report["groups"]:
            constants = group["constants"]
            Path(folder, "ours.dat").write_text(database(constants))
            phreeqc = phreeqpython.PhreeqPython(database="ours.dat", database_directory=Path(folder))
            celsius = constants["celsius"]
            phreeqc.ip.run_string(
                "SELECTED_OUTPUT\n -reset false\n -pH true\n -ionic_strength true\n -high_precision true\n"
                "USER_PUNCH\n -headings A\n 10 PUNCH DH_A\nEND\n"
            )
            text = "".join(
                solution(number, celsius, bath["amounts"])
                for number, bath in enumerate(group["baths"], 1)
            )
            start = time.perf_counter()
            phreeqc.ip.run_string(text)
            spent += time.perf_counter() - start
            answers = phreeqc.ip.get_selected_output_array()
            head, answers = answers[0], answers[1:]
            if len(answers) != len(group["baths"]):
                sys.exit(f"PHREEQC answered {len(answers)} of {len(group['baths'])} at {celsius}")
            ph, strength, slope = (head.index(name) for name in ("pH", "mu", "A"))
            slopes.append((celsius, constants["debye_slope"], answers[0][slope]))
            for bath, answer in zip(group["baths"], answers):
                baths += 1
                differences.append(
                    (abs(bath["ph"] - answer[ph]), bath["ph"], answer[ph], celsius,
                     bath["ionic_strength"], answer[strength], bath["amounts"])
                )
    print("Debye-Hueckel slope, ours and PHREEQC's:")
    for celsius, ours, theirs in slopes[:: len(slopes) // 5]:
        print(f"  {celsius:5.1f} C  {ours:.4f}  {theirs:.4f}")
    differences.sort(key=lambda row: row[0], reverse=True)
    print("largest differences in pH:")
    for off, ours, theirs, celsius, strength, their_strength, amounts in differences[:5]:
        print(
            f"  {off:.5f}  ours {ours:.4f}, PHREEQC {theirs:.4f}, {celsius:.0f} C, "
            f"I {strength:.3f} and {their_strength:.3f}: "
            + ", ".join(f"{name} {amount:.3g}" for name, amount in amounts.items() if amount > 0)
        )
    median = statistics.median(row[0] for row in differences)
    print(f"{baths} baths: median difference {median:.6f} pH, worst {differences[0][0]:.6f} pH")
    ours, theirs = report["solves_per_second"], baths / spent
    print(f"solves a second: ours {ours:,.0f}, PHREEQC in batches {theirs:,.0f}, ratio {ours / theirs:,.0f}")
    if baths < 500 or differences[0][0] > ALLOWED:
        sys.exit(f"not within {ALLOWED} pH on 500 baths or more")


main()
