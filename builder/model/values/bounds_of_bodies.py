"""Bounds of what is weighed, measured with a rule, timed or counted: a name for each kind of
figure.

They take in every aircraft from a 1.6 inch one of 20 g to a 10 inch one of 5 kg, with room to both
sides, and the bench that they are built on. Where a bound names no source it is common practice of
the trade, no source.
"""

from typing import Annotated

from builder.model.values.bounds import within
from builder.model.values.lengths_text import PatternText, PositionText, SizeText
from builder.model.values.money_text import MoneyText
from builder.model.values.quantities import (
    Angle,
    AtLeastOne,
    Count,
    Day,
    Duration,
    Force,
    Length,
    LengthSpan,
    Mass,
    MassChange,
    Pressure,
    Ratio,
    Share,
    Speed,
    Temperature,
    TemperatureSpan,
)

# Masses
PartMass = Annotated[
    Mass,
    within(
        "nothing at all where it is weighed with another part, and nothing on such a bench over"
        " 20 kg",
        mass=("0 g", "20 kg"),
    ),
]
WeighedMass = Annotated[
    Mass,
    within("from a bag of screws to the heaviest of these aircraft", mass=("0.1 g", "25 kg")),
]
ScaleStep = Annotated[
    Mass, within("scales of a bench show steps of 0.1 mg to some grams", mass=("0.01 mg", "100 g"))
]
LegalMass = Annotated[
    Mass,
    within(
        "laws draw their lines between some grams and some hundred kilograms",
        mass=("1 g", "1000 kg"),
    ),
]
ChangeOfMass = Annotated[
    MassChange,
    within("a repair adds or takes no more than a part weighs", change_of_mass=("-20 kg", "20 kg")),
]
Thrust = Annotated[
    Force,
    within(
        "such motors give up to some kilograms-force each; a row may be taken at rest",
        force=("0 gf", "50 kgf"),
    ),
]

# Lengths of aircraft and their parts
PartSize = Annotated[
    SizeText,
    within(
        "a chip is a tenth of a millimetre thin, a bag or a roll some metres long",
        length=("0.02 mm", "20 m"),
    ),
]
PadSize = Annotated[
    SizeText,
    within("pads are tenths of a millimetre to some centimetres long", length=("0.05 mm", "60 mm")),
]
Seat = Annotated[
    PositionText,
    within("no part sits further than 2 m from the middle of the frame", length=("-2 m", "2 m")),
]
HolePattern = Annotated[
    PatternText,
    within("holes lie 2 mm (a whoop's motor) to 200 mm apart", length=("2 mm", "200 mm")),
]
Wheelbase = Annotated[
    Length, within("frames measure 30 mm to 2 m from motor to motor", length=("30 mm", "2 m"))
]
DiscDiameter = Annotated[
    Length, within("propellers measure 15 mm to 1 m across", length=("15 mm", "1 m"))
]
PropellerPitch = Annotated[
    Length,
    within(
        "propellers of that size have a pitch of some millimetres to 20 inches",
        length=("2 mm", "510 mm"),
    ),
]
Bore = Annotated[
    Length,
    within(
        "shafts and holes for them are half a millimetre to 40 mm across",
        length=("0.3 mm", "40 mm"),
    ),
]
Thickness = Annotated[
    Length,
    within(
        "plates, layers and washers are a twentieth of a millimetre to 100 mm thick",
        length=("0.05 mm", "100 mm"),
    ),
]
Height = Annotated[
    Length,
    within(
        "boards, posts and motors are half a millimetre to 300 mm high", length=("0.5 mm", "300 mm")
    ),
]
Clearance = Annotated[
    Length,
    within(
        "it is nothing at the least, and at most some centimetres on such parts",
        length=("0 mm", "100 mm"),
    ),
]
Width = Annotated[
    Length, within("straps, slots and cameras are 1 mm to 200 mm wide", length=("1 mm", "200 mm"))
]
WidthSpan = Annotated[
    LengthSpan,
    within("straps, slots and cameras are 1 mm to 200 mm wide", length=("1 mm", "200 mm")),
]
ThreadDepth = Annotated[
    Length,
    within(
        "screws of such parts grip over some tenths of a millimetre to 60 mm",
        length=("0.2 mm", "60 mm"),
    ),
]
HardwareLength = Annotated[
    Length, within("from a washer to the longest strap", length=("0.1 mm", "3 m"))
]
HardwareWidth = Annotated[
    Length, within("heads and straps are 0.5 mm to 200 mm wide", length=("0.5 mm", "200 mm"))
]
ScrewSpacing = Annotated[
    Length, within("propeller screws sit 2 mm to 100 mm apart", length=("2 mm", "100 mm"))
]
Pitch = Annotated[
    Length,
    within("contacts lie 0.2 mm (the finest sockets) to 60 mm apart", length=("0.2 mm", "60 mm")),
]
Gap = Annotated[
    Length,
    within(
        "bare board between pads is some hundredths of a millimetre to 60 mm wide",
        length=("0.02 mm", "60 mm"),
    ),
]
WireLength = Annotated[
    Length, within("wires of such an aircraft are 1 mm to 5 m long", length=("1 mm", "5 m"))
]
LeadLength = Annotated[
    Length,
    within("leads and legs are up to 2 m long; a part may have none", length=("0 mm", "2 m")),
]
Bend = Annotated[
    Length,
    within(
        "cables bend round some tenths of a millimetre to some centimetres",
        length=("0.1 mm", "200 mm"),
    ),
]
Radiator = Annotated[
    Length,
    within(
        "the part that radiates is at most about a wave long: 15 m at 20 MHz",
        length=("1 mm", "15 m"),
    ),
]
KeepOut = Annotated[
    Length, within("a compass is kept within arm's reach of the currents", length=("0 mm", "2 m"))
]

# Places, air and warmth
Distance = Annotated[
    Length,
    within(
        "the links of such aircraft reach from one bank of a river to some hundred kilometres",
        length=("1 m", "500 km"),
    ),
]
Altitude = Annotated[
    Length,
    within(
        "the lowest shore lies 430 m below the sea, the highest peak 8849 m above it",
        length=("-450 m", "9000 m"),
    ),
]
SeaPressure = Annotated[
    Pressure,
    within(
        "reduced to the sea, 870 hPa and 1085 hPa are the extremes on record (from memory)",
        pressure=("850 hPa", "1100 hPa"),
    ),
]
AirTemperature = Annotated[
    Temperature,
    within(
        "the air near the ground was measured at -90 to 57 degC (from memory)",
        temperature=("-90 degC", "60 degC"),
    ),
]
PackTemperature = Annotated[
    Temperature,
    within(
        "colder the electrolyte freezes, warmer the cells are damaged",
        temperature=("-40 degC", "90 degC"),
    ),
]
HeatLimit = Annotated[
    Temperature,
    within(
        "semiconductors protect themselves between 40 and 200 degC",
        temperature=("30 degC", "250 degC"),
    ),
]
IronTemperature = Annotated[
    Temperature,
    within(
        "irons get hotter than the softest solder melts, and do not glow white",
        temperature=("80 degC", "1000 degC"),
    ),
]
MeltingSpan = Annotated[
    TemperatureSpan,
    within("from wax and low-melting solder to hard solder", temperature=("30 degC", "1000 degC")),
]

# Angles
Turn = Annotated[Angle, within("more than one turn is none", angle=("-360 deg", "360 deg"))]

# Times
Airborne = Annotated[
    Duration,
    within("batteries of such aircraft last some seconds to some hours", time=("1 s", "24 h")),
]
OnGround = Annotated[
    Duration, within("nobody leaves it on for longer than a day", time=("0 s", "24 h"))
]
Reaction = Annotated[
    Duration,
    within("a fail-safe acts between a thousandth of a second and an hour", time=("1 ms", "1 h")),
]
PeakTime = Annotated[
    Duration,
    within("peaks are stated for a thousandth of a second to an hour", time=("1 ms", "1 h")),
]
Dwell = Annotated[
    Duration,
    within(
        "some boards need moving air at once, and one that may be on for a day needs no limit",
        time=("0 s", "24 h"),
    ),
]
Age = Annotated[
    Duration, within("prices age within a day to a hundred years", time=("1 h", "36525 days"))
]
Dated = Annotated[
    Day,
    within(
        "before 1990 nobody built such aircraft, and nobody logs what lies generations ahead",
        day=("1990-01-01", "2100-12-31"),
    ),
]

# Counts
Pieces = Annotated[Count, within("leave out what is there no times", count=("1", "100000"))]
PiecesOrNone = Annotated[Count, within("some, or none", count=("0", "100000"))]
MotorsOnArm = Annotated[Count, within("one, or two above each other", count=("1", "2"))]
Blades = Annotated[
    Count,
    within(
        "a blade cannot do without its counterweight; fans have up to sixteen", count=("1", "16")
    ),
]
Poles = Annotated[Count, within("the bell of a motor has 2 magnets or more", count=("2", "100"))]
Phases = Annotated[
    Count, within("a brushed motor has 2 leads, a brushless one 3", count=("2", "3"))
]
Channels = Annotated[Count, within("boards drive up to 16 motors", count=("1", "16"))]
Ways = Annotated[Count, within("connectors and ribbons have 1 to 200 ways", count=("1", "200"))]
WiresOnPad = Annotated[
    Count, within("more wires than a dozen find no room on a pad", count=("0", "12"))
]
OrdinalNumber = Annotated[
    Count, within("ports, channels and outputs are numbered up to some dozens", count=("0", "255"))
]
Tap = Annotated[
    Count,
    within("below a contact of a balance lead lie 0 to 14 cells in series", count=("0", "14")),
]
InSeries = Annotated[Count, within("one, or some in series: 14 cells in all", count=("1", "14"))]
Parallel = Annotated[Count, within("one, or some in parallel", count=("1", "12"))]
Walls = Annotated[Count, within("printed walls are counted in ones", count=("0", "100"))]
Cycles = Annotated[
    Count,
    within(
        "no cell lives ten thousand charges, no aircraft a hundred thousand flights",
        count=("0", "100000"),
    ),
]
MostOf = Annotated[AtLeastOne, within("a limit is at least 1", count=("1", "999999"))]

# Speeds
FlyingSpeed = Annotated[
    Speed, within("such aircraft fly at walking pace up to 100 m/s", speed=("0.5 m/s", "150 m/s"))
]

# Shares and ratios
ShareOfWhole = Annotated[
    Share, within("a part of a whole is not more than the whole", share=("0 %", "100 %"))
]
SpreadShare = Annotated[
    Share, within("a spread of more than the value says nothing", share=("0 %", "100 %"))
]
CalibrationShare = Annotated[
    Share, within("a scale that is off by a tenth is broken", share=("0 %", "10 %"))
]
SpreadOfMerit = Annotated[
    Ratio,
    within(
        "a figure of merit lies between 0 and 1, and its spread within that", ratio=("0", "0.5")
    ),
]
FigureOfMerit = Annotated[
    Ratio,
    within(
        "ideal over real power is less than 1, and small propellers reach 0.2 to 0.8",
        ratio=("0.05", "1"),
    ),
]
StyleFactor = Annotated[
    Ratio,
    within("mean power is some tenths to some times what hovering takes", ratio=("0.2", "20")),
]
MoneyRate = Annotated[
    Ratio,
    within(
        "one unit of a currency is between a millionth and a million of another",
        ratio=("0.000001", "1000000"),
    ),
]
MoneyAmount = Annotated[
    MoneyText, within("a gift costs nothing; nine digits are read", amount=("0", "999999999.999"))
]
