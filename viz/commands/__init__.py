"""One thin file a command: parse, call one study, format, echo. Each holds one ``command``."""
