"""Every table and key is found on its line, whatever stands round it."""

from sim.scenario.toml_lines import scan

TEXT = '''# comment
title = "a # b"
note = """
[wing]
span = 1
"""
[wing] # here
span = "1 m"
"quoted key" = 1
  sweep.root = 2
list = [
  1, # ]
  "]",
]
[powerplant."the four".parts]
x = 1
[[item]]
name = "a"
[item.more]
y = 1
[[item]]
name = "b"
'''


def test_where_each_stands():
    assert scan(TEXT).first == {
        ("title",): 2,
        ("note",): 3,
        ("wing",): 7,
        ("wing", "span"): 8,
        ("wing", "quoted key"): 9,
        ("wing", "sweep", "root"): 10,
        ("wing", "list"): 11,
        ("powerplant", "the four", "parts"): 15,
        ("powerplant", "the four", "parts", "x"): 16,
        ("item",): 17,
        ("item", 0): 17,
        ("item", 0, "name"): 18,
        ("item", 0, "more"): 19,
        ("item", 0, "more", "y"): 20,
        ("item", 1): 21,
        ("item", 1, "name"): 22,
    }


def test_a_key_that_is_not_there_is_told_at_its_table():
    lines = scan(TEXT)
    assert lines.of(("wing", "chord")) == 7
    assert lines.of(("powerplant", "the four", "parts", "z")) == 15
    assert lines.of(("gun", "margin")) == 0


def test_what_stands_twice():
    lines = scan("a = 1\na = 2\n[b]\nc = 1\n[b]\nc = 2\n[[d]]\n[[d]]\n")
    assert lines.twice == [(("a",), 2), (("b",), 5)]
