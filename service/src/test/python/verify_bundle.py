"""Checks evidence bundles with nothing of the Java code: the second verifier.

    python3 verify_bundle.py [--key VERIFIER_KEY_LINE] BUNDLE...

Prints one line per bundle, "FILE: ok" or "FILE: CHECK: reason", and ends with 1 if any fails. The
names of the checks are those of the command `verify`. It does not compute decisions again.
"""
import base64
import hashlib
import json
import sys

import ed25519

PREFIX = b"evenside/commit/v1\0"


class Failed(Exception):
    pass


def demand(holds, check, reason):
    if not holds:
        raise Failed(f"{check}: {reason}")


def unb64(text, length=None):
    raw = base64.b64decode(text, validate=True)
    if base64.b64encode(raw).decode() != text or (length is not None and len(raw) != length):
        raise ValueError("base64")
    return raw


def sha256(*parts):
    return hashlib.sha256(b"".join(parts)).digest()


def node(left, right):
    return sha256(b"\1", left, right)


def signed_head(note, keys):
    """origin, size, root of a checkpoint signed by one of the verifier-key lines."""
    text, _, lines = note.rpartition("\n\n")
    text += "\n"
    origin, size, root, rest = text.split("\n")
    demand(rest == "" and size == str(int(size)), "key", "not a checkpoint")
    for key in keys:
        name, key_id, public = key.split("+", 2)
        typed = unb64(public, 33)
        demand(typed[0] == 1, "key", "not Ed25519")
        demand(sha256(name.encode(), b"\n", typed)[:4].hex() == key_id, "key", "wrong key id")
        for line in lines.splitlines():
            dash, signer, signature = line.split(" ")
            raw = unb64(signature)
            if (dash == "\u2014" and signer == name == origin and raw[:4].hex() == key_id
                    and ed25519.verifies(typed[1:], text.encode(), raw[4:])):
                return origin, int(size), unb64(root, 32)
    raise Failed("key: not signed by a trusted key")


def included(leaf, index, size, hashes, root):
    """RFC 9162 section 2.1.3.2."""
    if index >= size:
        return False
    fn, sn, r = index, size - 1, sha256(b"\0", leaf)
    for p in hashes:
        if sn == 0:
            return False
        if fn & 1 or fn == sn:
            r = node(p, r)
            while fn and not fn & 1:
                fn, sn = fn >> 1, sn >> 1
        else:
            r = node(r, p)
        fn, sn = fn >> 1, sn >> 1
    return sn == 0 and r == root


def entry(part, kind, check="entry"):
    leaf = unb64(part["leaf"])
    demand(len(leaf) == 138 and leaf[0] == 1 and leaf[1] == kind, check, "not such an entry")
    filled = {1: "cdi", 4: "r", 6: "rd"}[kind]
    fields = {"r": leaf[26:42], "c": leaf[42:74], "d": leaf[74:106], "i": leaf[106:138]}
    for name, value in fields.items():
        demand(any(value) == (name in filled), check, "a field is filled that must not be")
    return leaf


def prove(part, leaf, keys, check, head=None):
    parts = part["proof"].split("\n\n", 1)
    lines = parts[0].split("\n")
    demand(lines[0] == "c2sp.org/tlog-proof@v1" and len(parts) == 2, "format", "not a proof")
    own = signed_head(parts[1], keys)
    demand(head is None or own == head, check, "another head")
    demand(lines[1] == f"index {part['index']}", check, "another index")
    hashes = [unb64(line, 32) for line in lines[2:]]
    demand(included(leaf, part["index"], own[1], hashes, own[2]), check, "not in the tree")
    return own


def committed(bundle, name, salt, commitment, check):
    document = unb64(bundle[name])
    same = sha256(PREFIX, unb64(bundle[salt], 32), document) == commitment
    demand(same, check, f"not the {name} of the entry")
    return document


def verify(bundle, keys):
    demand(bundle.get("format") == "evidence/1", "format", "not evidence/1")
    keys = keys or bundle["keys"]
    # The signature first, as the Java verifier does, then the entry, then where it is.
    signed_head(bundle["proof"].split("\n\n", 1)[1], keys)
    leaf = entry(bundle, 1)
    head = prove(bundle, leaf, keys, "inclusion")
    identifier = leaf[10:26]
    if "decision" in bundle:
        demand("erasure" not in bundle, "commitments", "erased, but here")
        decision = committed(bundle, "decision", "decisionSalt", leaf[74:106], "commitments")
        inputs = committed(bundle, "inputs", "inputsSalt", leaf[106:138], "commitments")
        criteria = unb64(bundle["criteriaSet"])
        demand(sha256(criteria) == leaf[42:74], "commitments", "not the criteria set of the entry")
        said, used, rules = json.loads(decision), json.loads(inputs), json.loads(criteria)
        own = said["decisionId"].replace("-", "")
        demand(own == identifier.hex(), "documents", "id")
        demand(said["inputsSha256"] == sha256(inputs).hex(), "documents", "inputs")
        for names in (said["criteriaSet"], used["criteriaSet"]):
            demand((names["id"], names["version"]) == (rules["id"], rules["version"])
                   and names["sha256"] == sha256(criteria).hex(), "documents", "criteria set")
        engine = bundle["engineVersion"]
        demand(said["engineVersion"] == used["engineVersion"] == engine, "documents", "engine")
    else:
        demand("erasure" in bundle, "erasure", "documents are missing and no erasure says why")
        erasure = bundle["erasure"]
        gone = entry(erasure, 4, "entry")
        prove(erasure, gone, keys, "erasure", head)
        demand(gone[26:42] == identifier and erasure["index"] > bundle["index"],
               "erasure", "of another entry")
    demand(isinstance(bundle["determinations"], list), "format", "determinations is no list")
    seen = set()
    for one in bundle["determinations"]:
        statement = entry(one, 6, "entry")
        demand(statement[10:26] not in seen, "determinations", "one stands there twice")
        seen.add(statement[10:26])
        prove(one, statement, keys, "determinations", head)
        demand(statement[26:42] == identifier, "determinations", "about another decision")
        committed(one, "determination", "determinationSalt", statement[74:106], "determinations")


def main(arguments):
    keys = []
    while arguments and arguments[0] == "--key":
        keys.append(arguments[1])
        arguments = arguments[2:]
    worst = 0
    for file in arguments:
        try:
            with open(file, encoding="utf-8") as text:
                verify(json.load(text), keys)
            print(f"{file}: ok")
        except Failed as failed:
            print(f"{file}: {failed}")
            worst = 1
        except (ValueError, KeyError, IndexError, TypeError) as broken:
            print(f"{file}: format: {broken!r}")
            worst = 1
    return worst


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
