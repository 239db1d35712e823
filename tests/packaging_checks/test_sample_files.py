"""The sample season's tables are what their script writes, to the byte."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_the_script_writes_the_tables_again(tmp_path: Path) -> None:
    script = ROOT / "packaging" / "make_sample.py"
    subprocess.run([sys.executable, str(script), str(tmp_path)], check=True, timeout=60)
    written = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    tables = (ROOT / "resources" / "sample").glob("*.csv")
    kept = {path.name: path.read_bytes() for path in tables}
    assert written.keys() == kept.keys()
    changed = sorted(name for name in written if written[name] != kept[name])
    assert not changed, f"run packaging/make_sample.py again: {', '.join(changed)} differ"
