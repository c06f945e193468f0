"""A list of parts, as people keep it in a spreadsheet, onto one's own shelf: all or nothing."""

from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner, Result

from builder import pipeline
from builder.cli.main import cli

_THIRTY = Path(__file__).with_name("thirty_rows.csv")
_SHELF = "builds/shelf/own-parts.yaml"


def _add(workspace: Path, *words: str, text: str | bytes | None = None) -> Result:
    given = ["add", "parts", *words, "--workspace", str(workspace)]
    return CliRunner().invoke(cli, given, input=text)


def test_thirty_rows_with_decimal_commas_and_dollars_become_a_first_sheet(tmp_path: Path) -> None:
    """The sums are done by hand here, from the text of the list: semicolons, commas as decimals."""
    done = _add(tmp_path, str(_THIRTY), "--yes", "--build", "tern")
    assert done.exit_code == 0, done.output
    assert "columns passed over: Colour, Pos" in done.output
    rows = [line.split(";") for line in _THIRTY.read_text("utf-8").splitlines()[1:]]
    assert len(rows) == 30
    checked = pipeline.check_workspace(tmp_path)
    assert not checked.stops, [f.message for f in checked.stops]
    sheet = checked.sheets["tern"]
    bench = ("tool", "soldering iron", "multimeter", "charger", "goggles", "transmitter", "LiPo")
    flying = [r for r in rows if r[2] not in bench and r[4]]
    grams = sum(int(r[3]) * float(r[4].replace(",", ".")) for r in flying)
    line_masses = {line.key: line.each for line in sheet.results.mass.lines}
    assert len(line_masses) == len(flying)
    total = sheet.results.mass.dry_sum
    assert total.value == pytest.approx(grams / 1000)
    motor = checked.workspace.shelf["tern-motor-2207"].part
    assert motor.price is not None and motor.price.each is not None
    assert (motor.price.each.currency, motor.price.shop) == ("USD", "Reedmarket (invented)")
    assert checked.workspace.site.currency == "USD"


@pytest.mark.parametrize(
    ("text", "options", "said"),
    [
        ("part,kind,weight\nA,motor,9.3\n", (), "has no unit"),
        ('part,kind,weight (g)\nA,motor,"1,250"\n', (), "1.250 g"),
        ("part,kind,price\nA,motor,12.50\n", (), "currency"),
        ("part,kind\nA,gearbox\n", (), "is not a kind of part"),
        ("part\nThe red thing\n", (), "does not say the kind"),
        ("part\nMotor for camera\n", (), "its name says"),
        ("part,kind\nA,motor\na,motor\n", (), "row 2 has that name too"),
        ("part,kind\n../../etc,motor\n", (), "etc"),
        ("part,kind\nAux,motor\n", (), "makes no name for the shelf"),
        ("part,kind\n,motor\n", (), "no name"),
        ("part,kind,qty\nA,motor,many\n", (), "is no number of pieces"),
        ("part,kind,link\nA,motor,javascript:alert(1)\n", (), "link"),
        ("part,kind,weight\nA,motor,9,3 g\n", (), "more cells than there are headings"),
        ("colour,kind\nred,motor\n", (), "--column name=HEADING"),
        ("part,kind\n", (), "a row for each part"),
        ("", (), "a row for each part"),
        ("part,kind\nA,motor\n", ("--column", "nme=part"), "is no column"),
        ("part,kind\nA,motor\n", ("--column", "mass=Gewicht"), "There is no column"),
        ("part,kind\n" + "A,motor\n" * 1_100, (), "over 1000 rows"),
        ("part,kind\n" + "A" * 3_000 + ",motor\n", (), "a cell of over"),
        ('part,kind\n"A,motor\n', (), "cannot be read as a table"),
        (b"part,kind\nA\xff,motor\n", (), "is not UTF-8"),
        (b"part,kind\nA\0,motor\n", (), "characters that no text has"),
        (b"x" * 2_000_000, (), "is larger than"),
        ("part,kind\nA,motor\n", ("--file", "../x.yaml"), "is no name of a shelf file"),
        ("part,kind\nA,motor\n", ("--build", "../x"), "cannot name a build"),
        ('part,kind\n"=HYPERLINK(""x"")",motor\n', (), "part: a formula"),
        ("part,kind,note\nA,motor,@SUM(A1)\n", (), "note: a formula"),
        ("part,kind\n+cmd|calc!A0,motor\n", (), "part: a formula"),
        ("part,kind,qty\nA,motor,0\n", (), "is no number of pieces"),
        ("part,kind,qty\nA,motor,\u0664\n", (), "is no number of pieces"),
        ("\ufeffpart,kind\nA,motor\n".encode("utf-16-le"), (), "is not UTF-8"),
        ("part,kind\nA,motor\n".encode("utf-16-le"), (), "characters that no text has"),
        ("part,kind\nA\u202eb,motor\n", (), "turns the direction of reading"),
        ("part,kind\nA\x1b[31m,motor\n", (), "a control character"),
        ("part,kind,link\nA,motor,javascript:x\n", (), "is not an address of http"),
        (
            "part,kind,note\n" + "".join(f"A{i},motor,{'n' * 1900}\n" for i in range(400)),
            (),
            "larger than 512 kB",
        ),
    ],
    ids=range(37),
)
def test_what_is_not_understood_is_said_and_nothing_is_written(
    text: str | bytes, options: tuple[str, ...], said: str, tmp_path: Path
) -> None:
    done = _add(tmp_path, "-", "--yes", *options, text=text)
    if said == "etc":  # what is no letter falls away: the name leads nowhere
        assert done.exit_code == 0 and set(_shelf(tmp_path)) == {"etc"}
        return
    assert done.exit_code in (1, 2) and said in done.output, done.output
    assert done.output.count("benchleaf: ") == 1 and "Traceback" not in done.output
    assert not (tmp_path / "builds").exists()


def _shelf(workspace: Path) -> dict[str, dict[str, object]]:
    found: dict[str, dict[str, object]] = yaml.safe_load((workspace / _SHELF).read_text("utf-8"))
    return found


def test_options_say_what_the_list_does_not(tmp_path: Path) -> None:
    text = "Artikel\tArt\tGewicht\tPreis\nSluice\tmotor\t1.250,5\t12,50\n"
    words = ("name=Artikel", "kind=Art", "mass=3", "price=Preis")
    said = [word for each in words for word in ("--column", each)]
    more = ("--unit", "mg", "--currency", "EUR", "--decimals", "comma")
    assert _add(tmp_path, "-", "--yes", *said, *more, text=text).exit_code == 0
    entry = _shelf(tmp_path)["sluice"]
    assert entry["mass"] == "1250.5 mg" and entry["price"] == {"each": "12.50 EUR"}


def test_it_shows_and_writes_nothing_unless_it_may(tmp_path: Path) -> None:
    done = _add(tmp_path, "-", text="part,kind,weight (g)\nSluice,motor,9.3\n")
    assert done.exit_code == 0 and "1 x  motor  sluice  9.3 g" in done.output
    assert "Nothing was written" in done.output and not (tmp_path / "builds").exists()


def test_rows_that_are_not_understood_may_be_left_out(tmp_path: Path) -> None:
    text = "part,kind,weight\nSluice,motor,9.3 g\nOwl,motor,heavy\n"
    assert _add(tmp_path, "-", "--yes", text=text).exit_code == 1
    assert _add(tmp_path, "-", "--yes", "--leave-out", text=text).exit_code == 0
    assert set(_shelf(tmp_path)) == {"sluice"}
    again = _add(tmp_path, "-", "--yes", text="part,kind\nSLUICE,motor\n")
    assert again.exit_code == 1 and "stands in builds/shelf/own-parts.yaml already" in again.output
