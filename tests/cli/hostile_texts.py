"""Job files that nobody would write on purpose: for the program (hostile_test.py), and for the page (tests/pocket)."""


def texts(good, openings=1_000_000):
    """What is wrong, the text, the words that must come, and how many lines they are where that is told."""
    wall = good.split("[[opening]]")[0]
    yield ("nothing at all", "", "wall: is missing")
    yield ("256 MiB of zeros", b"\0" * (256 << 20), "text.toml:1:1: not valid TOML", 1)
    yield ("too many openings", wall + "[[opening]]\n" * openings, f"opening: must be at most 100000; found {openings}")
    yield ("100,000 keys that there aren't", wall + "".join(f"k{i} = 1\n" for i in range(100_000)), "more errors")
    yield ("a million lists in one another", "a = " + "[" * 1_000_000, "nested value depth", 1)
    yield ("a million tables in one another", "a = " + "{a = " * 1_000_000, "text.toml:1:", 1)
    yield ("a key of a million parts", "a." * 1_000_000 + "a = 1", "text.toml:1:", 1)
    yield ("a title of 10 million letters", good.replace("Workshop", "W" * 10_000_000), "at most 200 characters")
    yield ("a key of 10 million letters", good.replace("title ", "t" * 10_000_000), "job.ttt")
    yield ("a line of 200 MB in a comment", good + "#" + "x" * 200_000_000 + "\nwrong = 1\n", "wrong")
    yield ("bytes that are no UTF-8", good.encode().replace(b"Workshop", b"\xff\xfe"), "not UTF-8", 1)
    yield ("bytes of a half surrogate", good.encode().replace(b"Workshop", b"\xed\xa0\x80"), "not UTF-8", 1)
    yield ("UTF-16", good.encode("utf-16"), "text.toml:1:1: not UTF-8", 1)
    yield ("a zero byte in a title", good.replace("Workshop", "\0"), "control characters", 1)
    yield ("ends of lines without a line feed", good.replace("\n", "\r"), "text.toml:1:", 1)
    for number in ("1e308", "-1e308", "-0.0", "nan", "-inf", "9223372036854775807"):
        yield (f"a wall as long as {number}", good.replace("length   = 3600", f"length   = {number}"),
            "wall[0].length: must be from 100 to 100000 mm")
        yield (f"a reading of {number}", good.replace("[1529,", f"[{number},"), "opening[0].measured.widths[0]: must be")
    yield ("1e400", good.replace("length   = 3600", "length   = 1e400"), "text.toml:10:", 1)
    yield ("a whole number of 30 digits", good.replace("= 3600", "= " + "9" * 30), "text.toml:10:", 1)
