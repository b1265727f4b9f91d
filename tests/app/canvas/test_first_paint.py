"""The sheet is on screen before the scientific core is loaded."""

from __future__ import annotations

import subprocess
import sys


def test_importing_both_views_loads_neither_shapely_nor_numpy():
    code = (
        "import sys; import grillestack.app.canvas.front_view, grillestack.app.canvas.side_strip;"
        "print([name for name in ('shapely', 'numpy', 'pint', 'fluids', 'scipy') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
