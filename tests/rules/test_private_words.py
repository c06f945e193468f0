"""What should not be published, in the spellings in which people note such things; and plain words
about the same things, which are none. Common practice, no source.
"""

import pytest

from builder.publish.workers.bounded import bounded
from builder.rules.data._private_words import private_in

SPELLED = [
    "link key (otter)",
    "Pairing code: 4711",
    "pair code 4711",
    "bind code #4711",
    "bindphrase: otter",
    "binding phrase otter-lake-7",
    "binding phrase → otter",
    "binding-phrase „otter“",
    "the bind-phrase is otter lake",
    'Bound with the phrase "otter"',
    "bound with phrase otter",
    "phrase for binding: otter",
    "UID=[12 33 44 5 6 7]",
    "UID bytes 0x0c 0x21 0x2c 0x05",
    "binding UID {12,33,44,5}",
    "passwd: otter",
    "password otter",
    "Password otter lake",
    "Wi-Fi password otter.",
    "goggles: password otter, channel 3",
    "Join its network with password otter",
    "network pass otter7",
    "passkey otter",
    "wpa2 key: otterlake",
    "pw otter",
    "binding phrase otter",
    "Its binding phrase otter lake.",
    "passcode: 1234",
    "PIN: 1234",
    "pin code 1234",
    "secret word: otter",
    "serial: AB12345",
    "SN: AB12345",
    "operator ID FIN87astrdge12k8",
    "registration id ABC12345",
    "e-ID: DEU1234567890",
    "N52.12345 E4.56789",
    "52°12'34.5\"N 4°34'56.7\"E",
    "lat 52.12345 lon 4.56789",
]
PLAIN = [
    '"/etc/passwd": left',
    "Set the binding phrase in both ends, then bind.",
    "Pick a binding phrase of your own.",
    "The link key is on the back.",
    "A binding phrase is needed.",
    "The binding phrase is not published.",
    "Pairing: hold the button for 3 s.",
    "Serial number on the underside of the board.",
    "Serial 1 serves the receiver.",
    "serial: 1",
    "SN-2 screws",
    "Home point is set at arming.",
    "It passes the password test.",
    "No password needed.",
    "no password needed",
    "Password protected.",
    "Password first, then the channel.",
    "The network asks for a password twice.",
    "Without password.",
    "Type the password slowly.",
    "Password not published.",
    "Login with password only.",
    "Binding phrase set, propellers off.",
    "Link key on the sticker.",
    "Pairing code sticker",
    "The fish pass otters use.",
    "Password of your own choice.",
    "Password and channel are told to the pilot.",
    "Operator number goes on the frame.",
    "Pin 4 is ground.",
    "PIN: ground",
    "4.1234, 3.5678 V",
    "Where do I set the binding phrase?",
]


@pytest.mark.parametrize("text", SPELLED)
def test_it_is_found_however_it_is_spelled(text: str) -> None:
    assert list(private_in(text))


@pytest.mark.parametrize("text", PLAIN)
def test_plain_words_about_it_are_none(text: str) -> None:
    assert not list(private_in(text))


@pytest.mark.parametrize(
    "label",
    ["binding phrase", "uid", "pin", "lat", "N12.3456", "serial", "bound with phrase", "phrase"],
)
def test_long_runs_are_looked_through_once(label: str) -> None:
    with bounded(10):
        for filler in (" ", "1 ", "-", "0x1,", ": "):
            list(private_in(f"{label}{filler * 9_000}x."))
