"""What load and model cannot read on from: each mistake's code with its documentation, in the form
that rules have.

Two remarks stand here as well that no rule's file gives: they look at more than one build, or at
the verdict itself.
"""

from dataclasses import dataclass

from builder.rules.rule import RuleText

_SOURCE = "the source format"


@dataclass(frozen=True)
class Mistake:
    """A mistake's code and what is to be said of it. A mistake cannot be accepted; `remark` marks
    what stops nothing.
    """

    code: str
    text: RuleText
    remark: bool = False


def _m(
    code: str, title: str, checks: str, why: str, example: str, mend: str, *, remark: bool = False
) -> Mistake:
    return Mistake(f"data/{code}", RuleText(title, checks, why, example, mend, _SOURCE), remark)


MISTAKES: tuple[Mistake, ...] = (
    _m(
        "absurd",
        "A value that cannot be right",
        "Each number against the wide bounds of its field, which the field reference lists with"
        " their reason.",
        "A slip of the point or the unit spoils every sum.",
        "mass: 40 kg for a motor",
        "Check the unit and the decimal point.",
    ),
    _m(
        "accepts-nothing",
        "An accepted fault that is gone",
        "Each code under accept still finds a fault in this build.",
        "A stale line would hide the fault when it comes back.",
        "accept: {pack/discharge-limit: …} after a new battery",
        "Take the line out.",
        remark=True,
    ),
    _m(
        "address-taken",
        "Two pages of one address",
        "Each file of the site has one owner, capitals and folders counted as the least of disks"
        " counts them.",
        "One page would replace the other, at every publish again.",
        "a picture work/index.html beside the page of that address",
        "Rename the one that you named.",
    ),
    _m(
        "bad-name",
        "A name that cannot be used",
        "Names of builds, parts, batteries, steps, questions, pictures: letters, digits, few marks,"
        " none that is taken.",
        "A name becomes an address or a file, and stands in wires and orders.",
        "a folder 'My Build'",
        "Rename it: my-build.",
    ),
    _m(
        "broken-part",
        "A build that uses an unreadable part",
        "Whether every shelf entry that a build names could be read.",
        "The build cannot be read without it.",
        "use: frame-a, whose mass has no unit",
        "Fix the entry on the shelf.",
    ),
    _m(
        "circle-of-bases",
        "Builds based on each other",
        "The chain of based_on.",
        "Nobody could tell what such a build holds.",
        "a based on b, b based on a",
        "Take based_on out of one of them.",
    ),
    _m(
        "contradiction",
        "Two values that cannot both be right",
        "Readings with a battery against those without. Charge used and volts landed at against the"
        " battery. Volts of a cell from landing to full. The part of an antenna that radiates"
        " against its length. The ends of a range.",
        "One of the two is a slip, and every figure that rests on it is wrong.",
        "weighed 22.87 g with a battery, 154.5 g without",
        "Check the digits, the point and the unit of both.",
    ),
    _m(
        "guide",
        "A chapter that cannot be read",
        "Each file of guide/ for one title and headings that follow each other. Pictures stand on lines"
        " of their own, with words. Links lead to the web or to what the build has. Lists and tables are"
        " of a size that a page can show.",
        "What a page cannot show would be lost in silence, and a link of another kind could run script.",
        "[press](javascript:...)",
        "Write it as the message says, at its line.",
    ),
    _m(
        "guide-name",
        "A name in a chapter that nobody knows",
        "Each {figure:KEY}, step:, part:, files: and link to a chapter. The chapters and figures that a"
        " change names are looked at too, and the steps of a recording.",
        "A number that is not there cannot stay true, and a link would lead nowhere.",
        "{figure:mass/drey}",
        "Write one of the names that the message offers; `benchleaf trace BUILD` lists the figures.",
    ),
    _m(
        "guide-private",
        "Something private in a chapter or a file",
        "Each line of a chapter, and of a file that is given along, for secrets of a radio link,"
        " passwords, numbers of owners and addresses.",
        "What is published cannot be called back.",
        "link phrase: ...",
        "Take it out, or write it without the value.",
    ),
    _m(
        "missing-key",
        "A key that has to be there",
        "Keys without which an object cannot be read.",
        "A part without a kind or name means nothing.",
        "a part without kind",
        "Add the line.",
    ),
    _m(
        "no-such-build",
        "A base that does not exist",
        "based_on names a build of this workspace.",
        "The variant has nothing to differ from.",
        "based_on: diper",
        "Write the folder's name.",
    ),
    _m(
        "no-such-contact",
        "A wire end that does not exist",
        "Each end of a wire, and each contact of a socket, is a pad of its part.",
        "Nets, pinout and order rest on it.",
        "controller.RX9",
        "Write part.contact, or part.number.contact where there are several.",
    ),
    _m(
        "no-such-kind",
        "A kind that does not exist",
        "The kind of each shelf entry.",
        "The kind decides which fields there are.",
        "kind: flight-controler",
        "Write one of the kinds of the field reference.",
    ),
    _m(
        "no-such-pack",
        "A battery that the build does not have",
        "Batteries that flights and weighings name.",
        "The log would teach about another battery.",
        "pack: smal",
        "Write a name under 'packs'.",
    ),
    _m(
        "no-such-part",
        "A part that the build does not have",
        "Part names in wires, plugs, weighings and changes.",
        "The wire leads nowhere, and nobody knows what lay on the scale.",
        "camra.5V",
        "Write a key of parts.",
    ),
    _m(
        "two-things-weighed",
        "A weighing that says two things",
        "What lay on the scale: parts alone, or the aircraft without some of them.",
        "A reading of something else than is believed spoils every weight.",
        "{what: dry, parts: [motor], mass: 40 g}",
        "Write what: dry with without, or what: parts with parts.",
    ),
    _m(
        "no-such-socket",
        "A socket that does not exist",
        "Ends of plugs.",
        "What the plug joins cannot be derived.",
        "esc.J9",
        "Write a socket of the part.",
    ),
    _m(
        "no-unit",
        "A number without its unit",
        "Every quantity carries its unit.",
        "14 could be grams or ounces.",
        "mass: 14.3",
        "Write 14.3 g.",
    ),
    _m(
        "no-workspace",
        "No builds here",
        "The folder holds builds/.",
        "There is nothing to read.",
        "run in the wrong folder",
        "Name the folder with --workspace.",
    ),
    _m(
        "not-a-choice",
        "A word that does not fit",
        "Fields that take one of a few words.",
        "Each word means something of its own.",
        "status: ready",
        "Write one of the words named.",
    ),
    _m(
        "not-a-date",
        "Not a date",
        "Days in ISO 8601.",
        "4.10. could be April or October.",
        "revised: 4.10.2026",
        "Write 2026-10-04.",
    ),
    _m(
        "not-a-gauge",
        "Not a wire gauge",
        "Gauges: AWG or mm².",
        "A bare 28 says too little.",
        "gauge: 28",
        "Write 28 AWG or 0.5 mm2.",
    ),
    _m(
        "not-a-number",
        "Not a plain number",
        "Counts and ratios.",
        "A word cannot be counted with.",
        "count: four",
        "Write digits.",
    ),
    _m(
        "not-a-pattern",
        "Not a hole pattern",
        "Spacing by spacing, then the thread.",
        "Fit is checked with it.",
        "20 by 20",
        "Write 20 x 20 mm M2.",
    ),
    _m(
        "not-a-price",
        "Not a price",
        "Amount and ISO 4217 code, no finer than the smallest coin.",
        "12.50 could be any money.",
        "price: 12.50",
        "Write 12.50 EUR.",
    ),
    _m(
        "not-a-quantity",
        "Not a quantity",
        "A number and a unit; ranges run upwards.",
        "It cannot be computed with.",
        "mass: about thirty",
        "Write a number and a unit.",
    ),
    _m(
        "not-a-size",
        "Not a size or position",
        "Lengths joined by x, positions by commas.",
        "Fit and balance rest on it.",
        "size: 30 x 30",
        "Write 30 x 30 x 8 mm.",
    ),
    _m(
        "not-an-address",
        "Not an address of the web",
        "The site's address and links to shops begin with http:// or https://.",
        "Other addresses run script or open files of the reader's machine.",
        "link: javascript:…",
        "Write the whole address, with https.",
    ),
    _m(
        "not-cells",
        "Not a cell count",
        "Cells in series with an S.",
        "4 could be anything.",
        "cells: 4",
        "Write 4S or 3-6S.",
    ),
    _m(
        "not-on-shelf",
        "A part that is not on the shelf",
        "Each use names an entry of builds/shelf.",
        "Without it there is no mass, price or pad.",
        "use: frame-b",
        "Write the entry's name, or add the entry.",
    ),
    _m(
        "not-text",
        "A control character in a text",
        "Texts hold printable characters.",
        "It could steer a terminal or hide words.",
        "a bell character",
        "Take it out.",
    ),
    _m(
        "nothing-to-remove",
        "A variant that removes nothing",
        "What a variant removes is in its base.",
        "The base changed, or the name is wrong.",
        "wires: {remove: [...]}",
        "Write it as the base has it.",
    ),
    _m(
        "picture",
        "A picture that cannot be published",
        "Each picture's name, its place in the build's own folder, and whether it is a picture that"
        " can be made again.",
        "A picture from elsewhere could carry a file of the publisher's machine; a drawing could"
        " run script.",
        "photo: ../../keys.png",
        "Put a .png, .jpg, .webp or plain .svg into the build's folder.",
    ),
    _m(
        "syntax",
        "Not YAML",
        "The file can be read as YAML.",
        "Nothing behind the place can be trusted.",
        "a colon in unquoted text",
        "Fix indentation, colons and quotes.",
    ),
    _m(
        "template",
        "A template that cannot be used",
        "The workspace's own templates: whether they can be read, are written as templates are, and"
        " find what they name.",
        "A page that is half made is not published.",
        "{% if page.titel %}",
        "Fix it, or take it away to get ours.",
    ),
    _m(
        "too-large",
        "More than is read",
        "Size, nesting, number of values, length of texts.",
        "Files come from strangers, and a machine has an end.",
        "a file of 2 MB",
        "Split it, or take out what was pasted by accident.",
    ),
    _m(
        "private-source",
        "Something private in the source that is given",
        "Every text and name of source.zip, for secrets, passwords, numbers of owners and addresses.",
        "What a sheet does not show, its source would give away.",
        "a note on a part that could stand in another's place",
        "Take it out, or write give_source: no.",
    ),
    _m(
        "renamed-key",
        "A key that has another name now",
        "Keys that had another name in an earlier Benchleaf.",
        "Two names for one value would let the two disagree.",
        "board_target: …",
        "Write the new name, with the same value.",
    ),
    _m(
        "too-slow",
        "A build that takes too long",
        "The time that its pages, its PDF and its pictures take, against a limit.",
        "One build must not keep all others from being published.",
        "a build with thousands of loose ends",
        "Make the build smaller, or raise seconds under at_most in site.yaml.",
    ),
    _m(
        "twice",
        "The same key twice",
        "Keys of a group and names on the shelf.",
        "One of the two would be lost in silence.",
        "title twice",
        "Keep one.",
    ),
    _m(
        "two-readings",
        "A value that can be read in two ways",
        "Commas between digits, signs that two currencies share, units that mean two things.",
        "A guess would make a number ten, sixty or a thousand times wrong.",
        "capacity: 1,250 mAh, which is 1.25 mAh or 1250 mAh",
        "Write the one that you mean; both stand in the message.",
    ),
    _m(
        "unknown-key",
        "A key that is not known",
        "Every key of every group.",
        "A misspelt key would be lost in silence.",
        "sumary: …",
        "Write the key that was meant.",
    ),
    _m(
        "unreadable",
        "A file that cannot be read",
        "Files exist, may be read and are UTF-8.",
        "There is nothing to go by.",
        "a Latin-1 file",
        "Save it as UTF-8; check its permissions.",
    ),
    _m(
        "unused-on-shelf",
        "A shelf entry that no build uses",
        "Every entry of builds/shelf against all builds, their batteries, screws and alternatives.",
        "A part that nobody uses grows stale unseen; often it is a name that was misspelt.",
        "motor-1404-old, left over after the motors were changed",
        "Use it, or take it out.",
        remark=True,
    ),
    _m(
        "wrong-kind",
        "A part of the wrong kind",
        "Batteries are of kind 'pack'.",
        "A frame holds no charge.",
        "packs: {a: {use: frame-a}}",
        "Name a part of the right kind.",
    ),
    _m(
        "wrong-shape",
        "A group, list or text in the wrong place",
        "What each key takes.",
        "It cannot be told what was meant.",
        "parts: frame-a",
        "Write a group, a list or text as the message says.",
    ),
    _m(
        "wrong-unit",
        "A unit of another dimension",
        "The unit fits the quantity.",
        "Grams are no volts.",
        "mass: 30 V",
        "Write a unit that fits.",
    ),
    _m(
        "yaml-feature",
        "An anchor, alias, tag or merge key",
        "Build files are plain YAML.",
        "They hide what a value is and can blow a file up.",
        "&a, *a, !!str, <<",
        "Write the values out.",
    ),
)
