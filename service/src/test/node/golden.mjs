// Prints the golden vectors of the ledger a third time; the text must equal golden.py's.
//
//     node golden.mjs > ../resources/ledger/golden-node.txt
//
// Hashes and signatures are those of OpenSSL, which Node carries.
import {createHash, createPrivateKey, createPublicKey, sign} from 'node:crypto';

const [prefix = 'evenside/commit/v1', origin = 'ledger.evenside.example/clinic-a'] =
    process.argv.slice(2);
// The key of RFC 8032 section 7.1, TEST 2, behind the fixed start of its PKCS#8 form (RFC 8410).
const key = createPrivateKey({
  key: Buffer.from('302e020100300506032b657004220420' +
      '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb', 'hex'),
  format: 'der', type: 'pkcs8',
});
const publicKey = createPublicKey(key).export({format: 'der', type: 'spki'}).subarray(-32);

const sha256 = (...parts) => createHash('sha256').update(Buffer.concat(parts)).digest();
const bytes = (from) => Buffer.from(Array.from({length: 32}, (_, i) => from + i));
const id = (last) => Buffer.from('0190b2f45c1e7c4a9d2e4f0a1b2c3d' + last, 'hex');
const time = (ms) => { const b = Buffer.alloc(8); b.writeBigUInt64BE(BigInt(ms)); return b; };
const zeros = (n) => Buffer.alloc(n);
const commit = (salt, doc) =>
    sha256(Buffer.from(prefix), zeros(1), salt, Buffer.from(doc));

const criteria = sha256(Buffer.from('{"id":"rts","version":"2.1.0"}'));
const decision = commit(bytes(0),
    '{"decisionId":"0190b2f4-5c1e-7c4a-9d2e-4f0a1b2c3d50","outcome":"not-ready"}');
const inputs = commit(bytes(32), '{"batteryId":"0190b2f4-5c1e-7c4a-9d2e-4f0a1b2c3d4f"}');
const leaves = [
  [Buffer.from([1, 2]), time(1741946400000), id('01'), zeros(16), criteria, zeros(64)],
  [Buffer.from([1, 1]), time(0x195941aad33), id('50'), zeros(16), criteria, decision, inputs],
  [Buffer.from([1, 4]), time(1741990000000), id('60'), id('50'), zeros(96)],
].map((parts) => Buffer.concat(parts));
const hashes = leaves.map((leaf) => sha256(zeros(1), leaf));
const node = (left, right) => sha256(Buffer.from([1]), left, right);
const root = node(node(hashes[0], hashes[1]), hashes[2]);
const typed = Buffer.concat([Buffer.from([1]), publicKey]);
const keyId = sha256(Buffer.from(origin + '\n'), typed).subarray(0, 4);
const head = `${origin}\n3\n${root.toString('base64')}\n`;
const signature = Buffer.concat([keyId, sign(null, Buffer.from(head), key)]).toString('base64');

console.log('criteria', criteria.toString('hex'));
console.log('decision', decision.toString('hex'));
console.log('inputs', inputs.toString('hex'));
leaves.forEach((leaf, i) => {
  console.log('leaf', i, leaf.toString('hex'));
  console.log('leaf-hash', i, hashes[i].toString('hex'));
});
console.log('root', root.toString('hex'));
console.log('key', `${origin}+${keyId.toString('hex')}+${typed.toString('base64')}`);
console.log();
console.log(`c2sp.org/tlog-proof@v1\nindex 1\n${hashes[0].toString('base64')}`);
console.log(`${hashes[2].toString('base64')}\n`);
console.log(head);
console.log(`\u2014 ${origin} ${signature}`);
