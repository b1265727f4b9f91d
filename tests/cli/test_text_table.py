"""Tables of the terminal."""

from grillestack.cli.text_table import table


def test_words_stand_left_and_figures_right():
    lines = list(table(["case", "air"], [["Crawl", "1.5 m/s"], ["Idle", "12 m/s"]], words=1))
    assert lines == ["  case       air", "  Crawl  1.5 m/s", "  Idle    12 m/s"]


def test_a_table_may_do_without_a_head():
    assert list(table(None, [["core", "9 cm²"]], words=1)) == ["  core  9 cm²"]
