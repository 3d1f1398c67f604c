#![allow(clippy::unwrap_used)]
use super::*;

/// A program of one function with this body, after its locals.
fn program(code: &[u8]) -> Vec<u8> {
    let mut body = vec![1, 3, 0x7f]; // three locals, i32
    body.extend(code);
    body.push(0x0b);
    let mut functions = vec![1];
    functions.extend(number(body.len()));
    functions.extend(body);
    let mut program = b"\0asm\x01\0\0\0".to_vec();
    program.extend([3, 2, 1, 0]);
    program.push(10);
    program.extend(number(functions.len()));
    program.extend(functions);
    program.extend([11, 4, 1, 1, 1, b'!']);
    program
}

fn number(mut value: usize) -> Vec<u8> {
    let mut bytes = Vec::new();
    loop {
        let low = u8::try_from(value & 0x7f).unwrap();
        value >>= 7;
        bytes.push(if value == 0 { low } else { low | 0x80 });
        if value == 0 {
            return bytes;
        }
    }
}

/// What stands in `stream` of a sorted file.
fn stream(file: &[u8], stream: Stream) -> &[u8] {
    let start = |nth: usize| match file[..4 * STREAMS].chunks_exact(4).nth(nth) {
        Some(start) => u32::from_le_bytes(start.try_into().unwrap()) as usize,
        None => file.len(),
    };
    &file[start(stream as usize)..start(stream as usize + 1)]
}

/// Puts the programs of these lengths back (in the page it is `public/in_order.js`).
struct Back<'a> {
    streams: Vec<&'a [u8]>,
    whole: Vec<u8>,
}

impl Back<'_> {
    fn of(file: &[u8], lengths: &[usize]) -> Vec<u8> {
        use Stream::*;
        let all = [
            Code, Pointer, Load, Local, Store, Block, Type, Branch, Call, I32, I32Of2, I32Of3,
            I32Of4, I32Of5, Added, AddedOf2, I64, Table, Other, Float, Section, Data, Frame,
            Locals,
        ];
        let mut back =
            Back { streams: all.map(|one| stream(file, one)).to_vec(), whole: Vec::new() };
        for length in lengths {
            let end = back.whole.len() + length;
            back.copy(Frame, 8);
            while back.whole.len() < end {
                let kind = back.number(Frame);
                let size = back.number(Frame);
                match kind {
                    10 => (0..back.number(Frame)).for_each(|_| back.function()),
                    11 => back.copy(Data, size),
                    _ => back.copy(Section, size),
                }
            }
        }
        assert!(back.streams.iter().all(|stream| stream.is_empty()), "all of it was used");
        back.whole
    }

    fn take(&mut self, stream: Stream) -> u8 {
        let (first, rest) = self.streams[stream as usize].split_first().unwrap();
        self.streams[stream as usize] = rest;
        *first
    }

    fn copy(&mut self, stream: Stream, length: usize) {
        for _ in 0..length {
            let byte = self.take(stream);
            self.whole.push(byte);
        }
    }

    fn number(&mut self, stream: Stream) -> usize {
        let (mut value, mut shift) = (0, 0);
        loop {
            let byte = self.take(stream);
            self.whole.push(byte);
            value |= usize::from(byte & 0x7f).checked_shl(shift).unwrap_or_default();
            shift += 7;
            if byte < 0x80 {
                return value;
            }
        }
    }

    fn numbers(&mut self, stream: Stream, count: usize) {
        for _ in 0..count {
            self.number(stream);
        }
    }

    fn function(&mut self) {
        let before = std::mem::take(&mut self.whole);
        let groups = self.number(Stream::Locals);
        self.numbers(Stream::Locals, 2 * groups);
        let mut depth = 1;
        while depth > 0 {
            depth += self.step();
        }
        let body = std::mem::replace(&mut self.whole, before);
        self.whole.extend(number(body.len()));
        self.whole.extend(body);
    }

    fn step(&mut self) -> i32 {
        let mut code = self.take(Stream::Code) ^ GET;
        let (mut align, mut length) = (None, 1);
        match code {
            SMALL..0xe1 => {
                self.whole.extend([0x41, code.wrapping_sub(SMALL + 1) & 0x7f]);
                return 0;
            }
            ALIGNED..0xcc => {
                align = Some(code - ALIGNED);
                code = self.take(Stream::Code) ^ GET;
            }
            LONG..0xf6 => {
                length = usize::from(code - LONG);
                code = 0x41;
            }
            _ => {}
        }
        self.whole.push(code);
        let after = self.streams[Stream::Code as usize].first().map_or(0, |next| next ^ GET);
        match code {
            0x0b => return -1,
            0x02..=0x04 => {
                self.number(Stream::Block);
                return 1;
            }
            0x20 if (0x28..0x36).contains(&after) => self.numbers(Stream::Pointer, 1),
            0x20..=0x22 => self.numbers(Stream::Local, 1),
            0x28..=0x3e => {
                self.whole.push(align.unwrap_or(NATURAL[usize::from(code) - 0x28] - b'0'));
                self.number(if code < 0x36 { Stream::Load } else { Stream::Store });
            }
            0x41 if length < 3 && after == ADD => self.numbers(ADDED[length - 1], 1),
            0x41 => self.numbers(I32[length - 1], 1),
            0x42 => self.numbers(Stream::I64, 1),
            0x43 => self.copy(Stream::Float, 4),
            0x44 => self.copy(Stream::Float, 8),
            0x0c | 0x0d => self.numbers(Stream::Branch, 1),
            0x0e => {
                let count = self.number(Stream::Table) + 1;
                self.numbers(Stream::Table, count);
            }
            0x10 => self.numbers(Stream::Call, 1),
            0x11 => {
                self.number(Stream::Type);
                self.number(Stream::Other);
            }
            0x1c => {
                let count = self.number(Stream::Other);
                self.numbers(Stream::Other, count);
            }
            0xfc => {
                let which = self.take(Stream::Code) ^ GET;
                self.whole.push(which);
                self.numbers(Stream::Other, usize::from(OPERANDS_FC[usize::from(which)] - b'0'));
            }
            0x23..=0x26 | 0x3f | 0x40 | 0xd0 | 0xd2 => self.numbers(Stream::Other, 1),
            _ => {}
        }
        0
    }
}

fn comes_back(codes: &[&[u8]]) {
    let programs: Vec<_> = codes.iter().map(|code| program(code)).collect();
    let programs: Vec<_> = programs.iter().map(Vec::as_slice).collect();
    let file = sorted(&programs).unwrap();
    let lengths: Vec<_> = programs.iter().map(|one| one.len()).collect();
    assert_eq!(Back::of(&file, &lengths), programs.concat());
}

#[test]
fn every_kind_of_instruction_comes_back() {
    let codes: [&[u8]; 17] = [
        &[],
        &[0x00, 0x01, 0x0f, 0x1a, 0x1b, 0xd1, 0x45, 0xc4],
        &[0x02, 0x40, 0x03, 0x7f, 0x04, 0x80, 0x01, 0x05, 0x0c, 0, 0x0b, 0x0d, 0x81, 0, 0x0b, 0x0b],
        &[0x0e, 2, 0, 1, 0x80, 0x01, 0x0e, 0, 0],
        &[0x10, 0x80, 0x02, 0x11, 3, 0, 0x1c, 1, 0x6f],
        &[0x20, 0, 0x21, 1, 0x22, 2, 0x23, 0, 0x24, 0, 0x25, 0, 0x26, 0],
        &[0x20, 1, 0x28, 2, 0x90, 0x01, 0x20, 1, 0x28, 1, 4, 0x20, 2, 0x36, 2, 0],
        &[0x29, 3, 0, 0x37, 2, 8, 0x3a, 0, 1, 0x3e, 2, 1, 0x3e, 0, 1, 0x2a, 2, 0],
        &[0x3f, 0, 0x40, 0],
        &[0x41, 0, 0x41, 7, 0x41, 8, 0x41, 0x7f, 0x41, 0x7e, 0x41, 8, 0x6a, 0x41, 1, 0x6a],
        &[0x41, 0x80, 0x01, 0x41, 0x80, 0x01, 0x6a, 0x41, 0x80, 0x80, 0xc0, 0],
        &[0x41, 0x80, 0x80, 0x01, 0x6a, 0x41, 0x80, 0x80, 0x80, 0x80, 0x78],
        &[0x42, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x7f],
        &[0x43, 0xff, 0x0b, 0x80, 1, 0x44, 1, 2, 3, 4, 5, 6, 7, 0x0b],
        &[0xd0, 0x70, 0xd2, 0x80, 0x01],
        &[0xfc, 0, 0xfc, 8, 1, 0, 0xfc, 9, 1, 0xfc, 10, 0, 0, 0xfc, 11, 0, 0xfc, 12, 0x80, 1, 0],
        &[0xfc, 13, 0, 0xfc, 14, 0, 0, 0xfc, 15, 0, 0xfc, 16, 0, 0xfc, 17, 0],
    ];
    for code in codes {
        comes_back(&[code]);
    }
    comes_back(&codes);
    comes_back(&[&[0x01; 127], &[0x01; 128], &[0x41; 20_000]]);
}

#[test]
fn what_is_alike_stands_together() {
    let code = [0x20, 2, 0x28, 2, 16, 0x21, 1, 0x20, 1, 0x41, 9, 0x6a, 0x41, 3, 0x36, 0, 20];
    let file = sorted(&[&program(&code)]).unwrap();
    let codes = [0x20, 0x28, 0x21, 0x20, 0x41, 0x6a, SMALL + 4, ALIGNED, 0x36, 0x0b];
    assert_eq!(stream(&file, Stream::Code), codes.map(|code| code ^ GET));
    assert_eq!(stream(&file, Stream::Pointer), [2]);
    assert_eq!(stream(&file, Stream::Local), [1, 1]);
    assert_eq!(stream(&file, Stream::Load), [16]);
    assert_eq!(stream(&file, Stream::Store), [20]);
    assert_eq!(stream(&file, Stream::Added), [9]);
    assert_eq!(stream(&file, Stream::Data), [1, 1, 1, b'!']);
}

#[test]
fn what_is_not_known_is_refused() {
    for (code, complaint) in [
        (&[0x06, 0x40][..], "unknown instruction 06"),
        (&[0xc8], "unknown instruction c8"),
        (&[0xfd, 0], "unknown instruction fd"),
        (&[0xfc, 18], "unknown instruction fc 12"),
        (&[0x28, 0x42, 0, 0], "unknown alignment 66"),
        (&[0x0b], "a function does not end where it says"),
        (&[0x02, 0x40], "the program ends too early"),
    ] {
        assert_eq!(sorted(&[&program(code)]).unwrap_err(), complaint);
    }
    let whole = program(&[0x20, 0]);
    for length in 0..whole.len() {
        // A program may end between two sections.
        if !matches!(length, 0 | 8 | 12 | 22) {
            sorted(&[&whole[..length]]).unwrap_err();
        }
    }
    let long = whole.iter().position(|byte| *byte == 6).unwrap();
    let mut padded = whole.clone();
    padded.splice(long..=long, [0x86, 0]);
    padded[long - 2] += 1;
    assert!(sorted(&[&padded]).unwrap_err().contains("more bytes than it must"));
}
