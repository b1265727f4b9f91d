"""A file being replaced is whole at every instant: whatever fails, whenever the program is killed."""

from __future__ import annotations

import errno
import os
import random
import signal
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from grillestack.storage.atomic import replace_file, sweep_leftovers

CHECKOUT = Path(__file__).resolve().parents[2]
OLD, NEW = b"old\n" * 60_000, b"new content\n" * 40_000

posix = pytest.mark.skipif(os.name != "posix", reason="modes, links and signals of POSIX")


@pytest.fixture
def kept(tmp_path):
    path = tmp_path / "kept.grillestack"
    path.write_bytes(OLD)
    return path


def _names(path: Path) -> list[str]:
    return sorted(entry.name for entry in path.parent.iterdir())


def test_a_new_file_holds_the_content_and_nothing_is_left_beside_it(tmp_path):
    path = tmp_path / "new.grillestack"
    replace_file(path, NEW)
    assert path.read_bytes() == NEW
    assert _names(path) == ["new.grillestack"]


def test_an_old_file_is_replaced(kept):
    replace_file(kept, NEW)
    assert kept.read_bytes() == NEW
    assert _names(kept) == [kept.name]


def test_an_empty_content_is_written_as_such(kept):
    replace_file(kept, b"")
    assert kept.read_bytes() == b""


@posix
@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664])
def test_the_mode_of_the_file_is_kept(kept, mode):
    kept.chmod(mode)
    replace_file(kept, NEW)
    assert kept.stat().st_mode & 0o777 == mode


@posix
def test_a_new_file_gets_the_mode_the_user_gives_new_files(tmp_path):
    before = os.umask(0o027)
    try:
        replace_file(tmp_path / "new", NEW)
    finally:
        os.umask(before)
    assert (tmp_path / "new").stat().st_mode & 0o777 == 0o640


@posix
def test_a_link_stays_a_link_and_the_file_behind_it_is_replaced(kept, tmp_path):
    link = tmp_path / "link.grillestack"
    link.symlink_to(kept)
    replace_file(link, NEW)
    assert link.is_symlink()
    assert kept.read_bytes() == NEW


def test_a_name_as_long_as_the_file_system_allows_can_be_written(tmp_path):
    path = tmp_path / ("n" * 255)
    replace_file(path, NEW)
    assert path.read_bytes() == NEW


@posix
def test_a_file_marked_as_read_only_is_refused_and_kept(kept):
    kept.chmod(0o444)
    with pytest.raises(PermissionError):
        replace_file(kept, NEW)
    assert kept.read_bytes() == OLD


def test_a_folder_is_refused(tmp_path):
    with pytest.raises(IsADirectoryError):
        replace_file(tmp_path, NEW)


@posix
def test_a_pipe_is_refused_and_stays(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(OSError, match="Invalid"):
        replace_file(tmp_path / "pipe", NEW)
    assert (tmp_path / "pipe").is_fifo()


def test_a_missing_folder_is_refused(tmp_path):
    with pytest.raises(FileNotFoundError):
        replace_file(tmp_path / "nowhere" / "a", NEW)


@pytest.mark.parametrize("step", ["open", "write", "fsync", "replace"])
def test_a_failure_at_any_step_leaves_the_old_file_and_nothing_beside_it(kept, monkeypatch, step):
    def fail(*_args, **_kwargs):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    with monkeypatch.context() as patched:
        patched.setattr(os, step, fail)
        with pytest.raises(OSError, match="No space"):
            replace_file(kept, NEW)
    assert kept.read_bytes() == OLD
    assert _names(kept) == [kept.name]


def test_a_disk_that_fills_up_half_way_leaves_the_old_file(kept, monkeypatch):
    write = os.write
    written = []

    def half(descriptor, rest):
        if written:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        written.append(write(descriptor, rest[: len(rest) // 2]))
        return written[0]

    with monkeypatch.context() as patched:
        patched.setattr(os, "write", half)
        with pytest.raises(OSError, match="No space"):
            replace_file(kept, NEW)
    assert kept.read_bytes() == OLD
    assert _names(kept) == [kept.name]


def test_a_system_that_writes_in_small_pieces_still_writes_all(kept, monkeypatch):
    write = os.write
    monkeypatch.setattr(os, "write", lambda descriptor, rest: write(descriptor, rest[:70_001]))
    replace_file(kept, NEW)
    monkeypatch.undo()
    assert kept.read_bytes() == NEW


@posix
def test_the_content_reaches_the_disk_before_the_name_and_the_name_before_the_save_is_done(kept, monkeypatch):
    steps = []
    fsync, replace = os.fsync, os.replace

    def synced(descriptor):
        steps.append("folder" if stat.S_ISDIR(os.fstat(descriptor).st_mode) else "file")
        fsync(descriptor)

    def replaced(*args, **kwargs):
        steps.append("name")
        replace(*args, **kwargs)

    monkeypatch.setattr(os, "fsync", synced)
    monkeypatch.setattr(os, "replace", replaced)
    replace_file(kept, NEW)
    assert steps == ["file", "name", "folder"]


def test_a_folder_that_cannot_be_synced_does_not_spoil_the_save(kept, monkeypatch):
    fsync, calls = os.fsync, []

    def first_only(descriptor):
        calls.append(descriptor)
        if len(calls) > 1:
            raise OSError(errno.EINVAL, os.strerror(errno.EINVAL))
        fsync(descriptor)

    monkeypatch.setattr(os, "fsync", first_only)
    replace_file(kept, NEW)
    assert kept.read_bytes() == NEW


KILLED_AT = """
import os, signal, sys
from pathlib import Path
from grillestack.storage.atomic import replace_file
step, path = sys.argv[1], Path(sys.argv[2])
def die(*_args, **_kwargs):
    os.kill(os.getpid(), signal.SIGKILL)
write, replace = os.write, os.replace
if step == "half written":
    os.write = lambda descriptor, rest: (write(descriptor, rest[: len(rest) // 2]), die())
elif step == "written":
    os.fsync = die
elif step == "before replacing":
    os.replace = die
elif step == "after replacing":
    os.replace = lambda *args, **kwargs: (replace(*args, **kwargs), die())
replace_file(path, b"new content\\n" * 40_000)
"""


@posix
@pytest.mark.parametrize("step", ["half written", "written", "before replacing", "after replacing"])
def test_a_program_killed_at_a_step_leaves_a_whole_file_and_the_sweep_cleans_up(kept, step):
    done = subprocess.run([sys.executable, "-c", KILLED_AT, step, str(kept)], cwd=CHECKOUT, check=False, timeout=60)
    assert done.returncode == -signal.SIGKILL
    assert kept.read_bytes() == (NEW if step == "after replacing" else OLD)
    left = [name for name in _names(kept) if name != kept.name]
    assert len(left) == (0 if step == "after replacing" else 1)
    sweep_leftovers(kept, older_than_s=-1.0)
    assert _names(kept) == [kept.name]


WRITES_ON = """
import sys
from pathlib import Path
from grillestack.storage.atomic import replace_file
path, contents = Path(sys.argv[1]), (b"old\\n" * 60_000, b"new content\\n" * 40_000)
for turn in range(1_000_000):
    replace_file(path, contents[turn % 2])
    print(turn, flush=True)
"""


def _kill_while_writing(path: Path, after_writes: int) -> None:
    with subprocess.Popen([sys.executable, "-c", WRITES_ON, str(path)], cwd=CHECKOUT, stdout=subprocess.PIPE) as writer:
        assert writer.stdout is not None
        for _ in range(after_writes):
            assert writer.stdout.readline()
        writer.kill()


def _check_kills(path: Path, kills: int) -> None:
    chance = random.Random(20)
    for _ in range(kills):
        _kill_while_writing(path, chance.randint(1, 12))
        assert path.read_bytes() in (OLD, NEW)
    sweep_leftovers(path, older_than_s=-1.0)
    assert _names(path) == [path.name]


def test_a_writer_killed_at_a_random_instant_never_leaves_a_torn_file(kept):
    _check_kills(kept, kills=4)


@pytest.mark.nightly
def test_a_writer_killed_many_times_never_leaves_a_torn_file(kept):
    _check_kills(kept, kills=60)


def test_the_sweep_spares_young_leftovers_other_files_and_leftovers_of_others(kept, monkeypatch):
    with monkeypatch.context() as patched:
        # Nothing is put in its place, so the temporary file stays as if the program had been killed.
        patched.setattr(os, "replace", lambda *_args, **_kwargs: None)
        replace_file(kept, NEW)
    (left,) = [kept.with_name(name) for name in _names(kept) if name != kept.name]
    others = [kept.with_name(name) for name in (".grillestack-0123456789ab-x.tmp", "own.tmp", left.name[:-4])]
    for other in others:
        other.write_bytes(b"")
        os.utime(other, (0, 0))
    sweep_leftovers(kept)
    assert left.exists()
    os.utime(left, (0, 0))
    sweep_leftovers(kept)
    assert not left.exists()
    assert all(other.exists() for other in others)


def test_sweeping_where_there_is_no_folder_passes_in_silence(tmp_path):
    sweep_leftovers(tmp_path / "nowhere" / "a")
    assert list(tmp_path.iterdir()) == []
