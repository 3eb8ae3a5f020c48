import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from planner.datafiles import reader
from planner.datafiles.nodes import Mapping, Scalar, Sequence
from planner.datafiles.reader import read_yaml, read_yaml_text
from planner.errors import Place, ProblemsFound


@pytest.fixture(params=["CSafeLoader", "SafeLoader"])
def loader(request, monkeypatch):
    """The C parser, and the slow one for machines where the C one was not built."""
    monkeypatch.setattr(reader, "LOADER", getattr(yaml, request.param))


def problems(text):
    with pytest.raises(ProblemsFound) as found:
        read_yaml_text(text, "f.yaml")
    return found.value.problems


def plain(node):
    """Turn nodes into plain data."""
    if isinstance(node, Scalar):
        return node.value
    if isinstance(node, Sequence):
        return [plain(each) for each in node.items]
    return {key.text: plain(value) for key, value in node.entries}


def test_values_keep_their_places_and_spans(loader):
    text = "goals:\n  boost: 1.1 bar\n  bores: {1: [86.07, 86.05]}\n"
    root = read_yaml_text(text, "job.yaml")
    boost = root.get("goals").get("boost")
    assert (boost.value, str(boost.place)) == ("1.1 bar", "job.yaml:2:10")
    assert text[slice(*boost.span)] == "1.1 bar"
    assert str(root.get("goals").key_place("boost")) == "job.yaml:2:3"
    reading = root.get("goals").get("bores").get("1").items[1]
    assert (reading.value, str(reading.place)) == (86.05, "job.yaml:3:22")
    assert text[slice(*reading.span)] == "86.05"


def test_a_block_ends_with_its_last_value_not_with_the_blank_lines_after(loader):
    text = "a:\n  b: 1\n  c: x y  \n\n\nd: 2\n"
    node = read_yaml_text(text, "f").get("a")
    assert text[slice(*node.span)] == "b: 1\n  c: x y"


def test_columns_count_characters_not_bytes(loader):
    root = read_yaml_text("µm: {größe: 1, next: 2}\n", "f")
    assert root.get("µm").get("next").place == Place("f", 1, 22)


def test_windows_line_ends_count_once(loader):
    text = "a: 1\r\nb: 2\r\n"
    node = read_yaml_text(text, "f").get("b")
    assert node.place == Place("f", 2, 4)
    assert text[slice(*node.span)] == "2"


def test_keys_and_missing_keys(loader):
    root = read_yaml_text("b: 1\na: 2\n", "f")
    assert root.keys() == ("b", "a")
    assert root.get("z") is None
    assert root.key_place("z") == root.place == Place("f", 1, 1)


def test_quoted_text_stays_text(loader):
    root = read_yaml_text("a: \"1.5\"\nb: 'no'\nc: 1.5\n", "f")
    assert [root.get(each).value for each in "abc"] == ["1.5", "no", 1.5]
    assert [root.get(each).quoted for each in "abc"] == [True, True, False]


def test_block_text_is_kept(loader):
    root = read_yaml_text("note: |\n  one\n  two: 2\nnext: >-\n  a\n  b\n", "f")
    assert plain(root) == {"note": "one\ntwo: 2\n", "next": "a b"}


def test_a_list_at_the_top_is_read(loader):
    assert plain(read_yaml_text("- 1\n- [a, {b: ~}]\n", "f")) == [1, ["a", {"b": None}]]


def test_a_name_may_be_written_without_a_value_in_block_style(loader):
    assert plain(read_yaml_text("a:\nb: {c: }\n", "f")) == {"a": None, "b": {"c": None}}


def test_every_duplicate_key_is_told_with_the_first_one(loader):
    found = problems('a: 1\nb:\n  c: 1\n  c: 2\na: 3\n"b": 4\n')
    assert [str(each.place) for each in found] == ["f.yaml:4:3", "f.yaml:5:1", "f.yaml:6:1"]
    assert found[1].what == "'a' stands here and in line 1"


def test_anchors_aliases_tags_and_merges_are_all_refused_in_one_run(loader):
    found = problems("a: &x {y: 1}\nb: *x\nc: !!str 1\nd:\n  <<: {z: 1}\n")
    said = " | ".join(each.what for each in found)
    for part in ("the anchor &x", "the alias *x", "the tag !!str", "the merge key <<"):
        assert part in said
    assert [each.place.line for each in found] == [1, 2, 3, 5]


def test_a_quoted_merge_sign_is_a_name_like_any_other(loader):
    assert plain(read_yaml_text('"<<": 1\n', "f")) == {"<<": 1}


def test_an_empty_name_is_refused(loader):
    (found,) = problems('a: {"": 3}\n')
    assert (str(found.place), found.what) == ("f.yaml:1:5", "a name is missing before the colon")


def test_a_second_document_is_refused(loader):
    (found,) = problems("a: 1\n---\nb: *nothing\n")
    assert (str(found.place), found.what) == ("f.yaml:2:1", "a second document starts here")


def test_a_document_end_and_the_right_version_are_no_problem(loader):
    assert plain(read_yaml_text("%YAML 1.2\n---\na: 1\n...\n", "f")) == {"a": 1}


@pytest.mark.parametrize("head", ["%YAML 1.1", "%TAG ! tag:example.org,2000:"])
def test_a_directive_for_other_rules_is_refused(loader, head):
    (found,) = problems(f"{head}\n---\na: 1\n")
    assert "a % directive" in found.what


@pytest.mark.parametrize("text", ["", "\n\n", "# only a note\n", "\ufeff"])
def test_an_empty_file_is_told(loader, text):
    (found,) = problems(text)
    assert found.what == "the file holds nothing"


def test_problems_before_the_parser_stops_are_told_too(loader):
    found = problems("a: 1\na: 2\nb: @x\n")
    assert [each.place.line for each in found] == [2, 3]


def test_deep_nests_are_cut_off(loader):
    fifty = "[" * 50 + "]" * 50
    assert isinstance(read_yaml_text(fifty, "f"), Sequence)
    (found,) = problems("[" * 51 + "]" * 51)
    assert found.what == "values are nested more than 50 deep here"


@pytest.mark.slow
def test_a_hostile_nest_is_refused_at_once():
    (found,) = problems("[" * (2 * 1024 * 1024))
    assert "nested more than 50 deep" in found.what
    assert found.place.line == 1


def test_a_large_file_is_refused_unread(tmp_path):
    path = tmp_path / "huge.yaml"
    path.write_bytes(b"# " + b"x" * (2 * 1024 * 1024))
    with pytest.raises(ProblemsFound, match="larger than 2 MiB"):
        read_yaml(path)
    with pytest.raises(ProblemsFound, match="larger than 2 MiB"):
        read_yaml_text("#" * (2 * 1024 * 1024 + 1), "f")


def test_a_missing_file_and_a_folder_are_told_in_words(tmp_path):
    for path in (tmp_path / "none.yaml", tmp_path):
        with pytest.raises(ProblemsFound) as found:
            read_yaml(path)
        assert str(path) in str(found.value)
        assert "cannot be read" in str(found.value)


def test_a_byte_order_mark_is_dropped(tmp_path):
    path = tmp_path / "bom.yaml"
    path.write_bytes("\ufeffa: 1\n".encode())
    root = read_yaml(path)
    assert (root.keys(), root.span) == (("a",), (0, 4))


def test_bytes_that_are_not_utf8_are_placed(tmp_path):
    path = tmp_path / "latin.yaml"
    path.write_bytes(b"a: 1\nb: gr\xf6\xdfe\n")
    with pytest.raises(ProblemsFound) as found:
        read_yaml(path)
    (problem,) = found.value.problems
    assert (problem.place.line, problem.place.column) == (2, 6)
    assert "byte 0xf6 is not UTF-8" in problem.what


def test_utf16_is_named(tmp_path):
    path = tmp_path / "wide.yaml"
    path.write_bytes("a: 1\n".encode("utf-16"))
    with pytest.raises(ProblemsFound, match="saved as UTF-16"):
        read_yaml(path)


def test_every_control_character_is_placed(loader):
    found = problems("a: \x00\nb: x\x07y\nc: \u2028\n")
    assert [str(each.place) for each in found] == ["f.yaml:1:4", "f.yaml:2:5", "f.yaml:3:4"]
    assert "U+0007" in found[1].what


def test_no_more_than_fifty_problems_are_told():
    assert len(problems("a: 1\n" * 500)) == 50
    assert len(problems("\x00" * 500)) == 50


@given(st.binary(max_size=200))
def test_no_bytes_end_in_a_traceback(tmp_path_factory, raw):
    path = tmp_path_factory.getbasetemp() / "any.yaml"
    path.write_bytes(raw)
    read_or_refuse(lambda: read_yaml(path))


@given(st.text(max_size=200))
def test_no_text_ends_in_a_traceback(text):
    read_or_refuse(lambda: read_yaml_text(text, "f"))


@given(st.text(alphabet="ab01.: -[]{},&*!|>'\"%@#?~<\n\t\r=+", max_size=120))
def test_no_mangled_yaml_ends_in_a_traceback(text):
    read_or_refuse(lambda: read_yaml_text(text, "f"))


def read_or_refuse(read):
    """A file is read, or refused with problems that have a fix and a place in the file."""
    found = ()
    node = None
    try:
        node = read()
    except ProblemsFound as refusal:
        found = refusal.problems
    assert all(each.fix and each.what for each in found)
    assert bool(found) != isinstance(node, Scalar | Sequence | Mapping)


@given(
    st.recursive(
        st.integers(-9999, 9999) | st.text(alphabet="abc ", min_size=1) | st.none(),
        lambda inner: (
            st.lists(inner, max_size=4)
            | st.dictionaries(st.text(alphabet="abcdef", min_size=1), inner, max_size=4)
        ),
        max_leaves=12,
    )
)
def test_what_is_dumped_reads_back(data):
    assert plain(read_yaml_text(yaml.safe_dump(data), "f")) == data
