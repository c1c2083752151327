"""What is wrong with a product file is said in one sentence, with its line, and what to do about it."""

from __future__ import annotations

from pathlib import Path

import pytest

from pellicle.errors import InputError
from pellicle.files.product_file import product_from_text, read_product

GOOD = """\
format = 1

[product]
name = "Test strips"
species = "beef"
class = "shelf-stable"

[meat]
ingredient = "beef top round"
raw = "10 kg"

[[formula]]
ingredient = "salt"
amount = "1.7 % of raw"

[[formula]]
ingredient = "curing salt"
amount = "0.25 % of raw"
nitrite = "6.25 %"

[cure]
method = "tumbled"
"""


def refusal(text: str) -> InputError:
    with pytest.raises(InputError) as caught:
        product_from_text(text, "strips.toml", Path("."))
    return caught.value


def test_a_good_file_is_read():
    product = product_from_text(GOOD, "strips.toml", Path("."))

    assert product.meat.raw_kg == 10
    assert product.formula[1].nitrite_share == pytest.approx(0.0625)
    assert product.formula[1].line == 16


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ('name = "Test strips"', 'name = "Test strips"\npiece = 3', 5, "There is no 'piece' in [product]"),
        ("species", "spices", 5, "Did you mean species?"),
        ('species = "beef"\n', "", 3, "product.species is missing"),
        ("[meat]", "[maet]", 8, "Did you mean meat"),
        ("[cure]", "[cures]", 21, "Did you mean cure?"),
        ('nitrite = "6.25 %"', 'nitrit = "6.25 %"', 19, "Did you mean nitrite"),
        ('species = "beef"', 'species = "beaf"', 5, "Did you mean beef?"),
        ('method = "tumbled"', 'method = "tumbeld"', 22, "Did you mean tumbled or rubbed?"),
        ('class = "shelf-stable"', 'class = ["bacon", "refrigerated"]', 6, "which exclude each other"),
        ("format = 1", "format = 2", 1, "this version reads format = 1"),
        ("format = 1\n", "", 1, "The file does not say its format"),
        ('raw = "10 kg"', "raw = 10", 10, "unit"),
        ('raw = "10 kg"', 'raw = "1,500 g"', 10, "1,500"),
        ('raw = "10 kg"', 'raw = "-3 kg"', 10, "-3"),
        ('raw = "10 kg"', 'raw = "0 kg"', 10, "0 kg"),
        ('raw = "10 kg"', 'raw = "nan kg"', 10, "nan"),
        ('raw = "10 kg"', 'raw = "9000000000 kg"', 10, "9000000000"),
        ('amount = "1.7 % of raw"', "amount = 0.017", 14, "% of raw"),
        ('amount = "1.7 % of raw"', 'amount = "1.7"', 14, "% of raw"),
        ('nitrite = "6.25 %"', "nitrite = 0.0625", 19, "6.25 %"),
        ('nitrite = "6.25 %"', 'nitrite = "625 %"', 19, "100"),
        ('class = "shelf-stable"', 'aw_limit = "85 %"', 6, "0.85"),
        ('class = "shelf-stable"', "aw_limit = 85", 6, "0.85"),
        ('[cure]\nmethod = "tumbled"', '[uptake]\npickup = "9 %"\ntaken_up = "90 %"', 23, "in two ways"),
        ('[cure]\nmethod = "tumbled"', "[model]\nprotein_water_facter = 1", 22, "protein_water_factor"),
        ('[cure]\nmethod = "tumbled"', "[uptake]\nhow = 3", 22, "a text in quotes"),
        ('ingredient = "beef top round"', 'ingredient = "beef top round"\nper_100g = { water = 70 }', 8, "both"),
        ('raw = "10 kg"', 'raw = "10 kg', 10, "not valid TOML"),
    ],
)
def test_a_fault_is_named_with_its_line(old: str, new: str, line: int, words: str):
    assert old in GOOD

    error = refusal(GOOD.replace(old, new, 1))

    assert words in str(error)
    assert error.line == line


def test_a_bag_and_a_mixture_may_not_share_a_name():
    error = refusal(GOOD + '\n[mixture.rub]\nsalt = "100 %"\n[bag.rub]\nnitrite = "none"\n')

    assert "'rub' is defined twice, as mixture and as bag" in str(error)


def write(folder: Path, content: bytes) -> Path:
    path = folder / "strips.toml"
    path.write_bytes(content)
    return path


def refused(path: Path) -> str:
    with pytest.raises(InputError) as caught:
        read_product(path)
    return str(caught.value)


def test_a_missing_file_is_said(tmp_path: Path):
    assert "There is no file" in refused(tmp_path / "absent.toml")


def test_a_folder_is_not_a_product_file(tmp_path: Path):
    assert "is a folder" in refused(tmp_path)


def test_an_empty_file_is_said(tmp_path: Path):
    assert "is empty" in refused(write(tmp_path, b" \n\n"))


def test_a_file_of_50_mb_is_refused_by_its_size(tmp_path: Path):
    path = tmp_path / "strips.toml"
    with path.open("wb") as file:
        file.truncate(50_000_000)

    assert "has 50.0 MB; a product file has at most 1 MB" in refused(path)


def test_a_file_that_is_not_utf8_is_said(tmp_path: Path):
    assert "is not UTF-8 text (byte 8" in refused(write(tmp_path, b'name = "\xe9"'))


@pytest.mark.parametrize("elsewhere", ["../mine.toml", "/etc/mine.toml", "a/../../mine.toml"])
def test_a_path_may_not_leave_the_folder(tmp_path: Path, elsewhere: str):
    text = GOOD.replace("format = 1", f'format = 1\ningredients = "{elsewhere}"')

    assert "lies outside the product file's folder" in refused(write(tmp_path, text.encode()))


def test_a_link_may_not_lead_out_of_the_folder(tmp_path: Path):
    inner = tmp_path / "inner"
    inner.mkdir()
    (tmp_path / "outside.toml").write_text("format = 1\n")
    (inner / "mine.toml").symlink_to(tmp_path / "outside.toml")
    text = GOOD.replace("format = 1", 'format = 1\ningredients = "mine.toml"')

    assert "lies outside" in refused(write(inner, text.encode()))


def test_a_fault_in_the_ingredient_file_names_that_file(tmp_path: Path):
    (tmp_path / "mine.toml").write_text('format = 1\n[ingredient.glaze]\nper_100g = { water = 20 }\ndensity = "wet"\n')
    text = GOOD.replace("format = 1", 'format = 1\ningredients = "mine.toml"')

    with pytest.raises(InputError) as caught:
        read_product(write(tmp_path, text.encode()))

    assert (caught.value.file, caught.value.line) == ("mine.toml", 4)
