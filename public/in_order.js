// Puts the pieces of the program back as they were before the build sorted their
// bytes by what they mean, so that they compress better (demo/ship/src/sorted, which
// says what the streams and codes are).
//
// `file` is the ArrayBuffer of all pieces, `lengths` are theirs, in bytes; gives a
// Uint8Array of all pieces one after another.
function inOrder(file, lengths) {
  const STREAMS = 24;
  const [
    CODE, POINTER, LOAD, LOCAL, STORE, BLOCK, TYPE, BRANCH, CALL, I32, , , , , ADDED, ,
    I64, TABLE, OTHER, FLOAT, SECTION, DATA, FRAME, LOCALS,
  ] = Array(STREAMS).keys();
  const GET = 0x20;
  const [ALIGNED, SMALL, LONG] = [0xc8, 0xd8, 0xf0];
  const NATURAL = [...'23230011001122232301012'].map(Number);
  const OPERANDS_FC = '000000002121212111';

  // The stream of an instruction's only operand; none is 0, as CODE is no operand's.
  const operand = new Uint8Array(256);
  operand[0x02] = operand[0x03] = operand[0x04] = BLOCK;
  operand[0x0c] = operand[0x0d] = BRANCH;
  operand[0x10] = CALL;
  operand[0x21] = operand[0x22] = LOCAL;
  operand.fill(OTHER, 0x23, 0x27);
  operand[0x3f] = operand[0x40] = operand[0xd0] = operand[0xd2] = OTHER;
  operand[0x42] = I64;

  const bytes = new Uint8Array(file);
  const next = new Uint32Array(file.slice(0, 4 * STREAMS));
  const length = lengths.reduce((sum, one) => sum + one, 0);
  const whole = new Uint8Array(length + 5); // see body
  let at = 0;

  for (const one of lengths) {
    const end = at + one;
    copy(FRAME, 8);
    while (at < end) {
      const kind = number(FRAME);
      const size = number(FRAME);
      if (kind === 10) times(number(FRAME), body);
      else copy(kind === 11 ? DATA : SECTION, size);
    }
  }
  return whole.subarray(0, length);

  function times(count, what) {
    for (; count > 0 && at < length; count--) what();
  }

  function copy(stream, count) {
    whole.set(bytes.subarray(next[stream], (next[stream] += count)), at);
    at += count;
  }

  // LEB128 as it stands; counts and sizes are taken by value.
  function number(stream) {
    let value = 0;
    for (let shift = 0; ; shift += 7) {
      const byte = (whole[at++] = bytes[next[stream]++]);
      value |= (byte & 0x7f) << shift;
      if (!(byte > 0x7f)) return value;
    }
  }

  function code() {
    return bytes[next[CODE]++] ^ GET;
  }

  // A function. Its length stands before it and takes up to five bytes; it is known
  // when the function is there.
  function body() {
    const before = at;
    const from = (at += 5);
    times(number(LOCALS), () => (number(LOCALS), number(LOCALS)));
    for (let depth = 1; depth > 0 && at < whole.length; ) depth += step();
    const size = at - from;
    at = before;
    for (let rest = size; rest > 0; rest >>= 7) whole[at++] = rest > 0x7f ? rest | 0x80 : rest;
    whole.copyWithin(at, from, from + size);
    at += size;
  }

  // An instruction with its operands; gives by how much the blocks are deeper after it.
  function step() {
    let what = code();
    let align;
    let bytesOfConstant = 1;
    if (what >= SMALL && what < SMALL + 9) {
      whole[at++] = 0x41;
      whole[at++] = (what - SMALL - 1) & 0x7f;
      return 0;
    }
    if (what >= ALIGNED && what < ALIGNED + 4) {
      align = what - ALIGNED;
      what = code();
    } else if (what > LONG + 1 && what < LONG + 6) {
      bytesOfConstant = what - LONG;
      what = 0x41;
    }
    whole[at++] = what;
    const after = bytes[next[CODE]] ^ GET;
    if (what === GET) {
      number(after >= 0x28 && after < 0x36 ? POINTER : LOCAL);
    } else if (what === 0x41) {
      number((bytesOfConstant < 3 && after === 0x6a ? ADDED : I32) + bytesOfConstant - 1);
    } else if (what >= 0x28 && what < 0x3f) {
      whole[at++] = align ?? NATURAL[what - 0x28];
      number(what < 0x36 ? LOAD : STORE);
    } else if (what === 0x0e) {
      times(number(TABLE) + 1, () => number(TABLE));
    } else if (what === 0x11) {
      number(TYPE);
      number(OTHER);
    } else if (what === 0x1c) {
      times(number(OTHER), () => number(OTHER));
    } else if (what === 0x43 || what === 0x44) {
      copy(FLOAT, what === 0x43 ? 4 : 8);
    } else if (what === 0xfc) {
      whole[at++] = what = code();
      times(OPERANDS_FC[what], () => number(OTHER));
      return 0;
    } else if (operand[what]) {
      number(operand[what]);
    }
    return what === 0x0b ? -1 : what > 0x01 && what < 0x05 ? 1 : 0;
  }
}
