"""Radio links: levels, losses, margins."""

import math

SPEED_OF_LIGHT = 299792458.0  # m/s, exact


def wavelength(frequency: float) -> float:
    """Wavelength in free space.

    Formula: λ = c / f
    frequency: f, frequency [Hz]
    Gives: λ, wavelength [m]
    Limits: frequency above 0, else ValueError.
    Source: definition, c = 299792458 m/s

    >>> round(wavelength(5.8e9) * 1000, 2)
    51.69
    """
    if frequency <= 0.0:
        raise ValueError("A wavelength needs a frequency above 0.")
    return SPEED_OF_LIGHT / frequency


def free_space_loss(frequency: float, distance: float) -> float:
    """Loss between two isotropic antennas in free space.

    Formula: L = 20 lg(4π d f / c)
    frequency: f, frequency [Hz]
    distance: d, distance [m]
    Gives: L, basic transmission loss [dB]
    Limits: far field, clear path; frequency and distance above 0, else ValueError.
    Source: Rec. ITU-R P.525, which prints 32.4 + 20 lg f_MHz + 20 lg d_km

    >>> round(free_space_loss(5.8e9, 1000.0), 2)
    107.72
    """
    if distance <= 0.0:
        raise ValueError("A path needs a distance above 0.")
    return 20.0 * math.log10(4.0 * math.pi * distance / wavelength(frequency))


def power_level(power: float) -> float:
    """Level of a power.

    Formula: L_P = 10 lg(P / 1 mW)
    power: P, power [W]
    Gives: L_P, level [dBm]
    Limits: power above 0, else ValueError.
    Source: definition

    >>> round(power_level(0.025), 2)
    13.98
    """
    if power <= 0.0:
        raise ValueError("Only a power above 0 has a level in decibels.")
    return 10.0 * math.log10(power / 0.001)


def decibels(ratio: float) -> float:
    """A ratio of powers in decibels.

    Formula: x = 10 lg r
    ratio: r, ratio of two powers [1]
    Gives: x, the same in decibels [dB]
    Limits: ratio above 0, else ValueError.
    Source: definition

    >>> round(decibels(2.0), 2)
    3.01
    """
    if ratio <= 0.0:
        raise ValueError("Only a ratio above 0 can be given in decibels.")
    return 10.0 * math.log10(ratio)


def power_ratio(decibels: float) -> float:
    """A ratio of powers from decibels.

    Formula: r = 10^(x / 10)
    decibels: x, ratio in decibels [dB]
    Gives: r, ratio of two powers [1]
    Limits: none.
    Source: definition

    >>> round(power_ratio(3.0), 3)
    1.995
    """
    return math.pow(10.0, decibels / 10.0)


def radiated_power(power: float, feeder_loss: float, gain: float) -> float:
    """Equivalent isotropically radiated power (e.i.r.p.) of a transmitter with its antenna.

    Formula: P_e = P · 10^((G - L_f) / 10)
    power: P, power at the transmitter's socket [W]
    feeder_loss: L_f, loss of cable and connectors [dB]
    gain: G, gain of the antenna over isotropic [dB]
    Gives: P_e, e.i.r.p. [W]
    Limits: power not negative, else ValueError.
    Source: ITU Radio Regulations 1.161

    >>> round(radiated_power(0.025, 0.0, 1.2) * 1000, 2)
    32.96
    """
    if power < 0.0:
        raise ValueError("A transmitter's power cannot be negative.")
    return power * power_ratio(gain - feeder_loss)


def polarisation_loss(sent: float, received: float, turn: float) -> float:
    """Loss between two antennas of unlike polarisation.

    Formula: L = -10 lg(½ (1 + (4 e₁ e₂ + (1 - e₁²)(1 - e₂²) cos 2τ) / ((1 + e₁²)(1 + e₂²))))
    sent: e₁, signed axis ratio sent: 0 linear, 1 right-hand, -1 left-hand circular [1]
    received: e₂, signed axis ratio of the receiving antenna, as above [1]
    turn: τ, angle between the long axes [rad]
    Gives: L, loss [dB]
    Limits: axis ratios from -1 to 1; crossed polarisations, which take in nothing, raise ValueError
        (real antennas still take in a hundredth or so). Reflections turn one hand into the other.
    Source: polarisation efficiency as in IEEE Std 145 (from memory)

    >>> round(polarisation_loss(0.0, 1.0, 0.0), 2)
    3.01
    """
    if not (-1.0 <= sent <= 1.0 and -1.0 <= received <= 1.0):
        raise ValueError(
            "An axis ratio runs from -1, left-hand circular, over 0, linear, to 1, right-hand circular."
        )
    alike = 4.0 * sent * received + (1.0 - sent**2) * (1.0 - received**2) * math.cos(2.0 * turn)
    share = 0.5 * (1.0 + alike / ((1.0 + sent**2) * (1.0 + received**2)))
    if share < 1e-12:
        raise ValueError("Crossed polarisations take in nothing in theory: the loss has no figure.")
    return -10.0 * math.log10(min(share, 1.0))


def received_level(
    radiated_level: float, path_loss: float, polarisation_loss: float, gain: float
) -> float:
    """Level at the receiver's socket.

    Formula: L_r = L_e - L - L_p + G
    radiated_level: L_e, e.i.r.p. of the sender as a level [dBm]
    path_loss: L, loss of the path [dB]
    polarisation_loss: L_p, loss by unlike polarisation [dB]
    gain: G, gain of the receiving antenna over isotropic, its cable taken off [dB]
    Gives: L_r, received level [dBm]
    Limits: none.
    Source: Rec. ITU-R P.341, system loss (from memory)

    >>> round(received_level(15.2, 107.72, 3.01, 2.0), 2)
    -93.53
    """
    return radiated_level - path_loss - polarisation_loss + gain


def link_margin(received_level: float, sensitivity: float) -> float:
    """What a link has to spare.

    Formula: M = L_r - S
    received_level: L_r, level at the receiver's socket [dBm]
    sensitivity: S, lowest level that the receiver still works with [dBm]
    Gives: M, margin for bodies, trees, the ground and an antenna that points away [dB]
    Limits: none.
    Source: definition

    >>> round(link_margin(-80.0, -95.0), 1)
    15.0
    """
    return received_level - sensitivity
