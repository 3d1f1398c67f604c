//! Programs sorted by what their bytes mean, for the way to the phone: brotli looks
//! for what repeats, and the indices of locals repeat among themselves, as do the
//! offsets in memory and the instructions without either. Of the 1343 KB of all pieces
//! of the program it makes 481 KB as they are, and 406 KB sorted.
//!
//! `public/in_order.js` puts them back, with the same streams and codes. The file
//! begins with the place of each stream's first byte (u32, little-endian).
//! Section and instruction numbers are those of the WebAssembly Core Specification
//! 2.0, chapter 5, "Binary Format".

mod bytes;
#[cfg(test)]
mod tests;

use bytes::{Bytes, Found};

/// What a byte of a program is, in the order of the file: as measured, streams that
/// share their look stand side by side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stream {
    /// What each function does, without operands, and the codes below.
    Code,
    /// The local that a load takes its address from.
    Pointer,
    Load,
    Local,
    Store,
    Block,
    Type,
    Branch,
    Call,
    /// `i32.const` by length, here of one byte; the four after it are longer.
    I32,
    I32Of2,
    I32Of3,
    I32Of4,
    I32Of5,
    /// `i32.const` right before `i32.add`, of one or two bytes.
    Added,
    AddedOf2,
    I64,
    Table,
    Other,
    Float,
    Section,
    Data,
    /// What stands around sections and counts functions.
    Frame,
    Locals,
}

const STREAMS: usize = Stream::Locals as usize + 1;
const I32: [Stream; 5] =
    [Stream::I32, Stream::I32Of2, Stream::I32Of3, Stream::I32Of4, Stream::I32Of5];
const ADDED: [Stream; 2] = [Stream::Added, Stream::AddedOf2];

/// `local.get`, the commonest instruction, becomes zero: far from text, which brotli
/// would look for.
const GET: u8 = 0x20;
const ADD: u8 = 0x6a;
/// Codes of ours, which are no instruction: before a load or store with an alignment
/// (log2, added) other than its own, `i32.const` of -1 to 7, and of 2 to 5 bytes.
const ALIGNED: u8 = 0xc8;
const SMALL: u8 = 0xd8;
const LONG: u8 = 0xf0;

/// Alignment (log2) of each load and store as wide as it is, from 0x28.
const NATURAL: &[u8; 23] = b"23230011001122232301012";
/// Number of operands of each instruction after 0xfc.
const OPERANDS_FC: &[u8; 18] = b"000000002121212111";

/// `programs` in one file, sorted.
///
/// # Errors
/// If one of them is no program, or has something in it that is not known here or
/// would not come back as it was.
pub fn sorted(programs: &[&[u8]]) -> Result<Vec<u8>, String> {
    let mut streams = Streams::default();
    for program in programs {
        streams.program(Bytes::of(program))?;
    }
    let mut starts = Vec::new();
    let mut bytes = Vec::new();
    for stream in &streams.0 {
        let start = u32::try_from(4 * STREAMS + bytes.len()).map_err(|error| error.to_string())?;
        starts.extend(start.to_le_bytes());
        bytes.extend(stream);
    }
    Ok([starts, bytes].concat())
}

#[derive(Default)]
struct Streams([Vec<u8>; STREAMS]);

impl Streams {
    fn add(&mut self, stream: Stream, bytes: &[u8]) {
        self.0[stream as usize].extend(bytes);
    }

    fn program(&mut self, mut program: Bytes<'_>) -> Result<(), String> {
        self.add(Stream::Frame, program.take(8)?);
        while !program.is_empty() {
            let kind = program.take(1)?;
            let Found { value: size, bytes } = program.number()?;
            self.add(Stream::Frame, kind);
            self.add(Stream::Frame, bytes);
            let section = program.take(size)?;
            match kind {
                [10] => self.functions(Bytes::of(section))?,
                [11] => self.add(Stream::Data, section),
                _ => self.add(Stream::Section, section),
            }
        }
        Ok(())
    }

    fn functions(&mut self, mut section: Bytes<'_>) -> Result<(), String> {
        let Found { value: count, bytes } = section.number()?;
        self.add(Stream::Frame, bytes);
        for _ in 0..count {
            let Found { value: size, bytes } = section.number()?;
            // It is counted anew when the function is put back.
            if bytes.len() > 1 && bytes.ends_with(&[0]) {
                return Err("the length of a function takes more bytes than it must".into());
            }
            self.function(Bytes::of(section.take(size)?))?;
        }
        if section.is_empty() { Ok(()) } else { Err("something stands after the functions".into()) }
    }

    fn function(&mut self, mut body: Bytes<'_>) -> Result<(), String> {
        let Found { value: groups, bytes } = body.number()?;
        self.add(Stream::Locals, bytes);
        for _ in 0..groups {
            self.add(Stream::Locals, body.number()?.bytes);
            self.add(Stream::Locals, body.value_type()?);
        }
        let mut steps = Vec::new();
        let mut depth = 1;
        while depth > 0 {
            let step = Step::read(&mut body)?;
            match step.code[..] {
                [0x02..=0x04] => depth += 1,
                [0x0b] => depth -= 1,
                _ => {}
            }
            steps.push(step);
        }
        if !body.is_empty() {
            return Err("a function does not end where it says".into());
        }
        for (nth, step) in steps.iter().enumerate() {
            self.0[Stream::Code as usize].extend(step.code.iter().map(|code| code ^ GET));
            let next = steps.get(nth + 1).map_or(0, |next| next.code[0]);
            for (stream, bytes) in &step.operands {
                let stream = match (stream, next) {
                    (Stream::Local, 0x28..=0x35) if step.code == [GET] => Stream::Pointer,
                    (Stream::I32, ADD) if bytes.len() <= ADDED.len() => ADDED[bytes.len() - 1],
                    (Stream::I32, _) => I32[bytes.len() - 1],
                    (stream, _) => *stream,
                };
                self.add(stream, bytes);
            }
        }
        Ok(())
    }
}

/// An instruction: its code, ours or its own, and its operands.
struct Step<'a> {
    code: Vec<u8>,
    operands: Vec<(Stream, &'a [u8])>,
}

impl<'a> Step<'a> {
    fn read(body: &mut Bytes<'a>) -> Result<Self, String> {
        let code = body.byte()?;
        let mut step = Self { code: vec![code], operands: Vec::new() };
        let streams: &[Stream] = match code {
            0x02..=0x04 => &[Stream::Block],
            0x0c | 0x0d => &[Stream::Branch],
            0x0e => return step.list(body, Stream::Table, 1),
            0x10 => &[Stream::Call],
            0x11 => &[Stream::Type, Stream::Other],
            0x1c => return step.list(body, Stream::Other, 0),
            0x20..=0x22 => &[Stream::Local],
            0x23..=0x26 | 0x3f | 0x40 | 0xd0 | 0xd2 => &[Stream::Other],
            0x28..=0x3e => return step.in_memory(body),
            0x41 => return step.constant(body),
            0x42 => &[Stream::I64],
            0x43 | 0x44 => {
                step.operands.push((Stream::Float, body.take(if code == 0x43 { 4 } else { 8 })?));
                &[]
            }
            0x00 | 0x01 | 0x05 | 0x0b | 0x0f | 0x1a | 0x1b | 0x45..=0xc4 | 0xd1 => &[],
            0xfc => {
                let which = body.byte()?;
                let count = OPERANDS_FC.get(usize::from(which));
                let count = count.ok_or_else(|| format!("unknown instruction fc {which:02x}"))?;
                step.code.push(which);
                &[Stream::Other; 2][..usize::from(count - b'0')]
            }
            _ => return Err(format!("unknown instruction {code:02x}")),
        };
        for stream in streams {
            step.operands.push((*stream, body.number()?.bytes));
        }
        Ok(step)
    }

    /// A number, and that many numbers and `more`.
    fn list(mut self, body: &mut Bytes<'a>, stream: Stream, more: usize) -> Result<Self, String> {
        let Found { value: count, bytes } = body.number()?;
        self.operands.push((stream, bytes));
        for _ in 0..count + more {
            self.operands.push((stream, body.number()?.bytes));
        }
        Ok(self)
    }

    fn in_memory(mut self, body: &mut Bytes<'a>) -> Result<Self, String> {
        let code = self.code[0];
        let align = body.byte()?;
        if align > 3 {
            return Err(format!("unknown alignment {align}"));
        }
        if align != NATURAL[usize::from(code - 0x28)] - b'0' {
            self.code.insert(0, ALIGNED + align);
        }
        let stream = if code < 0x36 { Stream::Load } else { Stream::Store };
        self.operands.push((stream, body.number()?.bytes));
        Ok(self)
    }

    fn constant(mut self, body: &mut Bytes<'a>) -> Result<Self, String> {
        let bytes = body.number()?.bytes;
        match (bytes, bytes.len()) {
            ([0x7f], _) => self.code = vec![SMALL],
            ([value @ 0..=7], _) => self.code = vec![SMALL + 1 + value],
            (_, 1) => self.operands.push((Stream::I32, bytes)),
            (_, length) => {
                self.code = vec![LONG + u8::try_from(length).map_err(|error| error.to_string())?];
                self.operands.push((Stream::I32, bytes));
            }
        }
        Ok(self)
    }
}
