"""Run by the runtime: packs what a device loads of it, by the Zstandard that it brings itself.

/python.wasm and /library.zip are packed to /python.bin and /library.bin. The runtime is pinned, so
the same files come of the same sources on every machine. A window of 4 MB: a larger one saves half
a per cent, and costs the device more memory and time as it unpacks (measured with fzstd 0.1.1).
"""

from importlib import import_module
from pathlib import Path

zstd = import_module("compression.zstd")  # Python 3.14 has it
LEVEL, WINDOW = 22, 22  # the highest, and the power of two of its bytes
PARAMETER = zstd.CompressionParameter
OPTIONS = {PARAMETER.compression_level: LEVEL, PARAMETER.window_log: WINDOW}

for given, packed in (("/python.wasm", "/python.bin"), ("/library.zip", "/library.bin")):
    Path(packed).write_bytes(zstd.compress(Path(given).read_bytes(), options=OPTIONS))
