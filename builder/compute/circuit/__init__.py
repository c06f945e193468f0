"""The circuit: contacts, nets, pinout, what feeds what, volts and limits of rails."""
