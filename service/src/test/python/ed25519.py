"""Ed25519 in plain Python integers, for checking only: slow, and not constant in time.

Source: RFC 8032 section 5.1, written from its equations.
"""
import hashlib

P = 2**255 - 19
L = 2**252 + 27742317777372353535851937790883648493
D = -121665 * pow(121666, P - 2, P) % P
ROOT_OF_MINUS_ONE = pow(2, (P - 1) // 4, P)


def _x(y, odd):
    """x of the point with that y (RFC 8032 5.1.3), or None if there is none."""
    if y >= P:
        return None
    square = (y * y - 1) * pow(D * y * y + 1, P - 2, P) % P
    x = pow(square, (P + 3) // 8, P)
    if (x * x - square) % P != 0:
        x = x * ROOT_OF_MINUS_ONE % P
    if (x * x - square) % P != 0 or (x == 0 and odd):
        return None
    return P - x if x & 1 != odd else x


def _decode(b):
    number = int.from_bytes(b, "little")
    y, odd = number & (2**255 - 1), number >> 255
    x = _x(y, odd)
    return None if x is None else (x, y, 1, x * y % P)


def _encode(p):
    z = pow(p[2], P - 2, P)
    x, y = p[0] * z % P, p[1] * z % P
    return (y | (x & 1) << 255).to_bytes(32, "little")


def _add(p, q):
    a, b = (p[1] - p[0]) * (q[1] - q[0]) % P, (p[1] + p[0]) * (q[1] + q[0]) % P
    c, d = 2 * p[3] * q[3] * D % P, 2 * p[2] * q[2] % P
    e, f, g, h = b - a, d - c, d + c, b + a
    return e * f % P, g * h % P, f * g % P, e * h % P


def _times(n, p):
    q = (0, 1, 1, 0)
    while n:
        if n & 1:
            q = _add(q, p)
        p = _add(p, p)
        n >>= 1
    return q


_BASE_Y = 4 * pow(5, P - 2, P) % P
_BASE_X = _x(_BASE_Y, 0)
BASE = (_BASE_X, _BASE_Y, 1, _BASE_X * _BASE_Y % P)


def _hash(*parts):
    return int.from_bytes(hashlib.sha512(b"".join(parts)).digest(), "little") % L


def _secret(seed):
    h = hashlib.sha512(seed).digest()
    return int.from_bytes(h[:32], "little") & (2**254 - 8) | 2**254, h[32:]


def public_key(seed):
    return _encode(_times(_secret(seed)[0], BASE))


def sign(seed, message):
    a, prefix = _secret(seed)
    r = _hash(prefix, message)
    big_r = _encode(_times(r, BASE))
    s = (r + _hash(big_r, public_key(seed), message) * a) % L
    return big_r + s.to_bytes(32, "little")


def verifies(public, message, signature):
    if len(signature) != 64 or len(public) != 32:
        return False
    a, r = _decode(public), _decode(signature[:32])
    s = int.from_bytes(signature[32:], "little")
    if a is None or r is None or s >= L:
        return False
    k = _hash(signature[:32], public, message)
    return _encode(_times(s, BASE)) == _encode(_add(r, _times(k, a)))
