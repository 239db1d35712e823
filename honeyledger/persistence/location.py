"""What to say about where a house stands: some folders are no good place for a living file."""

import ctypes
import sys
from collections.abc import Iterable
from pathlib import Path

from honeyledger.domain.refusals import Sentence

ON_NETWORK = Sentence(
    "house-on-network",
    "The house is on a network drive ({kind}), where two programs can damage it. Keep it on this "
    "computer, or use PostgreSQL for several.",
)
IN_SYNC_FOLDER = Sentence(
    "house-in-sync-folder",
    "The house is in {folder}, a folder that is copied to other computers by a sync program, "
    "which can damage it. Keep the house elsewhere and put only backups there.",
)
ONE_AT_A_TIME = Sentence(
    "one-at-a-time",
    "The drive of the house does not let several programs share a file (journal mode {mode}). "
    "Open it in one program at a time, or move it to a drive of this computer.",
)

# Types of file system that live on another machine: names from the mount(8) manual pages and the
# documentation of each.
_NETWORK_TYPES = frozenset(
    {
        *("nfs", "nfs4", "cifs", "smb2", "smb3", "smbfs", "9p", "afs", "afpfs", "ncpfs"),
        *("ceph", "glusterfs", "lustre", "beegfs", "davfs", "webdav", "vboxsf", "prl_fs"),
        *("fuse.sshfs", "fuse.rclone", "fuse.davfs", "fuse.s3fs", "fuse.glusterfs"),
        *("fuse.gvfsd-fuse", "fuse.vmhgfs-fuse", "fuse.smbnetfs"),
    }
)
# What sync programs leave in the folder they copy, or call it: values from memory.
_SYNC_MARKS = (
    *(".dropbox", ".dropbox.cache", ".stfolder", ".sync", ".owncloudsync.log"),
    *(".nextcloudsync.log", ".csync_journal.db", ".tmp.driveupload", ".tmp.drivedownload"),
)
_SYNC_NAMES = (
    *("dropbox", "onedrive", "google drive", "googledrive", "icloud drive", "iclouddrive"),
    *("nextcloud", "owncloud", "pcloud", "my drive"),
)
_SYNC_PARTS = ("Library/CloudStorage", "Library/Mobile Documents")
_DRIVE_REMOTE = 4  # GetDriveTypeW, Windows documentation


def warnings_of(path: Path, journal_mode: str) -> list[str]:
    """What the user should know about the place of a house's file."""
    told = []
    network = _network_type(path)
    if network:
        told.append(ON_NETWORK.text.format(kind=network))
    elif journal_mode != "wal":
        told.append(ONE_AT_A_TIME.text.format(mode=journal_mode))
    synced = sync_folder(path)
    if synced is not None:
        told.append(IN_SYNC_FOLDER.text.format(folder=synced))
    return told


def _network_type(path: Path) -> str:
    if sys.platform == "win32":
        return _windows_network(path)
    try:
        lines = Path("/proc/self/mountinfo").read_text("utf-8").splitlines()
    except OSError:
        return ""
    return network_mount(lines, path.resolve())


def network_mount(lines: Iterable[str], path: Path) -> str:
    """The type of the network file system a path is on, or "".

    Args:
        lines: of /proc/self/mountinfo, see proc(5): the fifth field is the mount point, the
            field after the lone hyphen the type; blanks are written as octal numbers.
    """
    best, kind = "", ""
    for line in lines:
        fields = line.split()
        point = fields[4].replace("\\040", " ") if len(fields) > 4 else ""
        if "-" in fields and path.is_relative_to(point or "?") and len(point) >= len(best):
            best, kind = point, fields[fields.index("-") + 1]
    return kind if kind in _NETWORK_TYPES else ""


def _windows_network(path: Path) -> str:
    if sys.platform == "win32":
        remote = ctypes.windll.kernel32.GetDriveTypeW(f"{path.drive}\\") == _DRIVE_REMOTE
        return "share" if remote or path.drive.startswith("\\\\") else ""
    return ""


def sync_folder(path: Path) -> Path | None:
    """The folder above a file that a sync program copies, or None."""
    for folder in path.parents:
        name = folder.name.casefold()
        known = any(name == one or name.startswith(f"{one} - ") for one in _SYNC_NAMES)
        if known or any((folder / mark).exists() for mark in _SYNC_MARKS):
            return folder
        if any(folder.parent.as_posix().endswith(part) for part in _SYNC_PARTS):
            return folder
    return None
