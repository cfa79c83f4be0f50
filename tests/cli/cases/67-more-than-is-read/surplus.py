"""A PNG of six grey pixels, with far more behind them."""

import sys
import zlib


def chunk(kind, body):
    return len(body).to_bytes(4, "big") + kind + body + zlib.crc32(kind + body).to_bytes(4, "big")


header = (3).to_bytes(4, "big") + (2).to_bytes(4, "big") + bytes((8, 0, 0, 0, 0))
pixels = zlib.compress(b"\0abc\0def" + bytes(16_000_000), 9)
sys.stdout.buffer.write(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", pixels) + chunk(b"IEND", b""))
