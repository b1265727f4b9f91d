"""How sure the day is: a sentence, and the inputs that matter most as bars with their shares."""

import pytest

from grillestack.app import palette as palettes
from grillestack.app.panels.sureness import Sureness
from grillestack.units.display import UnitSystem
from tests.app.workers.made import band


@pytest.fixture
def sureness(qtbot):
    made = Sureness(palettes.light())
    qtbot.addWidget(made)
    made.resize(300, 200)
    made.show()
    return made


def test_sentence_and_shares(sureness):
    sureness.show_band(band(), UnitSystem.METRIC, is_old=False)
    assert "36–45\u00a0°C" in sureness.words.text()
    assert sureness.drivers.accessibleDescription() == "Heat of “Radiator” 60 %; Ram recovery at the opening 10 %"
    assert "invented" in sureness.drivers.toolTip()


def test_a_bar_is_as_long_as_its_share(sureness, qapp):
    sureness.show_band(band(), UnitSystem.METRIC, is_old=False)
    drivers = sureness.drivers
    qapp.processEvents()
    image = drivers.grab().toImage()
    for row, share_frac in enumerate((0.6, 0.1)):
        y = row * drivers._row_px() + drivers.fontMetrics().height() + 3
        dark = sum(image.pixelColor(x, y) == palettes.light().ink for x in range(image.width()))
        assert dark == pytest.approx(share_frac * image.width(), abs=2)


@pytest.mark.parametrize("look", [palettes.light, palettes.dark, palettes.high_contrast])
def test_every_look_is_painted(look, sureness):
    sureness.show_palette(look())
    for found in (band(), None):
        for is_old in (False, True):
            sureness.show_band(found, UnitSystem.INCH, is_old=is_old)
            assert not sureness.grab().isNull()
