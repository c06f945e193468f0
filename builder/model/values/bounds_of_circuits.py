"""Bounds of what is electrical, and of radio: a name for each kind of figure.

They take in aircraft of 1 to 14 cells, with room to both sides. Where a bound names no source it is
common practice of the trade, no source.
"""

from typing import Annotated

from builder.model.values.bounds import within
from builder.model.values.measures import AtVoltsText, BurstText, CellsText, GaugeText, RateText
from builder.model.values.quantities import (
    Capacitance,
    Charge,
    Current,
    Frequency,
    FrequencySpan,
    Gain,
    Level,
    Power,
    Resistance,
    Rotation,
    Share,
    SpeedConstant,
    Voltage,
    VoltageSpan,
    VoltsPerAmpere,
)

# Volts
PartVolts = Annotated[
    Voltage,
    within(
        "no circuit runs on less than half a volt; mains is the most on a bench",
        voltage=("0.5 V", "500 V"),
    ),
]
PadVolts = Annotated[
    Voltage,
    within(
        "signals begin at some tenths of a volt, and 14 cells give 61 V", voltage=("0.1 V", "100 V")
    ),
]
PadVoltsSpan = Annotated[
    VoltageSpan,
    within("signals begin at nothing, and 14 cells give 61 V", voltage=("0 V", "100 V")),
]
SupplyVolts = Annotated[
    Voltage,
    within(
        "no circuit runs on less than half a volt, and 14 cells give 61 V",
        voltage=("0.5 V", "100 V"),
    ),
]
SupplyVoltsSpan = Annotated[
    VoltageSpan,
    within(
        "no circuit runs on less than half a volt, and 14 cells give 61 V",
        voltage=("0.5 V", "100 V"),
    ),
]
Dropout = Annotated[
    Voltage, within("a regulator loses between nothing and some volts", voltage=("0 V", "20 V"))
]
RatedVolts = Annotated[
    Voltage, within("capacitors are rated from 1 V to some hundred", voltage=("1 V", "1000 V"))
]
FullCell = Annotated[
    Voltage, within("full cells have 3.4 V (iron phosphate) to 4.5 V", voltage=("3.0 V", "4.6 V"))
]
NominalCell = Annotated[
    Voltage, within("cells are named after 2.3 V to 4.2 V", voltage=("2.0 V", "4.3 V"))
]
LandingCell = Annotated[
    Voltage,
    within("below 2 V a cell is spoilt, above 4.3 V it is full", voltage=("2.0 V", "4.3 V")),
]
PackVoltage = Annotated[
    Voltage,
    within("a cell has 2 V to 4.6 V, and up to 14 are in series", voltage=("2.0 V", "65 V")),
]
TestVolts = Annotated[
    Voltage, within("motors are tested on half a volt to 100 V", voltage=("0.5 V", "100 V"))
]

# Currents
LoadCurrent = Annotated[
    Current,
    within("from nothing at rest to what the largest motor takes", current=("0 A", "500 A")),
]
Limit = Annotated[
    Current, within("from the weakest rail to the thickest connector", current=("0.1 mA", "1000 A"))
]
PeakDraw = Annotated[
    BurstText,
    within(
        "from nothing to what the largest motor takes, for a thousandth of a second to an hour",
        current=("0 A", "500 A"),
        time=("1 ms", "1 h"),
    ),
]
ShortCurrent = Annotated[
    BurstText,
    within(
        "from the weakest rail to the thickest connector, for a thousandth of a second to an hour",
        current=("0.1 mA", "1000 A"),
        time=("1 ms", "1 h"),
    ),
]
NoLoadCurrent = Annotated[
    AtVoltsText,
    within(
        "motors turn empty on some milliamperes to some amperes, at half a volt to 100 V",
        current=("0.1 mA", "50 A"),
        voltage=("0.5 V", "100 V"),
    ),
]
CellRate = Annotated[
    RateText,
    within(
        "cells are charged and discharged in some seconds to some days",
        rate=("0.01C", "500C"),
        current=("1 mA", "2000 A"),
    ),
]

# Charge and cells
Capacity = Annotated[
    Charge,
    within(
        "the smallest batteries hold some ten milliampere-hours, the largest of such aircraft some ten"
        " ampere-hours",
        charge=("5 mAh", "100 Ah"),
    ),
]
UsedCharge = Annotated[
    Charge,
    within("from a hop to the largest battery of such aircraft", charge=("0.1 mAh", "150 Ah")),
]
SeriesCells = Annotated[
    CellsText,
    within(
        "such aircraft fly on 1 to 14 cells in series and up to 9 in parallel",
        cells=("1S", "14S"),
        parallel=("1P", "9P"),
    ),
]

# Power
PartPower = Annotated[
    Power, within("from nothing at rest to the largest charger", power=("0 W", "10 kW"))
]
SentPower = Annotated[
    Power,
    within(
        "transmitters send a thousandth of a milliwatt to some hundred watts",
        power=("0.001 mW", "1 kW"),
    ),
]

# Resistance, capacitance
SeriesResistance = Annotated[
    Resistance, within("from copper alone to a pull-up", resistance=("0 ohm", "100000 kohm"))
]
WindingOhms = Annotated[
    Resistance,
    within(
        "windings have some thousandths of an ohm to some ohms", resistance=("0.5 mohm", "50 ohm")
    ),
]
CellOhms = Annotated[
    Resistance,
    within(
        "cells have some tenths of a milliohm to some tenths of an ohm",
        resistance=("0.05 mohm", "2 ohm"),
    ),
]
ShuntOhms = Annotated[
    Resistance,
    within(
        "shunts have hundredths of a milliohm to some tenths of an ohm",
        resistance=("0.005 mohm", "1 ohm"),
    ),
]
CapacitorOhms = Annotated[
    Resistance,
    within("capacitors have a milliohm to some ohms", resistance=("0.05 mohm", "100 ohm")),
]
Impedance = Annotated[
    Resistance,
    within(
        "lines for a picture have some ten to some hundred ohms", resistance=("1 ohm", "10 kohm")
    ),
]
Farads = Annotated[
    Capacitance,
    within(
        "from a chip of some picofarads to a bank of some ten millifarads",
        capacitance=("1 pF", "100 mF"),
    ),
]
SensorSensitivity = Annotated[
    VoltsPerAmpere,
    within(
        "sensors give some hundredths of a millivolt to some volts an ampere",
        sensitivity=("0.01 mV/A", "10 V/A"),
    ),
]

# Copper
WireGauge = Annotated[
    GaugeText,
    within(
        "wires of such aircraft are finer than a hair (40 AWG) to finger-thick (0000 AWG)",
        area=("0.001 mm2", "110 mm2"),
    ),
]

# Motors
Kv = Annotated[
    SpeedConstant,
    within("motors turn 50 to 60000 rpm a volt", speed_constant=("20 rpm/V", "100000 rpm/V")),
]
Revolutions = Annotated[
    Rotation,
    within(
        "the fastest small propellers turn 100000 rpm; a row may be taken at rest",
        speed_of_rotation=("0 rpm", "300000 rpm"),
    ),
]
MostRevolutions = Annotated[
    Rotation,
    within(
        "propellers are allowed 1000 to 300000 rpm", speed_of_rotation=("500 rpm", "300000 rpm")
    ),
]
ElectricalRevolutions = Annotated[
    Rotation,
    within(
        "speed controllers follow some thousand to some million turns of the field a minute",
        speed_of_rotation=("5000 rpm", "10000000 rpm"),
    ),
]
Efficiency = Annotated[
    Share, within("converters give out a tenth to all of what they take", share=("10 %", "100 %"))
]
Tolerance = Annotated[
    Share, within("volts that are off by more than half are none", share=("0 %", "50 %"))
]

# Radio
RadioFrequency = Annotated[
    Frequency, within("such links work between 20 MHz and 100 GHz", frequency=("20 MHz", "100 GHz"))
]
RadioSpan = Annotated[
    FrequencySpan,
    within("such links work between 20 MHz and 100 GHz", frequency=("20 MHz", "100 GHz")),
]
AntennaGain = Annotated[
    Gain,
    within(
        "antennas give -30 dBi (a chip in a corner) to 40 dBi (a dish)", gain=("-40 dBi", "45 dBi")
    ),
]
LinkMargin = Annotated[
    Gain, within("something to spare, and not more than a link has", gain=("0 dB", "60 dB"))
]
Sensitivity = Annotated[
    Level,
    within(
        "noise is at -174 dBm in 1 Hz, and receivers are blind above some milliwatts",
        level=("-174 dBm", "10 dBm"),
    ),
]
