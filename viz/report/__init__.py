"""The report: every answer about one scenario on one page that can be kept, printed and read aloud."""
