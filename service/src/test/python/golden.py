"""Prints the golden vectors of the ledger; the Java code must give the same text.

    python3 golden.py > ../resources/ledger/golden-python.txt

With other names as arguments it gives the vectors of another deployment of the same design:

    python3 golden.py PREFIX ORIGIN

Nothing here is shared with the Java code: hashlib, and Ed25519 from the equations of RFC 8032.
"""
import base64
import hashlib
import struct
import sys
import uuid

import ed25519

PREFIX, ORIGIN = (sys.argv[1:] + ["evenside/commit/v1", "ledger.evenside.example/clinic-a"])[:2]
# The key of RFC 8032 section 7.1, TEST 2: published, so for tests only.
SEED = bytes.fromhex("4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb")
ID = "0190b2f4-5c1e-7c4a-9d2e-4f0a1b2c3d"
DECISION = b'{"decisionId":"0190b2f4-5c1e-7c4a-9d2e-4f0a1b2c3d50","outcome":"not-ready"}'
INPUTS = b'{"batteryId":"0190b2f4-5c1e-7c4a-9d2e-4f0a1b2c3d4f"}'
CRITERIA = b'{"id":"rts","version":"2.1.0"}'
ZERO = bytes(32)


def sha256(b):
    return hashlib.sha256(b).digest()


def commitment(salt, document):
    return sha256(PREFIX.encode() + b"\0" + salt + document)


def leaf(kind, at, own, refers, criteria, document, inputs):
    none = bytes(16)
    return (struct.pack(">BBQ", 1, kind, at) + uuid.UUID(ID + own).bytes
            + (uuid.UUID(ID + refers).bytes if refers else none) + criteria + document + inputs)


def node(left, right):
    return sha256(b"\1" + left + right)


def b64(b):
    return base64.b64encode(b).decode()


criteria = sha256(CRITERIA)
decision = commitment(bytes(range(32)), DECISION)
inputs = commitment(bytes(range(32, 64)), INPUTS)
leaves = [leaf(2, 1741946400000, "01", None, criteria, ZERO, ZERO),
          leaf(1, 0x195941AAD33, "50", None, criteria, decision, inputs),
          leaf(4, 1741990000000, "60", "50", ZERO, ZERO, ZERO)]
hashes = [sha256(b"\0" + one) for one in leaves]
root = node(node(hashes[0], hashes[1]), hashes[2])
public = b"\1" + ed25519.public_key(SEED)
key_id = sha256(ORIGIN.encode() + b"\n" + public)[:4]
head = f"{ORIGIN}\n3\n{b64(root)}\n"
signature = b64(key_id + ed25519.sign(SEED, head.encode()))

print("criteria", criteria.hex())
print("decision", decision.hex())
print("inputs", inputs.hex())
for i in range(3):
    print("leaf", i, leaves[i].hex())
    print("leaf-hash", i, hashes[i].hex())
print("root", root.hex())
print("key", f"{ORIGIN}+{key_id.hex()}+{b64(public)}")
print()
print(f"c2sp.org/tlog-proof@v1\nindex 1\n{b64(hashes[0])}\n{b64(hashes[2])}\n")
print(head)
print(f"\u2014 {ORIGIN} {signature}")
