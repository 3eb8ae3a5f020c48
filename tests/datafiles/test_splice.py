"""A splice changes one key and nothing else."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.datafiles.reader import read_yaml_text
from planner.datafiles.splice import NotSplicedError, flow, plain, spliced

JOB = """# the job of a customer
format: 1
job:
  name: a name   # as told
goals: {boost: 1.1 bar}

as_built:
  # taken on a warm morning
  finished_bore: {unit: mm, readings: {1: 86.5}}   # first pass

# the end
"""


def test_an_existing_value_is_replaced_and_all_comments_stay():
    text = spliced(JOB, ("as_built", "finished_bore", "readings", "1"), 86.502)
    assert text == JOB.replace("86.5}", "86.502}")


def test_a_new_key_stands_at_the_end_of_its_block_before_the_comment_that_follows():
    text = spliced(JOB, ("as_built", "top_ring_gap"), {"unit": "mm", "readings": {"1": 0.48}})
    line = "  top_ring_gap: {unit: mm, readings: {1: 0.48}}\n"
    assert text == JOB.replace("# first pass\n", f"# first pass\n{line}")


def test_a_new_key_goes_into_a_block_written_in_braces():
    text = spliced(JOB, ("goals", "fuel"), "premium")
    assert "goals: {boost: 1.1 bar, fuel: premium}\n" in text


def test_a_block_that_is_not_there_is_added_with_all_its_keys():
    text = spliced(JOB, ("progress", "crack_test_block"), {"done": "2027-01-12", "by": "A. Roe"})
    assert text.endswith(
        "# first pass\nprogress: {crack_test_block: {done: 2027-01-12, by: A. Roe}}\n\n# the end\n"
    )


def test_an_empty_key_takes_its_first_value():
    assert spliced("a: 1\nb:\nc: 2\n", ("b", "x"), 3) == "a: 1\nb: {x: 3}\nc: 2\n"


def test_a_long_block_is_broken_one_line_a_key():
    readings = {str(each): [86.501, 86.502, 86.503] for each in range(1, 5)}
    text = spliced("a: 1\n", ("as_built",), {"finished_bore": {"readings": readings}})
    assert max(len(line) for line in text.splitlines()) <= 99
    assert plain(read_yaml_text(text, "t")) == {
        "a": 1,
        "as_built": {"finished_bore": {"readings": readings}},
    }


def test_a_block_with_comments_inside_is_not_flattened():
    text = "a:\n  b: 1   # why one\n  c: 2\n"
    with pytest.raises(NotSplicedError, match="comments that would be lost"):
        spliced(text, ("a",), {"x": 1})


def test_a_path_through_a_single_value_is_refused():
    with pytest.raises(NotSplicedError, match=r"job\.name\.first was not changed: job\.name is"):
        spliced(JOB, ("job", "name", "first"), "x")


def test_a_file_without_a_last_line_end_gets_one():
    assert spliced("a: 1", ("b",), 2) == "a: 1\nb: 2\n"


def test_windows_line_ends_and_the_byte_order_mark_stay():
    text = spliced("\ufeffa: 1\r\nb: 2\r\n", ("a",), 5)
    assert text == "\ufeffa: 5\r\nb: 2\r\n"


_WORDS = st.text(st.characters(min_codepoint=32, max_codepoint=0x2FF), max_size=12)
_VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-999, 999) | st.floats(-9, 9, width=32) | _WORDS,
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.from_regex(r"[a-z_]{1,8}", fullmatch=True), inner, max_size=3)
    ),
    max_leaves=8,
)


@given(_VALUES)
def test_any_value_reads_back_as_it_was_written(value):
    text = spliced(JOB, ("given", "piston_to_wall"), value)
    assert text.startswith(JOB[: JOB.index("\n# the end")])
    read = plain(read_yaml_text(text, "t"))
    assert read["given"]["piston_to_wall"] == value


@given(_WORDS)
def test_any_word_is_written_so_that_it_is_read_as_a_word(word):
    assert plain(read_yaml_text(f"x: {flow(word)}", "t")) == {"x": word}
