"""Writes spectra.csv, the published spectra that the photo renderer works from.

Run by hand, with PyPI `colour-science` 0.4.7 installed, only to change the table:
    python3 spectra.py > spectra.csv
"""

import warnings

warnings.filterwarnings("ignore")
import colour  # noqa: E402

GRID = colour.SpectralShape(380, 780, 5)

print(
    """# Spectra on a grid of 5 nm from 380 to 780 nm, one to a row: name, then 81 values.
# Taken from PyPI colour-science 0.4.7, which carries the published tables:
#   cmf_*: CIE 1931 2 degree standard observer (CIE 15)
#   day_*: S0, S1, S2 of the CIE daylight formula (CIE 15)
#   FL*: CIE fluorescent illuminants; HP*: high pressure lamps (CIE 15:2004, tables T.6 to T.8)
#   LED-*: CIE LED illuminants (CIE 15:2018, table 12); ID*: indoor daylight (CIE 184)
#   dslr_*: a camera's sensitivities as measured at NPL (Darrodi et al. 2015, JOSA A 32(3))
# Lights are scaled to 100 at their largest value, the rest is as published."""
)


def row(name, spectrum, largest=None, digits=4):
    values = spectrum.copy().align(GRID, extrapolator_kwargs={"method": "Constant", "left": 0, "right": 0}).values
    if largest:
        values = values / values.max() * largest
    print(name + "," + ",".join(f"{v:.{digits}f}".rstrip("0").rstrip(".") or "0" for v in values))


cmfs = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(GRID)
for label, axis in zip("xyz", range(3)):
    row("cmf_" + label, colour.SpectralDistribution(cmfs.values[:, axis], cmfs.wavelengths), digits=6)
for label, spectrum in colour.colorimetry.SDS_BASIS_FUNCTIONS_CIE_ILLUMINANT_D_SERIES.items():
    row("day_" + label, spectrum, digits=3)
camera = colour.MSDS_CAMERA_SENSITIVITIES["Nikon 5100 (NPL)"]
for label, axis in zip("rgb", range(3)):
    row("dslr_" + label, colour.SpectralDistribution(camera.values[:, axis], camera.wavelengths))
lights = colour.SDS_ILLUMINANTS
names = [n for n in lights if n.startswith(("FL", "HP", "LED", "ID"))]
for name in names:
    row(name, lights[name], largest=100, digits=2)
