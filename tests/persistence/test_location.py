from pathlib import Path

import pytest

from honeyledger.persistence.location import network_mount, sync_folder, warnings_of
from honeyledger.persistence.store import open_store

MOUNTS = (
    "22 1 254:0 / / rw,relatime shared:1 - ext4 /dev/vda rw",
    "30 22 0:26 / /srv/share rw,relatime shared:2 - nfs4 north:/honey rw",
    "31 22 0:27 / /srv/share/disk rw shared:3 master:1 - xfs /dev/sdb rw",
    "32 22 0:28 / /media/the\\040house rw - cifs //north/honey rw",
    "33 22 0:29 / /srv/keeper/far rw - fuse.sshfs north:/ rw",
)


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/srv/keeper/north.house", ""),
        ("/srv/share/north.house", "nfs4"),
        ("/srv/shared/north.house", ""),
        ("/srv/share/disk/north.house", ""),
        ("/media/the house/north.house", "cifs"),
        ("/srv/keeper/far/north.house", "fuse.sshfs"),
    ],
)
def test_the_nearest_mount_decides(path: str, kind: str) -> None:
    assert network_mount(MOUNTS, Path(path)) == kind


def test_lines_that_say_nothing_are_passed_over() -> None:
    assert network_mount(["", "1 2 3"], Path("/x")) == ""


def test_a_synced_folder_is_known_by_what_its_program_leaves_there(tmp_path: Path) -> None:
    folder = tmp_path / "papers" / "honey"
    folder.mkdir(parents=True)
    house = folder / "north.house"
    assert sync_folder(house) is None
    (tmp_path / "papers" / ".stfolder").mkdir()
    assert sync_folder(house) == tmp_path / "papers"


def test_a_synced_folder_is_known_by_its_name(tmp_path: Path) -> None:
    assert sync_folder(tmp_path / "OneDrive - North" / "x.house") == tmp_path / "OneDrive - North"
    below = tmp_path / "Library" / "CloudStorage" / "Any"
    assert sync_folder(below / "honey" / "x.house") == below
    assert sync_folder(tmp_path / "drives" / "x.house") is None


def test_the_user_is_told_and_no_brand_is_named(tmp_path: Path) -> None:
    (tmp_path / ".stfolder").mkdir()
    store = open_store(str(tmp_path / "north.house"), create=True)
    told = store.warnings()
    store.close()
    assert told == [
        f"The house is in {tmp_path}, a folder that is copied to other computers by a sync "
        "program, which can damage it. Keep the house elsewhere and put only backups there."
    ]


def test_a_drive_that_cannot_share_is_told(tmp_path: Path) -> None:
    assert warnings_of(tmp_path / "x.house", "wal") == []
    assert warnings_of(tmp_path / "x.house", "delete") == [
        "The drive of the house does not let several programs share a file (journal mode delete). "
        "Open it in one program at a time, or move it to a drive of this computer."
    ]


def test_a_network_drive_is_told(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(
        "honeyledger.persistence.location.network_mount", lambda lines, path: "nfs4"
    )
    assert warnings_of(tmp_path / "x.house", "wal") == [
        "The house is on a network drive (nfs4), where two programs can damage it. Keep it on "
        "this computer, or use PostgreSQL for several."
    ]
