"""The line of a key is found whatever way the table is written."""

from __future__ import annotations

from pellicle.files.text import line_of, lines_by_path

TEXT = '''\
format = 1
"quoted key" = 2
[product]
name = "a = b"   # not = a key
[[formula]]
ingredient = "salt"
[[formula]]
ingredient = "water"
amount = """
fake = 1
"""
spoon = "2 tsp"
[mixture."house rub"]
"black pepper" = "50 %"
'''


def test_keys_are_found_by_path():
    lines = lines_by_path(TEXT)

    assert lines["product.name"] == 4
    assert lines["formula[2].ingredient"] == 8
    assert lines["formula[2].spoon"] == 12
    assert lines["mixture.house rub.black pepper"] == 14
    assert lines["quoted key"] == 2


def test_text_inside_a_long_string_is_no_key():
    assert "formula[2].fake" not in lines_by_path(TEXT)


def test_a_missing_key_gives_the_line_of_its_table():
    assert line_of(lines_by_path(TEXT), "formula[1].amount") == 5
    assert line_of(lines_by_path(TEXT), "nowhere.at.all") is None
