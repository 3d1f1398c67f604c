"""Writes cameras.csv: published spectral sensitivities of real cameras, and the reflectances
of a 24-patch chart.

Run by hand, only to change the table, with PyPI `colour-science` 0.4.7 installed and a copy of
the Academy Software Foundation's data set rawtoaces-data (version 1.1.0, Apache-2.0):
    python3 cameras.py PATH/data/camera > cameras.csv
"""

import glob
import json
import os
import sys
import warnings

warnings.filterwarnings("ignore")
import colour  # noqa: E402
import numpy as np  # noqa: E402

GRID = np.arange(380, 781, 5)

print(
    """# Spectra on a grid of 5 nm from 380 to 780 nm, one to a row: name, then 81 values.
#   camNN_r, _g, _b: sensitivities of a camera, 1 at the highest of the three. From the data set
#     rawtoaces-data 1.1.0 of the Academy Software Foundation (Apache-2.0), all its cameras, in
#     the order of their file names
#   chartNN: mean reflectances of a 24-patch chart over 30 copies (BabelColor, D. Pascale 2012),
#     as carried by PyPI colour-science 0.4.7; row by row from dark skin to black"""
)


def row(name, values):
    print(name + "," + ",".join(f"{v:.4f}".rstrip("0").rstrip(".") or "0" for v in values))


for n, path in enumerate(sorted(glob.glob(os.path.join(sys.argv[1], "*.json")))):
    with open(path) as file:
        spectral = json.load(file)["spectral_data"]
    data = spectral["data"]["main"]
    waves = np.array([float(w) for w in data])
    values = np.array([data[w] for w in data], dtype=float)
    order = np.argsort(waves)
    axes = [spectral["index"]["main"].index(c) for c in "RGB"]
    columns = [np.interp(GRID, waves[order], values[order, a], 0, 0).clip(0) for a in axes]
    most = max(column.max() for column in columns)
    for channel, column in zip("rgb", columns):
        row(f"cam{n:02d}_{channel}", column / most)

for n, spectrum in enumerate(colour.SDS_COLOURCHECKERS["BabelColor Average"].values()):
    row(f"chart{n:02d}", np.interp(GRID, spectrum.wavelengths, spectrum.values))
